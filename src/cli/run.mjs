/**
 * Entry of the command line: `node src/cli/run.mjs calc ARGUMENTS`, and so on for the other commands.
 *
 * Bundles the commands into node_modules/.cache/rodsheet, once for each state of the sources; nothing has to be built by
 * hand. A new state is built in a folder of its own and then renamed, so commands started at the same time never see half
 * of one.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** RODSHEET_CACHE puts the bundles elsewhere, for a checkout that may not be written to. */
const CACHE = process.env.RODSHEET_CACHE ?? path.join(ROOT, 'node_modules/.cache/rodsheet');
const SOURCES = ['core', 'catalogue', 'sheet', 'files', 'check', 'engine', 'pane', 'plain', 'cli'].map((folder) =>
  path.join(ROOT, 'src', folder),
);
const COMMANDS = {
  calc: 'src/cli/main.ts',
  recheck: 'src/cli/recheck-main.ts',
  check: 'src/cli/check-main.ts',
  template: 'src/cli/template-main.ts',
  plain: 'src/cli/plain-main.ts',
};
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
  await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: COMMANDS,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: TARGET,
    minify: true,
    keepNames: true,
    outdir: folder,
    outExtension: { '.js': '.cjs' },
    logLevel: 'silent',
  });
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
    const self = path.join(await bundles(), `${command}.cjs`);
    const { main } = createRequire(import.meta.url)(self);
    // A thread that was given up may still wait for a pipe.
    process.exit(await main(args, { self }));
  } catch (error) {
    console.error('a fault of ours; please report it', error);
    process.exitCode = 4;
  }
}
