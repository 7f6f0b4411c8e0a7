import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { compareBuilds } from './compare-builds.mjs';
import shipped from './shipped.json' with { type: 'json' };

interface Locked {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly link?: boolean;
  readonly hasInstallScript?: boolean;
}

const ROOT = path.resolve(import.meta.dirname, '../..');
const scratch = mkdtempSync(path.join(os.tmpdir(), 'rodsheet-supply-'));
const read = (name: string): string => readFileSync(path.join(ROOT, name), 'utf8');
const lock = JSON.parse(read('package-lock.json')) as {
  readonly lockfileVersion: number;
  readonly packages: Readonly<Record<string, Locked>>;
};
const locked = Object.entries(lock.packages).filter(([place]) => place !== '');
const wanted: Readonly<Record<string, string>> = manifest.devDependencies;

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** Install scripts of packages that are not run, and why nothing here wants them. */
const UNWANTED_SCRIPTS: Readonly<Record<string, string>> = {
  '@azure/msal-node-extensions': "builds the host tool's store of sign-in tokens; nobody signs in",
  '@microsoft/m365agentstoolkit-cli': "prints the host tool's notice",
  esbuild: 'checks the program that its platform package has brought',
  keytar: "fetches or builds the host tool's key ring; nobody signs in",
  protobufjs: 'warns about version ranges',
};

/** Packages that no file of ours imports, and what wants them. */
const NOT_IMPORTED: Readonly<Record<string, string>> = {
  '@mdn/browser-compat-data': 'what the oldest engine knows, read by the build',
  '@microsoft/office-js':
    'copied by the build with --env office=package; the tests of the add-in play the host with its runtime',
  '@stryker-mutator/core': 'npm run mutate',
  '@stryker-mutator/vitest-runner': 'npm run mutate',
  '@types/custom-functions-runtime': "types of the host's runtime",
  '@types/d3-scale': 'types of d3-scale',
  '@types/d3-shape': 'types of d3-shape',
  '@types/node': 'types of Node',
  '@types/office-js': "types of the host's application",
  ajv: 'wanted by @cyclonedx/cyclonedx-library for checking a bill of materials against the schema',
  'ajv-formats': 'the same',
  'ajv-formats-draft2019': 'the same',
  hyperformula: 'comparisons in tests and benchmarks',
  'office-addin-cli': 'wanted by office-addin-debugging and office-addin-dev-certs',
  'office-addin-manifest': 'reads the manifest in a test',
  'office-addin-debugging': 'npm run excel, npm run stop',
  prettier: 'npm run lint',
  typescript: 'npm run typecheck',
  tsx: 'npm run readme, npm run golden, npm run hostile, npm run release',
  'webpack-cli': 'npm run build',
  'xlsx-populate': 'its workbooks are opened and saved by tests',
  'xlsx-stream-reader': 'its workbooks are opened and saved by tests',
  'webpack-dev-server': 'npm start',
};

/** Every file of ours that may import: sources, tests, and what stands at the top. */
function ours(): readonly string[] {
  const inside = ['src', 'test'].flatMap((folder) =>
    readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) => path.join(folder, name)),
  );
  return [
    ...inside.filter((name) => /\.(ts|tsx|mjs|js)$/.test(name)),
    'webpack.config.js',
    '.eslint.config.mjs',
    '.stryker.config.mjs',
  ];
}

