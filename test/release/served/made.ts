/**
 * Two releases, made once a run by `npm run release`: one of the sources as they are, and a newer one, of a copy of them with
 * another default and another version. RELEASED=folder takes a finished first one for BASE; it is copied, not changed.
 */
import { execFile, execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import type { TestProject } from 'vitest/node';
import { numberAssumption } from '../../../src/core/assumptions/registry.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Folder of the first release alone. */
    readonly firstRelease: string;
    /** The same with the newer one in it. */
    readonly bothReleases: string;
    /** Where the sources lie of which the newer one was made. */
    readonly newerSources: string;
  }
}

export const BASE = 'https://rodsheet.example/burn';
const ASSUMPTION = 'idle oxygen share';
const { value, low, high } = numberAssumption(ASSUMPTION);
/** What the newer one is. */
export const NEWER = {
  version: '2031.02.03',
  assumption: ASSUMPTION,
  before: value,
  range: `${low} to ${high}`,
  now: 0.3,
};

const ROOT = new URL('../../..', import.meta.url).pathname;
const COPIED = [
  'src',
  'assets',
  'LICENSE',
  'manifest.xml',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'webpack.config.js',
];

/** Makes a release of the sources in a folder; gives what the command says and its exit code. */
export async function release(
  sources: string,
  out: string,
  environment: NodeJS.ProcessEnv = {},
): Promise<{ readonly code: number; readonly said: string }> {
  const command = [
    path.join(ROOT, 'node_modules/tsx/dist/cli.mjs'),
    'src/release/main.ts',
    '--base',
    BASE,
    '--out',
    out,
  ];
  const options = { cwd: sources, env: { ...process.env, ...environment } };
  try {
    const { stdout, stderr } = await promisify(execFile)(process.execPath, command, options);
    return { code: 0, said: stdout + stderr };
  } catch (thrown) {
    const { code, stdout, stderr } = thrown as { code: number; stdout: string; stderr: string };
    return { code, said: stdout + stderr };
  }
}

/** What a formula gives with the sources of the newer release, by its command line. */
export const newerResult = (sources: string, formula: string): number =>
  Number(
    execFileSync(process.execPath, ['src/cli/run.mjs', 'calc', formula], { cwd: sources, encoding: 'utf8' }).trim(),
  );

export default async function setup(project: TestProject): Promise<() => void> {
  const scratch = mkdtempSync(path.join(tmpdir(), 'rodsheet-releases-'));
  const [first, both, sources] = ['first', 'both', 'sources'].map((name) => path.join(scratch, name)) as [
    string,
    string,
    string,
  ];
  const given = process.env['RELEASED'];
  if (given === undefined) await made(ROOT, first);
  else cpSync(given, first, { recursive: true });
  cpSync(first, both, { recursive: true });
  copyNewer(sources);
  await made(sources, both);
  project.provide('firstRelease', first);
  project.provide('bothReleases', both);
  project.provide('newerSources', sources);
  return () => rmSync(scratch, { recursive: true, force: true });
}

async function made(sources: string, out: string): Promise<void> {
  const { code, said } = await release(sources, out);
  if (code !== 0) throw new Error(`the release was not made:\n${said}`);
}

/** The sources with another default, the version that says so, and the change in the history. */
function copyNewer(folder: string): void {
  mkdirSync(folder);
  for (const name of COPIED) cpSync(path.join(ROOT, name), path.join(folder, name), { recursive: true });
  symlinkSync(path.join(ROOT, 'node_modules'), path.join(folder, 'node_modules'));
  const { version, assumption, before, now } = NEWER;
  edit(folder, 'src/core/version.ts', /(CALCULATION_VERSION = ')[\d.]+'/, `$1${version}'`);
  const change = {
    version,
    replaced: [{ name: assumption, value: before, low, high }],
    calculation: ['pipes are rougher'],
  };
  edit(
    folder,
    'src/core/assumptions/history.ts',
    /(HISTORY: readonly Change\[\] = \[)/,
    `$1${JSON.stringify(change)},`,
  );
  edit(
    folder,
    'src/core/assumptions/crew.ts',
    new RegExp(`(name: '${assumption}',[^}]*?value: )${before},\\s*low: ${low},\\s*high: ${high},`),
    `$1${now}, low: 0.2, high: 0.4,`,
  );
}

function edit(folder: string, name: string, what: RegExp, by: string): void {
  const file = path.join(folder, name);
  const text = readFileSync(file, 'utf8');
  if (!what.test(text)) throw new Error(`${name} has nothing like ${String(what)}`);
  writeFileSync(file, text.replace(what, by));
}
