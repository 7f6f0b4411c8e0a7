import path from 'node:path';
import esbuild from 'esbuild';

/** What each entry hands on to the scripts that are fetched after it. */
const HANDED_ON = new Map();

/** The loader of an entry: it hands on what later scripts take from it. */
export default function handOn(source) {
  this.cacheable(false); // the list may change while the entry does not
  return [
    source,
    ...[...HANDED_ON.get(this.resourcePath)].map((file) => `export * from ${JSON.stringify(file)};`),
  ].join('\n');
}

/**
 * Lets the scripts that are fetched later take what they share with the first one from that one's entry. The modules of a script
 * are joined into one scope only where no other script imports them; each that the pane shares would stay apart, and the words
 * around them cost more than 5 kB of what a page loads.
 */
export class OneScript {
  /** `entry` is the file of the first script, `layer` the one its modules are in: other entries import the same files apart. */
  constructor(entry, layer) {
    this.entry = entry;
    this.layer = layer;
  }

  apply(compiler) {
    const name = 'OneScript';
    let later, shared;
    compiler.hooks.beforeCompile.tapPromise(name, async () => {
      ({ later, shared } = await this.parts(compiler.context));
      HANDED_ON.set(this.entry, shared);
    });
    compiler.hooks.normalModuleFactory.tap(name, (factory) => {
      factory.hooks.beforeResolve.tap(name, (asked) => {
        const { issuer, issuerLayer } = asked.contextInfo;
        if (issuerLayer !== this.layer || !later.has(issuer)) return;
        if (shared.has(path.resolve(asked.context, asked.request))) asked.request = this.entry;
      });
    });
    // Of two exports with one name a later script would get the first, which may be the other.
    compiler.hooks.done.tap(name, ({ compilation }) => {
      const conflict = compilation.warnings.find(({ message }) => message.includes('conflicting star exports'));
      if (conflict) compilation.errors.push(conflict);
    });
  }

  /** Files that only later scripts are made of, and those of the first script that they import. */
  async parts(root) {
    const { metafile } = await esbuild.build({
      absWorkingDir: root,
      entryPoints: [this.entry],
      bundle: true,
      splitting: true,
      format: 'esm',
      outdir: 'dist',
      write: false,
      metafile: true,
      loader: { '.css': 'empty' },
      jsx: 'automatic',
      jsxImportSource: 'preact',
      logLevel: 'silent',
    });
    const importedBy = (file) =>
      metafile.inputs[file].imports.filter(({ kind }) => kind === 'import-statement').map((each) => each.path);
    const first = new Set([path.relative(root, this.entry)]);
    for (const file of first) for (const each of importedBy(file)) first.add(each);
    const later = Object.keys(metafile.inputs).filter((file) => !first.has(file));
    const shared = later.flatMap(importedBy).filter((file) => first.has(file));
    const whole = (files) => new Set(files.map((file) => path.join(root, file)));
    return { later: whole(later), shared: whole(shared) };
  }
}
