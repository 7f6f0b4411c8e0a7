import { createHash } from 'node:crypto';

/** Files of a folder, by path with slashes. */
export type Files = ReadonlyMap<string, Buffer>;

export const sha256 = (bytes: Uint8Array | string, as: 'hex' | 'base64' = 'hex'): string =>
  createHash('sha256').update(bytes).digest(as);

/** By the bytes of the path, as `LC_ALL=C sort` has it. */
export const sortedNames = (files: Files): readonly string[] =>
  [...files.keys()].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));

/** One line a file, as `sha256sum` writes it and `sha256sum --check` reads it. */
export const checksums = (files: Files): string =>
  sortedNames(files)
    .map((name) => `${sha256(files.get(name)!)}  ${name}\n`)
    .join('');

/** One digest of all files of a folder: that of their checksums (in-toto, DigestSet v1.1, `dirHash`). */
export const dirHash = (files: Files): string => sha256(checksums(files));
