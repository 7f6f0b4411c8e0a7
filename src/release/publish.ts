/** Puts a release into its folder: a version is added and never changed, `latest` goes forward only. */
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import type { Files } from './digests.ts';
import { differences, readFolder, writeFile, writeFolder } from './folder.ts';
import { compareReleases } from './version.ts';

/** The files of a release. */
export interface ReleaseFiles {
  /** Of the version's own folder. */
  readonly pinned: Files;
  /** The same for the address of `latest`. */
  readonly latest: () => Files;
  /** What stands at the address itself, for all versions that are kept, the newest first. */
  readonly root: (versions: readonly string[]) => Files;
}

/** What making a release came to. */
export interface Published {
  readonly version: string;
  /** Whether the version stood there already, with the same bytes. */
  readonly same: boolean;
  /** The version that `latest` is now. */
  readonly latest: string;
}

/** A release that is not made, and why, in words for the one who makes it. */
export class Refused extends Error {}

const MOST_NAMED = 10;

export function publish(out: string, version: string, files: ReleaseFiles): Published {
  const versions = path.join(out, 'v');
  const folder = path.join(versions, version);
  const same = existsSync(folder);
  if (same) refuseWhereDifferent(folder, files.pinned);
  else writeFolder(folder, files.pinned);

  const kept = readdirSync(versions).filter((name) => !name.includes('.new-'));
  const all = kept.sort(compareReleases).reverse();
  const [latest = version] = all;
  // Making an older version again does not take the newer one from those who follow `latest`.
  if (latest === version) {
    const place = path.join(out, 'latest');
    const newest = files.latest();
    if (differences(newest, readFolder(place)).length > 0) writeFolder(place, newest);
    for (const [name, bytes] of files.root(all)) writeFile(path.join(out, name), bytes);
  }
  return { version, same, latest };
}

function refuseWhereDifferent(folder: string, files: Files): void {
  const differ = differences(files, readFolder(folder));
  if (differ.length === 0) return;
  const more = differ.length > MOST_NAMED ? `, and ${differ.length - MOST_NAMED} more` : '';
  throw new Refused(
    `${folder} stands there with other bytes and is never changed, since people may have it. A new release needs a new version: in package.json, or of the calculation. What differs: ${differ.slice(0, MOST_NAMED).join(', ')}${more}`,
  );
}
