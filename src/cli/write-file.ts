import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';

/** Whether two paths are the same file, by whatever name. */
export function isSameFile(one: string, other: string): boolean {
  const [a, b] = [one, other].map((path) => statSync(path, { throwIfNoEntry: false }));
  return a !== undefined && b !== undefined && a.ino === b.ino && a.dev === b.dev;
}

/** The name under which a file is written before it is whole. */
export const unfinishedName = (path: string): string => `${path}.${process.pid}.part`;

/**
 * Writes a file so that under its name there is either all of it or what was there before. Without `replace` it never
 * takes the place of another file, not even of one that appears meanwhile. Throws what the file system says.
 */
export function writeWhole(path: string, bytes: Uint8Array, replace: boolean): void {
  const unfinished = unfinishedName(path);
  try {
    const file = openSync(unfinished, 'wx');
    try {
      writeFileSync(file, bytes);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    if (replace) renameSync(unfinished, path);
    else putWhereNothingIs(unfinished, path);
  } finally {
    rmSync(unfinished, { force: true });
  }
}

function putWhereNothingIs(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (thrown) {
    const { code } = thrown as NodeJS.ErrnoException;
    if (code === 'EEXIST') throw thrown;
    // A file system without links.
    if (existsSync(to)) throw Object.assign(new Error(`${to} is there already`), { code: 'EEXIST' });
    renameSync(from, to);
  }
}
