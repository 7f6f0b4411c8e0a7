/**
 * Entry of the command line: `node src/cli/run.mjs calc ARGUMENTS`, and so on for the other commands.
 *
 * Bundles the command, and the functions as the host gets them, into node_modules/.cache/rodsheet, once for
 * each state of the sources; nothing has to be built by hand. A new state is built in a folder of its own and then
 * renamed, so commands started at the same time never see half of one.
 */
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** RODSHEET_CACHE puts the bundles elsewhere, for a checkout that may not be written to. */
const CACHE = process.env.RODSHEET_CACHE ?? path.join(ROOT, 'node_modules/.cache/rodsheet');
const SOURCES = ['core', 'catalogue', 'sheet', 'addin', 'engine', 'cli'].map((folder) =>
  path.join(ROOT, 'src', folder),
);
const COMMANDS = { calc: 'src/cli/main.ts', recheck: 'src/cli/recheck-main.ts', template: 'src/cli/template-main.ts' };
/** As the build of the add-in has it. */
const TARGET = 'es2022';
/** How long bundles of earlier states are kept; another command may still be reading one. */
const KEEP = 24 * 3600 * 1000;

/** The state of the sources as a name. */
function stateOf() {
  const hash = createHash('sha256').update(process.version);
  const files = SOURCES.filter(existsSync).flatMap((folder) =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => path.join(entry.parentPath ?? entry.path, entry.name)),
  );
  for (const file of [...files, path.join(ROOT, 'package-lock.json')].sort())
    hash.update(file).update('\0').update(readFileSync(file));
  return hash.digest('hex').slice(0, 24);
}

async function build(folder) {
  const esbuild = await import('esbuild');
  const common = { absWorkingDir: ROOT, bundle: true, target: TARGET, logLevel: 'silent' };
  await esbuild.build({
    ...common,
    entryPoints: ['src/addin/static-files.ts'],
    platform: 'neutral',
    format: 'esm',
    outfile: path.join(folder, 'static-files.mjs'),
  });
  const { staticFiles, furtherNames } = await import(pathToFileURL(path.join(folder, 'static-files.mjs')).href);
  const host = {
    ...common,
    platform: 'browser',
    format: 'iife',
    define: { FURTHER_NAMES: JSON.stringify(furtherNames) },
  };
  await Promise.all([
    esbuild.build({
      ...common,
      entryPoints: COMMANDS,
      platform: 'node',
      format: 'cjs',
      minify: true,
      keepNames: true,
      outdir: folder,
      outExtension: { '.js': '.cjs' },
    }),
    esbuild.build({ ...host, entryPoints: ['src/addin/functions.ts'], outfile: path.join(folder, 'functions.js') }),
    esbuild.build({
      ...host,
      entryPoints: ['src/addin/further.ts'],
      outfile: path.join(folder, 'functions-further.js'),
    }),
  ]);
  writeFileSync(path.join(folder, 'functions.json'), staticFiles('https://localhost:3000')['functions.json']);
}

/** The folder with the bundles of this state of the sources. */
async function bundles() {
  const folder = path.join(CACHE, stateOf());
  if (existsSync(folder)) return folder;
  mkdirSync(CACHE, { recursive: true });
  const fresh = mkdtempSync(path.join(CACHE, 'new-'));
  try {
    await build(fresh);
    renameSync(fresh, folder);
    removeOld(folder);
  } catch (error) {
    rmSync(fresh, { recursive: true, force: true });
    // Another command may have been first with the same state.
    if (!existsSync(folder)) throw error;
  }
  return folder;
}

function removeOld(current) {
  for (const name of readdirSync(CACHE)) {
    const folder = path.join(CACHE, name);
    const age = Date.now() - (statSync(folder, { throwIfNoEntry: false })?.mtimeMs ?? Date.now());
    if (folder !== current && age > KEEP) rmSync(folder, { recursive: true, force: true });
  }
}

const [command, ...args] = process.argv.slice(2);
if (!(command in COMMANDS)) {
  console.error(`Usage: node src/cli/run.mjs ${Object.keys(COMMANDS).join('|')} ARGUMENTS`);
  process.exitCode = 2;
} else {
  try {
    const folder = await bundles();
    const self = path.join(folder, `${command}.cjs`);
    const { main } = createRequire(import.meta.url)(self);
    process.exitCode = await main(args, {
      self,
      code: path.join(folder, 'functions.js'),
      further: path.join(folder, 'functions-further.js'),
      json: path.join(folder, 'functions.json'),
    });
  } catch (error) {
    console.error(error instanceof Error ? error.stack : error);
    process.exitCode = 3;
  }
}
