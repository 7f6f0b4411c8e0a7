import { readFileSync, statSync } from 'node:fs';
import { LIMITS } from '../files/xlsx/limits.ts';
import { UnreadableFile } from '../files/xlsx/unreadable.ts';

/** The bytes of a workbook's file. Throws UnreadableFile where it is too large to be taken. */
export function readWhole(file: string): Uint8Array {
  const { size } = statSync(file);
  if (size > LIMITS.file)
    throw new UnreadableFile(`it has ${Math.ceil(size / 1e6)} MB; at most ${LIMITS.file / 1e6} MB are taken`);
  return readFileSync(file);
}
