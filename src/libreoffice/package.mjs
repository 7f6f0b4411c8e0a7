/** Puts the extension for LibreOffice Calc together, rodsheet.oxt: what is written from the declarations, the process, the pane. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import esbuild from 'esbuild';
import webpack from 'webpack';
import { builtModule } from '../addin/built-module.mjs';
import { noticesText, packagesInside } from '../addin/notices.mjs';

const ROOT = path.resolve(import.meta.dirname, '../..');
const HERE = 'src/libreoffice';
const PYTHON = 'src/libreoffice/python';
/** What Node 18 runs. */
const TARGET = 'es2022';

const common = { absWorkingDir: ROOT, bundle: true, write: false, metafile: true, target: TARGET, logLevel: 'silent' };

const BUNDLES = {
  'process.cjs': {
    entryPoints: [`${HERE}/process/main.ts`],
    platform: 'node',
    format: 'cjs',
    minify: true,
    define: { 'import.meta.dirname': '__dirname' },
  },
  'pane.js': {
    entryPoints: [`${HERE}/pane/pane.ts`],
    platform: 'browser',
    format: 'iife',
    minify: true,
    jsx: 'automatic',
    jsxImportSource: 'preact',
  },
  'pane.css': { entryPoints: ['src/pane/pane.css'], minify: true },
};

/** Files of the extension by path, the sources they come from, and what the bundler reports of each bundle. */
export async function extensionParts() {
  const names = Object.keys(BUNDLES);
  const built = await Promise.all(names.map((name) => esbuild.build({ ...common, ...BUNDLES[name] })));
  const written = await builtModule(`${HERE}/pack.ts`, 'node');
  const { extensionFiles, newArchive } = written.module;
  const { version } = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
  const python = readdirSync(path.join(ROOT, PYTHON), { recursive: true })
    .filter((name) => name.endsWith('.py'))
    .sort();
  const reports = Object.fromEntries(names.map((name, i) => [`rodsheet.oxt ${name}`, built[i].metafile]));
  const files = {
    ...extensionFiles(version),
    ...Object.fromEntries(python.map((name) => [name.replaceAll('\\', '/'), source(`${PYTHON}/${name}`)])),
    ...Object.fromEntries(names.map((name, i) => [name, built[i].outputFiles[0].contents])),
    'pane.html': source(`${HERE}/pane/pane.html`),
    'icon.png': source('assets/icon-64.png'),
    LICENSE: source('LICENSE'),
    'LICENCES.txt': noticesText(packagesInside(reports, ROOT)),
  };
  const inputs = built.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  return {
    files,
    inputs: [...new Set([...inputs, ...written.inputs, ...python.map((name) => `${PYTHON}/${name}`)])],
    reports,
    newArchive,
  };
}

const source = (file) => readFileSync(path.join(ROOT, file));

/** The extension as one file, and the sources it comes from. */
export async function extension() {
  const { files, inputs, newArchive } = await extensionParts();
  const parts = Object.entries(files).map(([name, content]) => [name, Buffer.from(content)]);
  return { archive: Buffer.from(newArchive(new Map(parts))), inputs };
}

/** Leaves rodsheet.oxt beside what else is built. */
export class LibreOfficeExtension {
  apply(compiler) {
    compiler.hooks.thisCompilation.tap('LibreOfficeExtension', (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'LibreOfficeExtension', stage }, async () => {
        const { archive, inputs } = await extension();
        for (const file of inputs) compilation.fileDependencies.add(path.join(ROOT, file));
        compilation.emitAsset('rodsheet.oxt', new webpack.sources.RawSource(archive));
      });
    });
  }
}
