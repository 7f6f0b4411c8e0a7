/** The pane on a sheet in memory, in a page of its own. */
import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import { openPage, type OpenPage } from './page.ts';

const ROOT = new URL('../..', import.meta.url).pathname;

/** The add-in's own page with its policy and the looks that it fetches once it is shown, without the host's script. */
export const ownPage = (): string =>
  readFileSync(`${ROOT}src/pane/pane.html`, 'utf8')
    .replace('%OFFICE_ORIGIN%', '')
    .replace('</head>', '<link rel="stylesheet" href="pane.css"></head>')
    .replace(/ *<script src="%OFFICE_JS%"[^>]*><\/script>\n/g, '');

/** Opens it as wide as a pane, with the sheet and the accessibility checker within reach; `page` loads `functions.js` and `pane.css`. */
export async function openMemoryPane(page = ownPage()): Promise<OpenPage> {
  const { outputFiles } = await build({
    absWorkingDir: ROOT,
    bundle: true,
    write: false,
    minify: true,
    target: 'es2022',
    format: 'iife',
    outdir: '/',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    entryPoints: { pane: 'test/browser/pane-entry.ts', style: 'src/pane/pane.css' },
  });
  const text = (name: string): string => outputFiles.find((file) => file.path === name)?.text ?? '';
  const open = await openPage({
    '': page,
    'functions.js': text('/pane.js'),
    'pane.css': text('/style.css'),
    'favicon.ico': '',
  });
  await open.page.waitForFunction(() => 'sheet' in globalThis);
  await open.page.evaluate(readFileSync(`${ROOT}node_modules/axe-core/axe.min.js`, 'utf8'));
  await open.page.setViewportSize({ width: 360, height: 900 });
  return open;
}
