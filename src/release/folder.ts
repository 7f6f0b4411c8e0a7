/** Folders of files: read whole, written whole, never half. */
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import type { Files } from './digests.ts';

/** Files below a folder, or below the named parts of it; empty where there is none. */
export function readFolder(folder: string, parts: readonly string[] = ['']): Files {
  const found = new Map<string, Buffer>();
  const add = (name: string): void => {
    const place = path.join(folder, name);
    if (!existsSync(place)) return;
    let inside;
    try {
      inside = readdirSync(place);
    } catch {
      found.set(name, readFileSync(place));
      return;
    }
    for (const each of inside) add(name === '' ? each : `${name}/${each}`);
  };
  for (const part of parts) add(part);
  return found;
}

/** Files that one has and the other has not, or has with other bytes. */
export const differences = (one: Files, other: Files): readonly string[] =>
  [...new Set([...one.keys(), ...other.keys()])]
    .filter((name) => !(one.get(name) && other.get(name)?.equals(one.get(name)!)))
    .sort();

/** Writes a folder beside its place and moves it there, so that a server never shows half of it. */
export function writeFolder(folder: string, files: Files): void {
  mkdirSync(path.dirname(folder), { recursive: true });
  const fresh = mkdtempSync(`${folder}.new-`);
  try {
    for (const [name, bytes] of files) {
      mkdirSync(path.dirname(path.join(fresh, name)), { recursive: true });
      writeFileSync(path.join(fresh, name), bytes, { mode: 0o644 });
    }
    const before = `${fresh}-before`;
    if (existsSync(folder)) renameSync(folder, before);
    renameSync(fresh, folder);
    rmSync(before, { recursive: true, force: true });
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
}

/** Writes a file, in place of one before. */
export function writeFile(file: string, bytes: Buffer): void {
  mkdirSync(path.dirname(file), { recursive: true });
  const fresh = `${file}.new-${process.pid}`;
  writeFileSync(fresh, bytes);
  renameSync(fresh, file);
}
