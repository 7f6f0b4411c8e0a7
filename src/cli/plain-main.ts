/** What run.mjs starts for `plain`; the work is done in a thread that loads this same file. */
import { rmSync } from 'node:fs';
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { bounded } from './bounded.ts';
import { plainFile, readPlain, type AskedOfPlain } from './plain/command.ts';
import { print } from './print.ts';
import { unfinishedName } from './write-file.ts';

export interface Bundle {
  /** Path of this file as bundled. */
  readonly self: string;
}

export async function main(args: readonly string[], { self }: Bundle): Promise<number> {
  const asked = readPlain(args);
  if ('code' in asked) return print(asked);
  const ended = await bounded(self, asked, asked.seconds, `${asked.file}: `, '; nothing was written');
  rmSync(unfinishedName(asked.copy), { force: true });
  return print(ended);
}

if (!isMainThread && parentPort) {
  const port = parentPort;
  void plainFile(workerData as AskedOfPlain).then((ended) => port.postMessage(ended));
}