/** Packages named by imports, dynamic ones and types included, in a file. */
function imported(file: string): readonly string[] {
  const named = read(file).matchAll(
    /(?:\bfrom|\bimport|\bimport\(|\brequire\(|\brequire\.resolve\()\s*'((?:@[\w.-]+\/)?[\w.-]+)(?:\/[^']*)?'/g,
  );
  return [...named].map(([, name = '']) => name).filter((name) => !name.startsWith('.'));
}

describe('the lock file', () => {
  it('is of a version that names every package with its checksum', () => {
    expect(lock.lockfileVersion).toBe(3);
    expect(locked.length).toBeGreaterThan(1000);
    for (const [place, { integrity, link }] of locked) {
      expect(place).toMatch(/^node_modules\//);
      expect(link, place).toBeUndefined();
      expect(integrity, place).toMatch(/^sha512-[A-Za-z0-9+/]{86}==$/);
    }
  });

  it('takes packages from a registry only', () => {
    for (const [place, { resolved, version }] of locked) {
      expect(resolved ?? 'https://registry.npmjs.org/', place).toMatch(/^https:\/\/registry\.npmjs\.org\//);
      expect(version, place).toMatch(/^\d+\.\d+\.\d+(-[\w.-]+)?$/);
    }
  });

  it('agrees with the exact versions that package.json asks for', () => {
    expect(lock.packages['']).toMatchObject({ devDependencies: wanted });
    for (const [name, version] of Object.entries(wanted)) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
      expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(version);
    }
    expect(Object.keys(manifest)).not.toContain('dependencies');
  });
});

describe('install scripts', () => {
  it('are off, for those of packages and our own', () => {
    expect(read('.npmrc').split('\n')).toContain('ignore-scripts=true');
    expect(
      Object.keys(manifest.scripts).filter((name) => /^(pre|post)?(install|prepare|pack|publish)/.test(name)),
    ).toEqual([]);
  });

  it('belong to packages of which each is known not to want its own', () => {
    const with_ = locked
      .filter(([, { hasInstallScript }]) => hasInstallScript)
      .map(([place]) => place.replace(/^.*node_modules\//, ''));
    expect([...new Set(with_)].sort()).toEqual(Object.keys(UNWANTED_SCRIPTS).sort());
  });
});

describe('packages', () => {
  const uses = new Map(ours().map((file) => [file, imported(file)]));

  it('are each imported, or wanted for a named reason', () => {
    const used = new Set([...uses.values()].flat());
    expect(
      Object.keys(wanted)
        .filter((name) => !used.has(name))
        .sort(),
    ).toEqual(
      Object.keys(NOT_IMPORTED)
        .filter((name) => !used.has(name))
        .sort(),
    );
    expect(Object.keys(NOT_IMPORTED).filter((name) => !(name in wanted))).toEqual([]);
  });

  it('that a file imports are asked for in package.json', () => {
    for (const [file, names] of uses)
      for (const name of names) expect(Object.keys(wanted), `${file} imports ${name}`).toContain(name);
  });

  it('that src imports are on the list of what is shipped, but for those that only build', () => {
    const building = [
      '@cyclonedx/cyclonedx-library',
      'acorn',
      'acorn-walk',
      'esbuild',
      'preact-render-to-string',
      'terser',
      'webpack',
    ];
    const bySources = new Set([...uses].filter(([file]) => file.startsWith('src')).flatMap(([, names]) => names));
    expect([...bySources].filter((name) => !(name in shipped.chosen) && !building.includes(name))).toEqual([]);
  });

  it('under the GPL, wanted for comparisons in tests and benchmarks, come near no build', () => {
    expect(
      [...uses].filter(([file, names]) => names.includes('hyperformula') && !/^test\/(?!supply-chain)/.test(file)),
    ).toEqual([]);
    expect(JSON.stringify(shipped)).not.toContain('hyperformula');
  });
});

describe('what is shipped', () => {
  const licences = (
    ...args: readonly string[]
  ): { readonly status: number | null; readonly stdout: string; readonly stderr: string } =>
    spawnSync(process.execPath, ['test/supply-chain/licences.mjs', ...args], { cwd: ROOT, encoding: 'utf8' });

  it('is on the list, with a reason and a permissive licence', () => {
    const { status, stdout, stderr } = licences('--only', 'addin');
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const [, inside = ''] = /^functions: \n([^]*?)\n\n/m.exec(stdout) ?? [];
    const packages = inside.split('\n').map((line) => line.trim().split(/ +/));
    expect(packages.map(([name, , licence]) => `${name ?? ''} ${licence ?? ''}`).sort()).toEqual([
      '@borgar/fx MIT',
      'd3-array ISC',
      'd3-color ISC',
      'd3-format ISC',
      'd3-interpolate ISC',
      'd3-path ISC',
      'd3-scale ISC',
      'd3-shape ISC',
      'preact MIT',
      'webpack MIT',
    ]);
    expect(stdout).toMatch(/^ +1 {2}GPL-3\.0-only: hyperformula$/m);
  });

  it('is refused where the list gives no reason for it there', () => {
    const list = path.join(scratch, 'shipped.json');
    writeFileSync(
      list,
      JSON.stringify({
        ...shipped,
        chosen: { ...shipped.chosen, saxes: { ...shipped.chosen.saxes, in: ['functions'] } },
      }),
    );
    const { status, stderr } = licences('--only', 'commands', '--list', list);
    expect(status).toBe(1);
    expect(stderr).toBe(
      'FAULT: saxes is in command line, and test/supply-chain/shipped.json gives no reason\nFAULT: xmlchars is in command line, and test/supply-chain/shipped.json gives no reason\n',
    );
  });

  it('is the same bytes when built elsewhere, later, in another time zone and language', () => {
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['test/supply-chain/two-builds.mjs', '--env', 'only=addin'],
      { cwd: ROOT, encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^\d{2,} files, 0 differ/);
    expect(status).toBe(0);
  });
});

describe('the comparison of two builds', () => {
  const files = (texts: Readonly<Record<string, string>>): Map<string, Buffer> =>
    new Map(Object.entries(texts).map(([name, text]) => [name, Buffer.from(text)]));
  const good = { 'a.js': 'one', 'b.css': '', 'c.html': 'three' };

  it('passes builds of the same bytes', () => {
    expect(compareBuilds(files(good), files(good), ['/where/one', '/where/other'])).toMatchObject({
      names: ['a.js', 'b.css', 'c.html'],
      differ: [],
      placed: [],
    });
  });

  it.each([
    ['a byte', { ...good, 'a.js': 'onf' }, 'a.js'],
    ['the order of bytes', { ...good, 'c.html': 'there' }, 'c.html'],
    ['a byte more', { ...good, 'c.html': 'three\n' }, 'c.html'],
    ['a file more, though empty', { ...good, 'd.js': '' }, 'd.js'],
    ['a file less, though empty', { 'a.js': 'one', 'c.html': 'three' }, 'b.css'],
  ])('finds %s', (_, planted, name) => {
    expect(compareBuilds(files(good), files(planted), []).differ).toEqual([name]);
    expect(compareBuilds(files(planted), files(good), []).differ).toEqual([name]);
  });

  it.each(['/where/one', '/where/other'])('finds the folder %s in a file of either', (folder) => {
    const telling = { ...good, 'a.js': `from ${folder}/src` };
    expect(compareBuilds(files(telling), files(good), ['/where/one', '/where/other']).placed).toEqual(['a.js']);
    expect(compareBuilds(files(good), files(telling), ['/where/one', '/where/other']).placed).toEqual(['a.js']);
  });
});
