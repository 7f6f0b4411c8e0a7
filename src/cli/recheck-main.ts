/**
 * What run.mjs starts for `recheck`. The work is done in a thread of its own with bounded memory and time, since
 * the workbook may be anybody's: this same file is then loaded once more, as that thread.
 */
import { rmSync } from 'node:fs';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { readArguments, recheckFile, type Asked, type Ended } from './recheck/command.ts';
import { unfinishedName } from './write-file.ts';

const MEMORY = { maxOldGenerationSizeMb: 3072, stackSizeMb: 48 };

export interface Bundle {
  /** Path of this file as bundled. */
  readonly self: string;
}

export async function main(args: readonly string[], { self }: Bundle): Promise<number> {
  const asked = readArguments(args);
  const { code, out, err } = 'code' in asked ? asked : await bounded(asked, self);
  if (out !== '') process.stdout.write(`${out}\n`);
  if (err !== '') process.stderr.write(`${err}\n`);
  return code;
}

function bounded(asked: Asked, self: string): Promise<Ended> {
  return new Promise((resolve) => {
    const thread = new Worker(self, { workerData: asked, resourceLimits: MEMORY });
    const end = (ended: Ended): void => {
      clearTimeout(timer);
      resolve(ended);
    };
    const givenUp = (why: string): void => {
      void thread.terminate().then(() => {
        if (asked.write !== undefined) rmSync(unfinishedName(asked.write), { force: true });
        end({ code: 2, out: '', err: `${asked.file}: ${why}; nothing was written` });
      });
    };
    const timer = setTimeout(() => givenUp(`given up after ${asked.seconds} seconds`), asked.seconds * 1000);
    thread.on('message', (ended: Ended) => end(ended));
    thread.on('error', (error: NodeJS.ErrnoException) =>
      givenUp(
        error.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? `given up, since it needs more than ${MEMORY.maxOldGenerationSizeMb} MB of memory`
          : `given up: ${error.message}`,
      ),
    );
  });
}

if (!isMainThread && parentPort) {
  const port = parentPort;
  void recheckFile(workerData as Asked).then((ended) => port.postMessage(ended));
}
