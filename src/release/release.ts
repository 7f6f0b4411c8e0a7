/** The files of a release, and the folder that any static web server can serve. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import esbuild from 'esbuild';
import { packagesInside } from '../addin/notices.mjs';
import { extensionParts } from '../libreoffice/package.mjs';
import { billOfMaterials, type LockedPackages, type ShippedPackage } from './bill-of-materials.ts';
import { build } from './build.mjs';
import { changesText } from './changes.ts';
import { checksums, sha256, sortedNames, type Files } from './digests.ts';
import { readFolder } from './folder.ts';
import { installPage } from './install/install-page.tsx';
import { PICTURES, STYLES } from './install/files.ts';
import { provenance } from './provenance.ts';
import { publish, Refused, type Published } from './publish.ts';
import { serverSettings } from './server-settings.ts';
import { RELEASE_VERSION } from './version.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** What a build reads, apart from packages. */
const SOURCES = [
  'LICENSE',
  'assets',
  'manifest.xml',
  'package-lock.json',
  'package.json',
  'src',
  'tsconfig.json',
  'webpack.config.js',
];
/** What the browser workbook needs without a network. */
const OFFLINE = /^(trial|reference|assets)\/|^(LICEN[CS]ES?(\.txt)?|CHANGES\.txt|rodsheet-template\.xlsx)$/;

/** Makes the release of these sources for an address, in a folder. */
export async function release(base: string, out: string): Promise<Published> {
  const address = checkedAddress(base);
  const version = RELEASE_VERSION;
  const pinned = `${address}/v/${version}`;
  const made = await commonFiles(version, pinned);
  return publish(out, version, {
    pinned: wholeFolder(made, address, pinned, pinned, version),
    latest: () => wholeFolder(made, address, pinned, `${address}/latest`, version),
    root: (versions) => rootFiles(address, versions),
  });
}

function checkedAddress(base: string): string {
  if (!URL.canParse(base)) throw new Refused(`--base is ${base}; it must be an address such as https://your.address`);
  const { protocol, href, search, hash } = new URL(base);
  if (protocol !== 'https:') throw new Refused(`--base is ${base}; the spreadsheet host takes https only`);
  if (search !== '' || hash !== '')
    throw new Refused(`--base is ${base}; it must end with the folder, without ? and #`);
  return href.replace(/\/+$/, '');
}

interface Made {
  readonly files: Files;
  readonly packages: readonly ShippedPackage[];
}

/** What is built, for the address of the version's own folder. */
async function commonFiles(version: string, pinned: string): Promise<Made> {
  const scratch = mkdtempSync(path.join(tmpdir(), 'rodsheet-release-'));
  try {
    const dist = path.join(scratch, 'dist');
    const { packages } = await build({ base: pinned, release: version, libreoffice: 'yes' }, dist);
    const inExtension = packagesInside((await extensionParts()).reports, ROOT);
    const files = new Map(readFolder(dist));
    files.set('rodsheet-template.xlsx', template(scratch));
    files.set('LICENSE', readFileSync(path.join(ROOT, 'LICENSE')));
    files.set('CHANGES.txt', Buffer.from(changesText()));
    for (const [name, from] of Object.entries(PICTURES))
      files.set(`install/${name}`, readFileSync(path.join(ROOT, from)));
    files.set('install/install.css', Buffer.concat(STYLES.map((name) => readFileSync(path.join(ROOT, name)))));
    files.set('offline.js', await offlineWorker(files, version));
    return { files, packages: joined([...packages, ...inExtension]) };
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** One entry a package, with all the parts it is in. */
function joined(packages: Awaited<ReturnType<typeof build>>['packages']): readonly ShippedPackage[] {
  const found = new Map<string, ShippedPackage>();
  for (const { name, version, licence, homepage, bytes } of packages) {
    const key = `${name}@${version}`;
    const parts = [...(found.get(key)?.in ?? []), ...Object.keys(bytes)];
    found.set(key, { name, version, licence, homepage, in: [...new Set(parts)].sort() });
  }
  return [...found.keys()].sort().map((key) => found.get(key)!);
}

function template(scratch: string): Buffer {
  const file = path.join(scratch, 'template.xlsx');
  const command = [path.join(ROOT, 'src/cli/run.mjs'), 'template', file];
  const { status, stderr } = spawnSync(process.execPath, command, { cwd: ROOT, encoding: 'utf8' });
  if (status !== 0) throw new Error(`the template was not written: ${stderr}`);
  return readFileSync(file);
}

async function offlineWorker(files: Files, version: string): Promise<Buffer> {
  const listed = sortedNames(files).filter((name) => OFFLINE.test(name));
  const sums = Object.fromEntries(listed.map((name) => [name, sha256(files.get(name)!, 'base64')]));
  const { outputFiles } = await esbuild.build({
    absWorkingDir: ROOT,
    entryPoints: ['src/release/offline-worker.ts'],
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    minify: true,
    // The list is part of the name, so that `latest` keeps no file of an older one.
    define: {
      FILES: JSON.stringify(sums),
      VERSION: JSON.stringify(`${version} ${sha256(JSON.stringify(sums)).slice(0, 16)}`),
    },
  });
  return Buffer.from(outputFiles[0]!.contents);
}

/** All files of a folder of the release: those built, for the address they are served from, with page, bill, statement, checksums. */
function wholeFolder({ files, packages }: Made, base: string, pinned: string, place: string, version: string): Files {
  const whole = new Map(files);
  for (const name of ['manifest.xml', 'functions.json'])
    whole.set(name, Buffer.from(files.get(name)!.toString().replaceAll(pinned, place)));
  const locked = (
    JSON.parse(readFileSync(path.join(ROOT, 'package-lock.json'), 'utf8')) as { packages: LockedPackages }
  ).packages;
  whole.set('bom.cdx.json', Buffer.from(billOfMaterials(version, packages, locked)));
  whole.set('index.html', Buffer.from(installPage({ base, place, version, folder: '' })));
  const statement = provenance(whole, {
    version,
    base,
    place,
    sources: readFolder(ROOT, SOURCES),
    lock: readFileSync(path.join(ROOT, 'package-lock.json')),
    node: process.versions.node,
  });
  whole.set('provenance.intoto.json', Buffer.from(statement));
  whole.set('SHA256SUMS', Buffer.from(checksums(whole)));
  return whole;
}

/** What stands at the address itself: the page for the newest version, with all that are kept, and settings for web servers. */
function rootFiles(base: string, versions: readonly string[]): Files {
  const [version = ''] = versions;
  const page = installPage({ base, place: `${base}/v/${version}`, version, folder: `v/${version}/`, versions });
  return new Map([
    ['index.html', Buffer.from(page)],
    ...Object.entries(serverSettings(base)).map(([name, text]) => [`server/${name}`, Buffer.from(text)] as const),
  ]);
}
