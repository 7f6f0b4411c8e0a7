/**
 * Writes the reference: bundles the pages, runs them in a process of their own, keeps what they gave in
 * node_modules/.cache/rodsheet-reference by the state of the bundle. So a build whose functions did not change takes it as it is.
 */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import path from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { promisify } from 'node:util';
import esbuild from 'esbuild';

const ROOT = path.resolve(import.meta.dirname, '../..');
const CACHE = path.join(ROOT, 'node_modules/.cache/rodsheet-reference');
const STYLES = ['../pane/colours.css', 'reference.css', '../pane/charts/charts.css'].map((file) =>
  path.join(ROOT, 'src/reference', file),
);
const KEEP = 24 * 3600 * 1000;
/** Writing the pages takes some 10 s. */
const LONGEST = 300 * 1000;

/** What was given last, and the state of its sources then. */
let last;

/** Files of the reference by name, and the sources they came from; anew where a source has changed since. With `behind` they are written at the lowest priority. */
export function referenceFiles({ behind = false } = {}) {
  const current = last;
  last = (async () => {
    const before = await current?.catch(() => undefined);
    if (before && before.stamp === stampOf(before.inputs)) return before;
    const started = Date.now();
    const made = await make(behind);
    // A source saved meanwhile may or may not be in it.
    const settled = made.inputs.every((file) => changed(file) < started);
    return { ...made, stamp: settled ? stampOf(made.inputs) : '' };
  })();
  return last;
}

const changed = (file) => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
const stampOf = (inputs) => inputs.map(changed).join(' ');

async function make(behind) {
  const common = { absWorkingDir: ROOT, bundle: true, write: false, metafile: true, logLevel: 'silent' };
  const [pages, script] = await Promise.all([
    esbuild.build({
      ...common,
      entryPoints: ['src/reference/write.ts'],
      platform: 'node',
      format: 'esm',
      target: 'node20',
      packages: 'external',
      jsx: 'automatic',
      jsxImportSource: 'preact',
    }),
    esbuild.build({
      ...common,
      entryPoints: ['src/reference/filter-entry.ts'],
      platform: 'browser',
      format: 'iife',
      target: 'es2022',
      minify: true,
    }),
  ]);
  const inputs = [...new Set([pages, script].flatMap((r) => Object.keys(r.metafile.inputs)))]
    .map((file) => path.join(ROOT, file))
    .concat(STYLES);
  const html = await written(pages.outputFiles[0].text, behind);
  return {
    files: {
      ...html,
      'filter.js': script.outputFiles[0].text,
      'reference.css': STYLES.map((file) => readFileSync(file, 'utf8')).join('\n'),
    },
    inputs,
  };
}

/** What the bundle writes, from the cache where the same bundle wrote it before. */
async function written(code, behind) {
  const state = createHash('sha256')
    .update(process.version)
    .update(readFileSync(path.join(ROOT, 'package-lock.json')))
    .update(code)
    .digest('hex')
    .slice(0, 24);
  const file = path.join(CACHE, `${state}.json`);
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    // Not written yet.
  }
  mkdirSync(CACHE, { recursive: true });
  const lock = path.join(CACHE, `${state}.lock`);
  if (!(await mine(lock, file))) return JSON.parse(readFileSync(file, 'utf8'));
  // In a folder below the packages, so that they are found from it.
  const own = path.join(CACHE, `${state}-${process.pid}`);
  writeFileSync(`${own}.mjs`, code);
  try {
    const running = promisify(execFile)(process.execPath, [`${own}.mjs`, `${own}.json`], { cwd: ROOT });
    if (behind) giveWay(running.child.pid);
    await running;
    renameSync(`${own}.json`, file);
  } finally {
    rmSync(`${own}.mjs`, { force: true });
    rmSync(lock, { force: true });
    removeOld(file);
  }
  return JSON.parse(readFileSync(file, 'utf8'));
}

/** Whether this process is to write; where another does already, waits for what it writes. */
async function mine(lock, file) {
  for (;;) {
    try {
      writeFileSync(lock, '', { flag: 'wx' });
      if (!existsSync(file)) return true;
      rmSync(lock, { force: true });
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    if (existsSync(file)) return false;
    // Left by a process that was ended.
    if (Date.now() - changed(lock) > LONGEST) rmSync(lock, { force: true });
    await setTimeout(200);
  }
}

/** Lets everything else run first. */
function giveWay(pid) {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW);
  } catch {
    // Where it cannot be set, it competes.
  }
}

function removeOld(current) {
  for (const name of readdirSync(CACHE)) {
    const file = path.join(CACHE, name);
    const age = Date.now() - (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Date.now());
    if (file !== current && age > KEEP) rmSync(file, { force: true });
  }
}
