import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  linkSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Whether two paths are the same file, by whatever name. */
export function isSameFile(one: string, other: string): boolean {
  const [a, b] = [one, other].map((path) => statSync(path, { throwIfNoEntry: false }));
  return a !== undefined && b !== undefined && a.ino === b.ino && a.dev === b.dev;
}

/** The name under which a file is written before it is whole. */
export const unfinishedName = (path: string): string => `${path}.${process.pid}.part`;

/**
 * Writes a file so that under its name there is either all of it or what was there before. Without `replace` it never
 * takes the place of another file, not even of one that appears meanwhile. A file that is replaced keeps its rights, and
 * a link stays a link to what is replaced. Throws what the file system says.
 */
export function writeWhole(path: string, bytes: Uint8Array, replace: boolean): void {
  const there = replace ? statSync(path, { throwIfNoEntry: false }) : undefined;
  const target = there ? realpathSync(path) : path;
  const unfinished = unfinishedName(target);
  removeLeft(target);
  try {
    const file = openSync(unfinished, 'wx', there?.mode);
    try {
      // What new files may not have, such as the right of others to write, the one before may.
      if (there) fchmodSync(file, there.mode);
      writeFileSync(file, bytes);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    if (replace) renameSync(unfinished, target);
    else putWhereNothingIs(unfinished, target);
  } catch (thrown) {
    throw aboutThe(path, unfinished, thrown);
  } finally {
    rmSync(unfinished, { force: true });
  }
}

/** What went wrong, said of the file that was to be written, of which the user knows. */
function aboutThe(path: string, unfinished: string, thrown: unknown): unknown {
  if (!(thrown instanceof Error)) return thrown;
  const { code, syscall } = thrown as NodeJS.ErrnoException;
  return Object.assign(new Error(thrown.message.replaceAll(unfinished, path)), { code, syscall, path });
}

/** Removes what a run that was killed has left of this file. */
function removeLeft(target: string): void {
  const [folder, name] = [dirname(target), basename(target)];
  for (const each of existsSync(folder) ? readdirSync(folder) : []) {
    const writer = each.startsWith(`${name}.`) ? /^\.(\d+)\.part$/.exec(each.slice(name.length))?.[1] : undefined;
    if (writer !== undefined && !isRunning(Number(writer))) rmSync(join(folder, each), { force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (thrown) {
    return (thrown as NodeJS.ErrnoException).code !== 'ESRCH';
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
