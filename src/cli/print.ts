import { once } from 'node:events';
import type { Ended } from './ended.ts';

/**
 * Prints what a command has to say; gives its exit code, 2 where the output cannot be written. A reader that has seen
 * enough and closes its pipe is no fault.
 */
export async function print({ code, out, err }: Ended): Promise<number> {
  const refused = await written(process.stdout, out);
  const unsaid = await written(process.stderr, err);
  if (refused !== undefined) await written(process.stderr, `the output cannot be written: ${refused}`);
  return refused === undefined && unsaid === undefined ? code : 2;
}

/** Why a text could not be written; undefined where it was, or where nobody reads it any more. */
async function written(stream: NodeJS.WriteStream, text: string): Promise<string | undefined> {
  if (text === '') return undefined;
  // A stream reports the same fault by an event too, which would end the process where nobody listens.
  const failed = once(stream, 'error').then(([error]) => error as NodeJS.ErrnoException);
  const done = new Promise<NodeJS.ErrnoException | null | undefined>((resolve) =>
    stream.write(`${text}\n`, (error) => resolve(error)),
  );
  const error = await Promise.race([done, failed]);
  return error && error.code !== 'EPIPE' ? error.message : undefined;
}
