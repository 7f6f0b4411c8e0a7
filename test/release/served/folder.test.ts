/** The folder of a release as a web server and a careful person see it. */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Spec, Validation } from '@cyclonedx/cyclonedx-library';
import { JSDOM } from 'jsdom';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { dirHash, sha256 } from '../../../src/release/digests.ts';
import { readFolder } from '../../../src/release/folder.ts';
import { RELEASE_VERSION } from '../../../src/release/version.ts';
import { BASE, NEWER, release } from './made.ts';
import { ask, serve, type Served } from './plain-server.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;
const first = inject('firstRelease');
const both = inject('bothReleases');
const versions = readdirSync(path.join(both, 'v')).sort();
const folders = [...versions.map((version) => `v/${version}`), 'latest'];
const read = (name: string): string => readFileSync(path.join(both, name), 'utf8');

let served: Served;
beforeAll(async () => {
  served = await serve(both);
});
afterAll(() => served.end());

/** Asks the plain server for what stands at an address of the release. */
const released = (address: string): ReturnType<typeof ask> => ask(address.replace(BASE, served.at));

describe('the folder of a release', () => {
  it('has a folder for each version, the newer of which is the latest too', () => {
    expect(versions).toEqual([RELEASE_VERSION, RELEASE_VERSION.replace(/-.*/, `-${NEWER.version}`)]);
    expect(read('latest/offline.js')).toBe(read(`v/${versions[1]}/offline.js`));
    expect(dirHash(readFolder(path.join(both, 'v', versions[0] ?? '')))).toBe(
      dirHash(readFolder(path.join(first, 'v', versions[0] ?? ''))),
    );
  });

  it.each(folders)('%s has the checksums of all its files and no other (sha256sum --check)', (folder) => {
    execFileSync('sha256sum', ['--check', '--strict', '--quiet', 'SHA256SUMS'], { cwd: path.join(both, folder) });
    const listed = read(`${folder}/SHA256SUMS`)
      .trim()
      .split('\n')
      .map((line) => line.slice(66));
    const there = [...readFolder(path.join(both, folder)).keys()].filter((name) => name !== 'SHA256SUMS');
    expect(listed).toEqual(there.sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b))));
  });

  it.each(folders)('%s has a manifest that the schemas of the host let pass', (folder) => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [path.join(ROOT, 'test/host/validate.mjs'), path.join(both, folder, 'manifest.xml')],
      { encoding: 'utf8' },
    );
    expect(stderr + stdout).not.toMatch(/error/i);
    expect(status).toBe(0);
  });

  it.each(folders)('%s has a manifest and functions whose every address the server answers', async (folder) => {
    const texts = [read(`${folder}/manifest.xml`), read(`${folder}/functions.json`)].join('\n');
    const addresses = [...new Set([...texts.matchAll(/"(https:\/\/[^"]+)"/g)].map((m) => m[1] ?? ''))].filter(
      (address) => !/schemas\.microsoft\.com/.test(address),
    );
    expect(addresses.length).toBeGreaterThan(60);
    for (const address of addresses) {
      expect(address).toContain(`${BASE}/${folder}/`);
      expect((await released(address)).status, address).toBe(200);
    }
  });

  it('has the same identity in every manifest, so that a host has one of them at a time', () => {
    const ids = folders.map((folder) => /<Id>(.*)<\/Id>/.exec(read(`${folder}/manifest.xml`))?.[1]);
    expect(new Set(ids).size).toBe(1);
  });

  it.each(['', ...folders.map((folder) => `${folder}/`)])(
    '"%s" has a page whose every link the server answers',
    async (folder) => {
      const page = new JSDOM((await released(`${BASE}/${folder}`)).text, { url: `${BASE}/${folder}` }).window.document;
      const links = [...page.querySelectorAll('[href], [src]')].map(
        (element) => (element as HTMLAnchorElement).href || (element as HTMLImageElement).src,
      );
      expect(links.length).toBeGreaterThan(12);
      for (const link of new Set(links)) {
        const { hash } = new URL(link);
        if (hash !== '') expect(page.getElementById(hash.slice(1)), link).not.toBeNull();
        else expect((await released(link)).status, link).toBe(200);
      }
    },
  );

  it('lists at its address every version, the newest first, and the latest', async () => {
    const { text } = await released(`${BASE}/`);
    const at = [`${BASE}/latest/manifest.xml`, ...[...versions].reverse().map((v) => `${BASE}/v/${v}/manifest.xml`)];
    const places = at.map((address) => text.indexOf(`<code>${address}`));
    expect(
      places.every((place, i) => place > (places[i - 1] ?? 0)),
      String(places),
    ).toBe(true);
  });

  it('tells in the newer one what it changed', () => {
    const { assumption, before, range, now } = NEWER;
    expect(read('latest/CHANGES.txt')).toContain(
      `${NEWER.version}\n  - default of ${assumption}: ${before} (${range}), now ${now} (0.2 to 0.4)\n  - pipes are rougher\n`,
    );
    expect(read('latest/index.html')).toContain('pipes are rougher');
  });
});

