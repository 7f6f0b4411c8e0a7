/** What run.mjs starts for `recheck`; the work is done in a thread that loads this same file. */
import { rmSync } from 'node:fs';
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { bounded } from './bounded.ts';
import { print } from './print.ts';
import { readArguments, recheckFile, type Asked } from './recheck/command.ts';
import { unfinishedName } from './write-file.ts';

export interface Bundle {
  /** Path of this file as bundled. */
  readonly self: string;
}

export async function main(args: readonly string[], { self }: Bundle): Promise<number> {
  const asked = readArguments(args);
  if ('code' in asked) return print(asked);
  const ended = await bounded(self, asked, asked.seconds, `${asked.file}: `, '; nothing was written');
  if (asked.write !== undefined) rmSync(unfinishedName(asked.write), { force: true });
  return print(ended);
}

if (!isMainThread && parentPort) {
  const port = parentPort;
  void recheckFile(workerData as Asked).then((ended) => port.postMessage(ended));
}
