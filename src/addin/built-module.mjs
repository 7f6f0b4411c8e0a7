import path from 'node:path';
import esbuild from 'esbuild';

const ROOT = path.resolve(import.meta.dirname, '../..');

/** A module of the sources, bundled and loaded as the build runs, and the files that it comes from, under the root. */
export async function builtModule(entry, platform = 'neutral') {
  const { outputFiles, metafile } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    bundle: true,
    write: false,
    metafile: true,
    format: 'esm',
    platform,
    logLevel: 'silent',
  });
  const code = Buffer.from(outputFiles[0].contents).toString('base64');
  return { module: await import(`data:text/javascript;base64,${code}`), inputs: Object.keys(metafile.inputs) };
}
