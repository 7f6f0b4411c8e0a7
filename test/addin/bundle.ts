import esbuild from 'esbuild';

/** A script for the page of the add-in, as the build makes it, of a few lines of source that import from this folder. */
export async function bundle(contents: string): Promise<string> {
  const { outputFiles } = await esbuild.build({
    stdin: { contents, resolveDir: import.meta.dirname, loader: 'ts' },
    bundle: true,
    minify: true,
    format: 'iife',
    write: false,
  });
  return outputFiles[0]?.text ?? '';
}
