import { minify } from 'terser';
import webpack from 'webpack';

const { sources } = webpack;

/** Goes over scripts once more after the quick minifier: some 3 % less to load, at the price of seconds of building. */
export class Smaller {
  constructor(names) {
    this.names = names;
  }

  apply(compiler) {
    const name = 'Smaller';
    compiler.hooks.compilation.tap(name, (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_SIZE + 50;
      compilation.hooks.processAssets.tapPromise({ name, stage }, async (assets) => {
        for (const [file, script] of Object.entries(assets)) {
          if (!this.names.test(file)) continue;
          const { code } = await minify(String(script.source()), {
            ecma: 2020,
            compress: { passes: 3, ecma: 2020, inline: 1, pure_getters: true },
            mangle: true,
          });
          compilation.updateAsset(file, new sources.RawSource(code));
        }
      });
    });
  }
}
