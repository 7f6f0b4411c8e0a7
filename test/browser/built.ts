/** The built files, built once for all the test files of a run that ask. */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { inject } from 'vitest';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly buildFolder: string;
  }
}

const ROOT = new URL('../..', import.meta.url).pathname;

/** Names the folder to build into before the first test file, and takes it away after the last; a folder built already can be given as BUILT. */
export default async function setup(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  // An empty name would be the project's own folder, which a build then clears.
  const given = process.env['BUILT'];
  if (given) {
    project.provide('buildFolder', path.resolve(given));
    return undefined;
  }
  const folder = await mkdtemp(path.join(tmpdir(), 'rodsheet-'));
  project.provide('buildFolder', folder);
  return () => rm(folder, { recursive: true, force: true });
}

/** All that `npm run build` writes, by path, with office.js out of the package. */
export async function builtFiles(): Promise<Record<string, Buffer>> {
  const folder = inject('buildFolder');
  if (!existsSync(path.join(folder, 'functions.json'))) {
    const webpack = ['node_modules/webpack/bin/webpack.js', '--env', 'office=package', '--output-path', folder];
    await promisify(execFile)(process.execPath, webpack, { cwd: ROOT });
  }
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = entries.filter((entry) => entry.isFile()).map((entry) => path.join(entry.parentPath, entry.name));
  return Object.fromEntries(
    await Promise.all(paths.map(async (file) => [path.relative(folder, file), await readFile(file)] as const)),
  );
}
