import { execFile } from 'node:child_process';
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { Script, createContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { JSDOM } from 'jsdom';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Metadata } from '../../src/addin/metadata.ts';
import type { Cell, HostFunction } from '../../src/sheet/host-function.ts';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { INVALID_VALUE, NOT_AVAILABLE, SpreadsheetHost, errorArgument, type Outcome } from './spreadsheet-host.ts';

const root = new URL('../../', import.meta.url).pathname;
/** A region of assumptions. */
const ASSUME = [
  ['burning duty', 0.6],
  ['rod feed ratio', 0.5],
];
/** Numbers by which the host is told of these errors. */
const FAILURES: Readonly<Record<string, number>> = { '#N/A': NOT_AVAILABLE, '#VALUE!': INVALID_VALUE };

/** dist/ as `npm run build -- --env base=...` writes it, without the trial workbook, into a folder of its own. */
async function build(folder: string, base: string): Promise<void> {
  const switches = ['--env', 'only=addin', '--env', `base=${base}`, '--output-path', folder];
  await promisify(execFile)(process.execPath, ['node_modules/webpack/bin/webpack.js', ...switches], { cwd: root });
}

describe('the built functions in the host', () => {
  let dist: string;
  let bundle: string;
  let described: Metadata;
  let host: SpreadsheetHost;

  beforeAll(async () => {
    dist = await mkdtemp(path.join(tmpdir(), 'rodsheet-'));
    await build(dist, 'https://example.test/rods/');
    bundle = await readFile(path.join(dist, 'functions.js'), 'utf8');
    described = JSON.parse(await readFile(path.join(dist, 'functions.json'), 'utf8')) as Metadata;
    host = await SpreadsheetHost.load(bundle);
  });
  afterAll(async () => {
    host.close();
    await rm(dist, { recursive: true });
  });

  const one = async (id: string, ...args: readonly unknown[]): Promise<Outcome> => (await host.run([{ id, args }]))[0]!;

  it('are those that functions.json describes, and no others', () => {
    expect(described.functions.length).toBeGreaterThan(0);
    expect(host.ids).toEqual(described.functions.map((f) => f.id));
    expect(host.warnings).toEqual([]);
  });

  it('are described in full: one entry a function, one parameter a parameter', () => {
    expect(
      described.functions.map((f) => [`BURN.${f.id}`, f.parameters.map((p) => [p.name, p.optional ?? false])]),
    ).toEqual(hostFunctions.map((f) => [f.name, f.parameters.map((p) => [p.name, p.optional])]));
  });

  it('give in the host what they give in the source, from the examples of their parameters', async () => {
    const outcomes = await host.run(
      hostFunctions.map((f) => ({ id: f.name.slice('BURN.'.length), args: f.parameters.map((p) => example(p)) })),
    );
    hostFunctions.forEach((f, i) => {
      const rows = f.call(f.parameters.map((p) => example(p) ?? undefined));
      expect(outcomes[i], f.name).toEqual(loneError(rows) ?? { value: rows.map((row) => row.map(asSent)) });
    });
    expect(host.warnings).toEqual([]);
  });

  it('work on a range: a blank row stays blank, a bad row fails alone with its reason', async () => {
    const { value } = (await one(
      'PIN.RODS',
      [[3], [null], ['wide'], [errorArgument('#DIV/0!')], [4]],
      [[10], [null], [10], [10], [12]],
      null,
      null,
      null,
      null,
    )) as { value: readonly (readonly { code?: string; message?: string }[])[] };
    expect(value.length).toBe(5);
    expect(value[0]?.[0]).toBeTypeOf('number');
    expect(value[1]?.[0]).toBe('');
    expect(value[2]?.[0]).toMatchObject({ code: '#VALUE!', message: expect.stringContaining('diameter') as string });
    expect(value[3]?.[0]).toMatchObject({ code: '#VALUE!', message: expect.stringContaining('#DIV/0!') as string });
    expect(value[4]?.[0]).toBeTypeOf('number');
  });

  it('hand a lone error over with its message', async () => {
    const [wrong, unknown] = await host.run([
      { id: 'PIN.RODS', args: [[[-3]], [[10]], null, null, null, null] },
      { id: 'PIN.RODS', args: [[[3]], [[10]], null, [['no such rod']], null, null] },
    ]);
    expect(wrong).toMatchObject({
      failure: INVALID_VALUE,
      message: expect.stringMatching(/^diameter is -3/) as string,
    });
    expect(unknown).toMatchObject({ failure: NOT_AVAILABLE, message: expect.stringMatching(/^rod /) as string });
  });

  it('give the same in a runtime that has no page, where no pane is shown', async () => {
    const calls = new Map<string, (...args: unknown[]) => unknown>();
    const CustomFunctions = {
      associate: (all: Readonly<Record<string, (...args: unknown[]) => unknown>>) =>
        Object.entries(all).forEach(([id, call]) => calls.set(id, call)),
      Error: class extends Error {
        constructor(
          readonly code: string,
          message: string,
        ) {
          super(message);
        }
      },
      ErrorCode: { notAvailable: '#N/A', invalidValue: '#VALUE!' },
    };
    // A bare script engine: no document, no window, no timers, nothing of the host's application.
    new Script(bundle).runInContext(createContext({ CustomFunctions }));
    expect([...calls.keys()]).toEqual(described.functions.map((f) => f.id));
    const asked = hostFunctions.flatMap((f) => {
      const args = f.parameters.map((p) => example(p));
      const assumed = f.parameters.map((p, i) => (p.name === 'assume' ? ASSUME : args[i]!));
      return assumed.includes(ASSUME) ? [[f, args] as const, [f, assumed] as const] : [[f, args] as const];
    });
    expect(asked.length).toBeGreaterThan(1.5 * hostFunctions.length);
    for (const [f, args] of asked) {
      let answer: unknown;
      try {
        answer = { value: await calls.get(f.name.slice('BURN.'.length))?.(...args) };
      } catch (thrown) {
        answer = { failure: FAILURES[(thrown as { code: string }).code], message: (thrown as Error).message };
      }
      const rows = f.call(args.map((arg) => arg ?? undefined));
      expect(answer, f.name).toEqual(loneError(rows) ?? { value: rows.map((row) => row.map(asSent)) });
    }
  });

  it('are deployed at the address given to the build', async () => {
    const manifest = await readFile(path.join(dist, 'manifest.xml'), 'utf8');
    expect(manifest).toContain('"https://example.test/rods/functions.json"');
    expect(manifest).not.toContain('localhost');
    expect(described.functions.find((f) => f.id === 'PIN.OXYGEN')?.helpUrl).toBe(
      'https://example.test/rods/reference/pin-oxygen.html',
    );
    for (const { name, helpUrl } of described.functions) {
      expect(await readFile(path.join(dist, helpUrl.replace('https://example.test/rods/', '')), 'utf8')).toContain(
        `<h1>BURN.${name}</h1>`,
      );
    }
    await expect(build(dist, 'http://example.test')).rejects.toThrow('the spreadsheet host takes https only');
  });

  it('load office.js from its vendor unless told otherwise', async () => {
    const pane = await readFile(path.join(dist, 'pane.html'), 'utf8');
    expect(pane).toContain('src="https://appsforoffice.microsoft.com/lib/1/hosted/office.js"');
    expect(pane).toContain('src="functions.js"');
  });

  it('load at most 200 kB of our own, packed, and the pane with its looks and the words of the functions, once it is shown, at most 82.5 kB more', async () => {
    const { document } = new JSDOM(await readFile(path.join(dist, 'pane.html'), 'utf8')).window;
    const loaded = [...document.querySelectorAll('[src], link[href]')]
      .map((element) => element.getAttribute('src') ?? element.getAttribute('href') ?? '')
      .filter((address) => !address.includes('//'));
    expect(loaded.sort()).toEqual(['functions.js']);
    expect(await packed(['pane.html', ...loaded])).toBeLessThanOrEqual(200_000);
    const later = (await readdir(dist)).filter((name) => name.endsWith('.js') && !loaded.includes(name));
    expect(later.sort()).toEqual([
      expect.stringMatching(/^check\.[0-9a-f]{8}\.js$/),
      expect.stringMatching(/^job\.[0-9a-f]{8}\.js$/),
      expect.stringMatching(/^lists\.[0-9a-f]{8}\.js$/),
      expect.stringMatching(/^pane\.[0-9a-f]{8}\.js$/),
    ]);
    for (const name of later) expect(bundle).toContain(name.split('.')[1]);
    // What begins a job, looks through a workbook or works out a long list is fetched by whoever asks for it.
    expect(await packed(later.filter((name) => name.startsWith('lists')))).toBeLessThanOrEqual(6_000);
    expect(await packed(later.filter((name) => name.startsWith('check')))).toBeLessThanOrEqual(20_000);
    expect(await packed([...later.filter((name) => name.startsWith('pane')), 'pane.css'])).toBeLessThanOrEqual(82_500);
    expect(await packed(later.filter((name) => name.startsWith('job')))).toBeLessThanOrEqual(20_000);
  });

  it('have no words that only a reader of the pane wants: the pane brings them', async () => {
    const name = (await readdir(dist)).find((file) => file.startsWith('pane.') && file.endsWith('.js'))!;
    const pane = await readFile(path.join(dist, name), 'utf8');
    const said = (words: string): string => JSON.stringify(words).slice(1, -1);
    for (const { summary } of CATALOGUE) {
      expect(bundle).not.toContain(said(summary));
      expect(pane.replaceAll(/\\?'/g, "'")).toContain(said(summary).replaceAll('\\"', '"'));
    }
  });

  const packed = async (names: readonly string[]): Promise<number> => {
    const files = await Promise.all(names.map((name) => readFile(path.join(dist, name))));
    return files.reduce((sum, file) => sum + gzipSync(file).length, 0);
  };
});

/** A parameter's example as the host would pass it; examples that point at cells are left out. */
function example({
  example: text,
}: HostFunction['parameters'][number]): readonly (readonly (string | number)[])[] | null {
  const quoted = /^"(.*)"$/.exec(text);
  if (quoted) return [[(quoted[1] ?? '').replaceAll('""', '"')]];
  return text.trim() !== '' && Number.isFinite(Number(text)) ? [[Number(text)]] : null;
}

/** How the host is told of a result that is one error and nothing else, as where a range is missing. */
function loneError(rows: readonly (readonly Cell[])[]): unknown {
  const [[cell] = []] = rows;
  if (rows.length !== 1 || rows[0]?.length !== 1 || typeof cell !== 'object' || cell === null) return undefined;
  return { failure: FAILURES[cell.error], message: cell.message };
}

function asSent(cell: Cell): unknown {
  if (cell === null) return '';
  return typeof cell === 'object'
    ? (expect.objectContaining({ code: cell.error, message: cell.message }) as unknown)
    : cell;
}
