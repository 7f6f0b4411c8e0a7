/**
 * Builds the add-in and the trial twice, in folders of different name and depth, the second under another clock, time zone and
 * language, and compares every byte. `--env only=addin` and the build's other switches are passed on.
 */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { compareBuilds } from './compare-builds.mjs';

const ROOT = path.resolve(import.meta.dirname, '../..');
const WANTED = [
  'webpack.config.js',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'manifest.xml',
  'LICENSE',
  'src',
  'assets',
];
/** Runs before the bundler: the clock is a year on. */
const LATER = `const now = Date.now; Date.now = () => now() + 366 * 864e5;
globalThis.Date = class extends Date { constructor(...given) { if (given.length > 0) super(...given); else super(Date.now()); } };`;

const scratch = mkdtempSync(path.join(os.tmpdir(), 'rodsheet-two-builds-'));
try {
  const later = path.join(scratch, 'later.mjs');
  writeFileSync(later, LATER);
  // Once, so that a file saved meanwhile makes no difference.
  for (const name of WANTED) copy(path.join(ROOT, name), path.join(scratch, 'source', name));
  const one = build('a', {});
  const other = build('b/another place/deeper', {
    TZ: 'Pacific/Kiritimati',
    LC_ALL: 'tr_TR.UTF-8',
    LANG: 'tr_TR.UTF-8',
    NODE_OPTIONS: `--import ${pathToFileURL(later).href}`,
  });
  const { names, differ, placed, hash } = compareBuilds(one, other, [scratch, ROOT]);
  for (const name of differ) console.error(`differs: ${name}`);
  for (const name of placed) console.error(`names the folder it was built in: ${name}`);
  console.log(`${names.length} files, ${differ.length} differ; sha256 of all ${hash}`);
  process.exitCode = names.length > 0 && differ.length + placed.length === 0 ? 0 : 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/** Files of one build by name. Packages are linked in one by one and taken to lie where the link is, as `npm ci` would put them; what builds keep in between is not. */
function build(place, environment) {
  const folder = path.join(scratch, place);
  copy(path.join(scratch, 'source'), folder);
  mkdirSync(path.join(folder, 'node_modules'));
  for (const name of readdirSync(path.join(ROOT, 'node_modules'))) {
    if (!name.startsWith('.cache'))
      symlinkSync(path.join(ROOT, 'node_modules', name), path.join(folder, 'node_modules', name));
  }
  const args = [
    path.join(folder, 'node_modules/webpack/bin/webpack.js'),
    '--no-resolve-symlinks',
    '--no-resolve-loader-symlinks',
    ...process.argv.slice(2),
  ];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...environment },
  });
  if (status !== 0) throw new Error(`the build in ${folder} failed:\n${stdout}${stderr}`);
  const dist = path.join(folder, 'dist');
  const files = readdirSync(dist, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    files.map((entry) => {
      const file = path.join(entry.parentPath ?? entry.path, entry.name);
      return [path.relative(dist, file), readFileSync(file)];
    }),
  );
}

function copy(from, to) {
  mkdirSync(path.dirname(to), { recursive: true });
  let names;
  try {
    names = readdirSync(from);
  } catch {
    copyFileSync(from, to);
    return;
  }
  for (const name of names) copy(path.join(from, name), path.join(to, name));
}
