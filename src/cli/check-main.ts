/** What run.mjs starts for `check`; the work is done in a thread that loads this same file. */
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { bounded } from './bounded.ts';
import { readCheck, runCheck, type AskedOfCheck } from './check/command.ts';
import { print } from './print.ts';

export interface Bundle {
  /** Path of this file as bundled. */
  readonly self: string;
}

export async function main(args: readonly string[], { self }: Bundle): Promise<number> {
  const asked = readCheck(args);
  if ('code' in asked) return print(asked);
  return print(await bounded(self, asked, asked.seconds, `${asked.file}: `));
}

if (!isMainThread && parentPort) {
  const port = parentPort;
  void runCheck(workerData as AskedOfCheck).then((ended) => port.postMessage(ended));
}
