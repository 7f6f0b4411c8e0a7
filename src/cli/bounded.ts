import { setTimeout as delay } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { LIMITS } from '../files/xlsx/limits.ts';
import type { Ended } from './ended.ts';

const MEMORY_MB = 3072;
const BOUNDS = { maxOldGenerationSizeMb: MEMORY_MB, stackSizeMb: 48 };

/** What asks a command to stop. */
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** By default. */
export const SECONDS = 120;

export const LIMITS_TOLD = `Limits: files of ${LIMITS.file / 1e6} MB, formulas of ${LIMITS.formula.toLocaleString('en-US')} characters with functions ${LIMITS.nesting} deep, ${MEMORY_MB / 1024} GB of memory, and the seconds given.`;

/**
 * Does a command's work in a thread of its own with bounded memory and time, since files and formulas may be
 * anybody's. `self` is the command's bundle, which loads once more as that thread, gets `work` and sends how it ended. Where it is given up,
 * `about` and `note` stand round the reason.
 */
export function bounded(self: string, work: unknown, seconds: number, about = '', note = ''): Promise<Ended> {
  return new Promise((resolve) => {
    const thread = new Worker(self, { workerData: work, resourceLimits: BOUNDS });
    const stopped = (): void => givenUp('stopped');
    const end = (ended: Ended): void => {
      clearTimeout(timer);
      for (const signal of SIGNALS) process.off(signal, stopped);
      resolve(ended);
    };
    const givenUp = (why: string): void => {
      // A thread that waits for a pipe does not end when told to, so it is not waited for long.
      const ended = (): void => end({ code: 2, out: '', err: `${about}${why}${note}` });
      void Promise.race([thread.terminate(), delay(1000)]).then(ended);
    };
    const timer = setTimeout(() => givenUp(`given up after ${seconds} seconds`), seconds * 1000);
    for (const signal of SIGNALS) process.once(signal, stopped);
    thread.on('message', (ended: Ended) => end(ended));
    thread.on('error', (error: NodeJS.ErrnoException) =>
      givenUp(
        error.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? `given up, since it needs more than ${MEMORY_MB} MB of memory`
          : `given up: ${error.message}`,
      ),
    );
  });
}
