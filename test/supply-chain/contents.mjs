/** What is inside the things that are built: packages of others by entry, with bytes of source, and the files that are copied. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import esbuild from 'esbuild';
import { packagesInside } from '../../src/addin/notices.mjs';
import { extensionParts } from '../../src/libreoffice/package.mjs';
import { build } from '../../src/release/build.mjs';

const ROOT = path.resolve(import.meta.dirname, '../..');
const COMMAND_LINE = 'command line';

/** Builds into a folder that is thrown away, and looks into the modules. */
export async function builtContents(env) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rodsheet-contents-'));
  try {
    return await build(env, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command line is bundled on the user's machine out of the same packages; here as src/cli/run.mjs does. */
export async function commandLineContents() {
  const commands = readdirSync(path.join(ROOT, 'src/cli'))
    .filter((name) => /(^|-)main\.ts$/.test(name))
    .map((name) => `src/cli/${name}`);
  const { metafile } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: commands,
    bundle: true,
    write: false,
    metafile: true,
    outdir: 'out',
    platform: 'node',
    format: 'cjs',
    target: 'es2022',
    minify: true,
    keepNames: true,
    logLevel: 'silent',
  });
  return contentsOf({ [COMMAND_LINE]: metafile });
}

/** The extension for LibreOffice Calc, put together as `npm run build -- --env libreoffice=yes` does. */
export async function extensionContents() {
  return contentsOf((await extensionParts()).reports);
}

function contentsOf(reports) {
  const sizes = Object.entries(reports).map(([entry, { outputs, inputs }]) => {
    const used = new Set(Object.values(outputs).flatMap((output) => Object.keys(output.inputs)));
    return [entry, [...used].reduce((sum, file) => sum + inputs[file].bytes, 0)];
  });
  return { entries: Object.fromEntries(sizes), packages: packagesInside(reports, ROOT) };
}