describe('what is in a release', () => {
  it.each(folders)(
    '%s: the bill of materials is as its schema has it, and each package of it has its licence there',
    async (folder) => {
      const text = read(`${folder}/bom.cdx.json`);
      expect(await new Validation.JsonStrictValidator(Spec.Version.v1dot6).validate(text)).toBeNull();
      const { components } = JSON.parse(text) as {
        components: readonly { group?: string; name: string; version: string }[];
      };
      const names = components.map((c) => `${c.group === undefined ? '' : `${c.group}/`}${c.name} ${c.version}`);
      expect(names.length).toBeGreaterThan(80);
      const notices = read(`${folder}/LICENCES.txt`);
      for (const name of names) expect(notices).toContain(`\n${name} (`);
      expect(read(`${folder}/LICENSE`)).toContain('MIT');
    },
  );

  it('the bill lists what the list of shipped packages has for these parts, and nothing else', () => {
    const { chosen, brought } = JSON.parse(readFileSync(path.join(ROOT, 'test/supply-chain/shipped.json'), 'utf8')) as {
      chosen: Readonly<Record<string, { in: readonly string[] }>>;
      brought: Readonly<Record<string, readonly string[]>>;
    };
    const { components } = JSON.parse(read('latest/bom.cdx.json')) as {
      components: readonly { group?: string; name: string; properties: readonly { value: string }[] }[];
    };
    for (const { group, name, properties } of components) {
      const full = group === undefined ? name : `${group}/${name}`;
      for (const { value: part } of properties) {
        const by = Object.keys(brought).find((one) => brought[one]?.includes(full) && chosen[one]?.in.includes(part));
        expect(chosen[full]?.in.includes(part) === true || by !== undefined, `${full} in ${part}`).toBe(true);
      }
    }
  });

  it('the statement of provenance has the digest of every file, of the sources and of the lock file', () => {
    const statement = JSON.parse(read(`v/${versions[0]}/provenance.intoto.json`)) as {
      subject: readonly { name: string; digest: { sha256: string } }[];
      predicate: {
        buildDefinition: { resolvedDependencies: readonly { digest: { dirHash: string; sha256: string } }[] };
      };
    };
    const folder = path.join(both, 'v', versions[0] ?? '');
    for (const { name, digest } of statement.subject)
      expect(sha256(readFileSync(path.join(folder, name))), name).toBe(digest.sha256);
    expect(statement.subject.length).toBe(readFolder(folder).size - 2);
    const parts = 'LICENSE assets manifest.xml package-lock.json package.json src tsconfig.json webpack.config.js';
    const command = `find ${parts} -type f | LC_ALL=C sort | tr '\\n' '\\0' | xargs -0 -r sha256sum | sha256sum | cut -f1 -d' '`;
    const [sources, lock] = statement.predicate.buildDefinition.resolvedDependencies;
    expect(sources?.digest.dirHash).toBe(execFileSync('bash', ['-c', command], { cwd: ROOT, encoding: 'utf8' }).trim());
    expect(lock?.digest.sha256).toBe(sha256(readFileSync(path.join(ROOT, 'package-lock.json'))));
  });
});

describe('a release made again', () => {
  const scratch = mkdtempSync(path.join(tmpdir(), 'rodsheet-again-'));
  afterAll(() => rmSync(scratch, { recursive: true, force: true }));

  it('has the same bytes in another time zone and language, and later; one that differs stays as it is', async () => {
    const later = path.join(scratch, 'later.mjs');
    writeFileSync(later, 'const now = Date.now; Date.now = () => now() + 366 * 864e5;');
    const folder = path.join(scratch, 'release');
    cpSync(first, folder, { recursive: true });
    const elsewhere = {
      TZ: 'Pacific/Kiritimati',
      LC_ALL: 'tr_TR.UTF-8',
      NODE_OPTIONS: `--import ${pathToFileURL(later).href}`,
    };
    const again = await release(ROOT, folder, elsewhere);
    expect(again.said).toContain('stood there already, the same byte for byte');
    expect(again.code).toBe(0);
    expect(dirHash(readFolder(folder))).toBe(dirHash(readFolder(first)));
  });

  it('is refused without an address, and with one that no host would take', () => {
    const command = ['node_modules/tsx/dist/cli.mjs', 'src/release/main.ts'];
    const say = (...args: readonly string[]): { readonly status: number | null; readonly stderr: string } =>
      spawnSync(process.execPath, [...command, ...args], { cwd: ROOT, encoding: 'utf8' });
    expect(say()).toMatchObject({ status: 2, stderr: expect.stringContaining('No --base given.') as unknown });
    expect(say('--base', 'http://rods.example')).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('the spreadsheet host takes https only') as unknown,
    });
  });
});
