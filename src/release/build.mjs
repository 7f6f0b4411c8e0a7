/** Builds as `npm run build` does, and looks into the modules: what is inside, and from whom. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import webpack from 'webpack';
import config from '../../webpack.config.js';
import { bytesOf, packagesOf } from '../addin/notices.mjs';

/** Builds into a folder. Bytes of source by entry, packages of others, the files that are copied, and the text of LICENCES.txt. */
export async function build(env, folder) {
  const settings = await config(env);
  const compiler = webpack({ ...settings, output: { ...settings.output, path: folder } });
  const stats = await new Promise((resolve, reject) =>
    compiler.run((error, done) => (error ? reject(error) : resolve(done))),
  );
  if (stats.hasErrors()) throw new Error(stats.toString('errors-only'));
  const { compilation } = stats;
  const entries = [...compilation.entrypoints.keys()];
  const contents = {
    entries: Object.fromEntries(entries.map((entry) => [entry, bytesOf(compilation, entry)])),
    packages: packagesOf(compilation),
    copied: Object.entries(Object.fromEntries(compilation.assetsInfo))
      .filter(([, info]) => info.copied)
      .map(([name, info]) => ({ name, from: info.sourceFilename })),
    notices: readFileSync(path.join(folder, 'LICENCES.txt'), 'utf8'),
  };
  await new Promise((resolve) => compiler.close(resolve));
  return contents;
}
