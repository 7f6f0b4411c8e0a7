/**
 * Lists the packages of others that a build really contains, read from its modules, and writes their licences
 * beside it as LICENCES.txt, since MIT, BSD and Apache ask that notice and text travel with the code.
 */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import webpack from 'webpack';

const PACKAGE = /^(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)/;
const TEXTS = /^(licen[cs]e|copying|notice|copyright|third-?party)/i;
const COPYRIGHT = /^\W*(copyright\b|\(c\)|©)/i;
const RULE = '='.repeat(80);

/** A package in the build: its facts, the entries it is in, and bytes of its source there, before they are made small. */
export function packageIn(folder) {
  const { name, version, author, homepage } = about(folder);
  return {
    name,
    version,
    licence: licenceOf(folder),
    author: author?.name ?? author ?? '',
    homepage: homepage ?? '',
    text: licenceText(folder),
    bytes: {},
  };
}

const about = (folder) => JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));

/** Name of a package's licence; where package.json gives none, as its text says. */
export function licenceOf(folder) {
  if (!existsSync(folder)) return 'not installed here';
  const { license, licenses } = about(folder);
  return license ?? licenses?.[0]?.type ?? named(licenceText(folder)) ?? 'none given';
}

/** Licence and notice files of a package; without them the chapter on it in its read-me. */
function licenceText(folder) {
  const files = readdirSync(folder).sort();
  const texts = files
    .filter((name) => TEXTS.test(name) && /(^[^.]+|\.(md|txt))$/i.test(name))
    .map((name) => readFileSync(path.join(folder, name), 'utf8').trim());
  if (texts.length > 0) return texts.join('\n\n');
  const readme = files.find((name) => /^readme\.md$/i.test(name));
  const chapter =
    readme && /^#+ *licen[cs]e *$([\s\S]*?)(^#|(?![\s\S]))/im.exec(readFileSync(path.join(folder, readme), 'utf8'));
  return chapter?.[1]?.trim() ?? '';
}

function named(text) {
  if (/Apache License\s+Version 2\.0/.test(text)) return 'Apache-2.0';
  return /^MIT License/i.test(text) || /Permission is hereby granted, free of charge/.test(text) ? 'MIT' : undefined;
}

/** Packages of a finished compilation, by name and version; what the bundler itself adds is its own package. */
export function packagesOf(compilation) {
  const found = new Map();
  const folders = new Map();
  const add = (folder, entry, bytes) => {
    if (!folders.has(folder)) {
      const one = packageIn(folder);
      const key = `${one.name} ${one.version}`;
      if (!found.has(key)) found.set(key, one);
      folders.set(folder, found.get(key));
    }
    const one = folders.get(folder);
    one.bytes[entry] = (one.bytes[entry] ?? 0) + bytes;
  };
  const bundler = path.join(compilation.compiler.context, 'node_modules/webpack');
  for (const [entry, entrypoint] of compilation.entrypoints) {
    for (const module of modulesOf(compilation, entrypoint)) {
      const folder = PACKAGE.exec(module.nameForCondition?.() ?? '')?.[1];
      const bytes = module.size();
      if (folder) add(folder, entry, bytes);
      else if (module.constructor.name.endsWith('RuntimeModule') && bytes > 0 && existsSync(bundler))
        add(bundler, entry, bytes);
    }
  }
  return [...found.values()].sort((a, b) =>
    a.name < b.name ? -1 : a.name > b.name ? 1 : a.version < b.version ? -1 : 1,
  );
}

/** The same of things that esbuild put together: its reports by the name of what came out. */
export function packagesInside(reports, root) {
  const folders = new Map();
  for (const [entry, { inputs, outputs }] of Object.entries(reports)) {
    for (const file of new Set(Object.values(outputs).flatMap((output) => Object.keys(output.inputs)))) {
      const folder = PACKAGE.exec(path.join(root, file))?.[1];
      if (!folder) continue;
      if (!folders.has(folder)) folders.set(folder, packageIn(folder));
      const { bytes } = folders.get(folder);
      bytes[entry] = (bytes[entry] ?? 0) + inputs[file].bytes;
    }
  }
  return [...folders.values()].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** Modules of an entry and of everything that it fetches later, each once, also where they are joined in one scope. */
function modulesOf(compilation, entrypoint) {
  const groups = new Set([entrypoint]);
  for (const group of groups) for (const child of group.childrenIterable) groups.add(child);
  const chunks = new Set([...groups].flatMap((group) => group.chunks));
  return new Set(
    [...chunks]
      .flatMap((chunk) => [...compilation.chunkGraph.getChunkModulesIterable(chunk)])
      .flatMap((module) => [...(module.modules ?? [module])]),
  );
}

/** Bytes of our own modules in an entry, for shares. */
export function bytesOf(compilation, entry) {
  return [...modulesOf(compilation, compilation.entrypoints.get(entry))].reduce(
    (sum, module) => sum + module.size(),
    0,
  );
}

/** The text that goes with the build; a text that several packages share stands once. */
export function noticesText(packages) {
  const groups = new Map();
  for (const one of packages) {
    const text = (
      COPYRIGHT.test(one.text) || one.text.length > 400 ? one.text : standardText(one, packages)
    ).replaceAll('\r\n', '\n');
    groups.set(text, [...(groups.get(text) ?? []), one]);
  }
  const title = ({ name, version, licence, author, homepage }) =>
    [`${name} ${version} (${licence})`, author, homepage].filter(Boolean).join(', ');
  const chapters = [...groups].map(([text, members]) => `${RULE}\n${members.map(title).join('\n')}\n\n${text}\n`);
  return `Rodsheet is under the MIT licence. The files of this folder also contain these packages of others, unchanged but for being joined and made small.\n\n${chapters.join('\n')}`;
}

/** For a package that names its licence but holds no text: that of another with the same licence, without its copyright line. */
function standardText({ licence, text, author }, packages) {
  const like = packages.find((other) => other.licence === licence && other.text.length > 400);
  if (!like) return text;
  const body = like.text
    .split('\n')
    .filter((line) => !COPYRIGHT.test(line))
    .join('\n')
    .trim();
  return `${text || `Copyright ${author}`}\n\n${body}`;
}

export class Notices {
  apply(compiler) {
    compiler.hooks.thisCompilation.tap('Notices', (compilation) => {
      compilation.hooks.processAssets.tap(
        { name: 'Notices', stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL },
        () => {
          const packages = packagesOf(compilation);
          if (packages.length > 0)
            compilation.emitAsset('LICENCES.txt', new webpack.sources.RawSource(noticesText(packages)));
        },
      );
    });
  }
}
