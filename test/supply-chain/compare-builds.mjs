import { createHash } from 'node:crypto';

/** Compares two builds, files by name; `folders` is where they were built: neither may be named in a file. */
export function compareBuilds(one, other, folders) {
  const names = [...new Set([...one.keys(), ...other.keys()])].sort();
  const hash = createHash('sha256');
  for (const name of names)
    hash
      .update(name)
      .update('\0')
      .update(one.get(name) ?? '');
  return {
    names,
    differ: names.filter((name) => !(one.has(name) && other.has(name) && one.get(name).equals(other.get(name)))),
    placed: names.filter((name) =>
      [one, other].some((build) => folders.some((folder) => build.get(name)?.includes(folder))),
    ),
    hash: hash.digest('hex'),
  };
}
