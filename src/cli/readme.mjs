/** Brings the README's table of functions up to date with the catalogue. Run as `npm run readme`; a test checks that it was. */
import { readFile, writeFile } from 'node:fs/promises';
import esbuild from 'esbuild';

const README = new URL('../../README.md', import.meta.url);
const entry = new URL('function-table.ts', import.meta.url).pathname;
const { outputFiles } = await esbuild.build({
  entryPoints: [entry],
  bundle: true,
  write: false,
  format: 'esm',
  platform: 'node',
  target: 'node20',
});
const { withFunctionTable } = await import(
  `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`
);
await writeFile(README, withFunctionTable(await readFile(README, 'utf8')));
