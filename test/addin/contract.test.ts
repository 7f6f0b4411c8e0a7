/** Every function as built, called through the vendor's runtime with good, blank and hostile arguments; what it hands over is looked at before the runtime changes it. */
import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { argumentsOf, asCalled, everyArgument, type HostArguments } from './example-arguments.ts';
import {
  INVALID_VALUE,
  NOT_AVAILABLE,
  SpreadsheetHost,
  errorArgument,
  type Call,
  type Outcome,
} from './spreadsheet-host.ts';

const root = new URL('../../', import.meta.url).pathname;
const idOf = (name: string): string => name.slice('BURN.'.length);

/** Longest text of a cell (the host's published limits). */
const CELL_TEXT = 32_767;
/** A text that someone reads in a box beside a cell; it repeats at most 60 characters of what came. */
const MESSAGE = 400;

/** What is wrong with something handed to the runtime, or undefined. A text of the arguments given may come back as it was: a title, the name of a thing. */
function unfit(
  host: SpreadsheetHost,
  value: unknown,
  thrown: boolean,
  given: readonly unknown[] = [],
): string | undefined {
  if (thrown) return unfitError(host, value);
  if (!Array.isArray(value) || value.length === 0) return `not a matrix: ${String(value)}`;
  const rows = value as readonly unknown[];
  const own = new Set(given.flat(2));
  for (const row of rows) {
    if (!Array.isArray(row) || row.length === 0) return 'a row is empty or no row';
    if (row.length !== (rows[0] as readonly unknown[]).length) return 'the rows are of unequal length';
    for (const cell of row as readonly unknown[]) {
      const fault =
        typeof cell === 'number'
          ? Number.isFinite(cell)
            ? undefined
            : `${cell} in a cell`
          : typeof cell === 'string'
            ? cell.length > CELL_TEXT
              ? `a text of ${cell.length} characters`
              : own.has(cell)
                ? undefined
                : unfitText(cell)
            : typeof cell === 'boolean'
              ? undefined
              : unfitError(host, cell);
      if (fault !== undefined) return fault;
    }
  }
  return undefined;
}

function unfitError(host: SpreadsheetHost, value: unknown): string | undefined {
  if (!host.isError(value)) return `neither a scalar nor an error of the runtime: ${String(value)}`;
  if (value.code !== '#VALUE!' && value.code !== '#N/A') return `an error whose text the host drops: ${value.code}`;
  if (value.message.trim() === '') return `${value.code} without a text`;
  if (value.message.length > MESSAGE)
    return `a message of ${value.message.length} characters: ${value.message.slice(0, 200)}`;
  if (/please report/.test(value.message)) return `a fault of ours: ${value.message}`;
  return unfitText(value.message);
}

/** Whether a text shows the machine; what it repeats of the cell in quotes is the user's own. */
function unfitText(text: string): string | undefined {
  return /\b(NaN|Infinity|undefined)\b|\[object/.test(text.replaceAll(/"[^"]*"/g, ''))
    ? `a text that shows the machine: ${text.slice(0, 200)}`
    : undefined;
}

/** A failure as the host is told of it: one of the two codes that keep a text, and the text. */
function tells(outcome: Outcome): boolean {
  return (
    'value' in outcome ||
    ((outcome.failure === INVALID_VALUE || outcome.failure === NOT_AVAILABLE) && outcome.message.length > 0)
  );
}

const HUGE = 'long '.repeat(CELL_TEXT / 5);
const rich = (value: unknown): unknown => ({ value: JSON.stringify(value) });

/** Cells that a message of the host can carry. */
const HOSTILE: readonly unknown[] = [
  ...['#DIV/0!', '#N/A', '#REF!', '#SPILL!', '#BUSY!'].map(errorArgument),
  { a: 1 },
  { type: 'CustomFunctionError', code: 7 },
  { type: 'Entity', basicValue: { a: 1 } },
  -1,
  1e308,
  5e-324,
  -1e308,
  46089,
  9007199254740993,
  true,
  false,
  'x',
  'NaN',
  'Infinity',
  '1e999',
  '-',
  '=1+1',
  '#N/A',
  '3/0',
  '1/2/3',
  '__proto__',
  'constructor',
  'toString',
  '\u0000',
  '\ud800',
  '٣',
  '3,5',
  '1.234,5',
  '<b>',
  '%',
  "'",
  '9'.repeat(5000),
  HUGE,
];

/** Shapes that no range has, and some that one has. */
const SHAPES: readonly unknown[] = [
  [[1, 2, 3], [4], [5, 6]],
  [[], []],
  [],
  [[1], [2], [3]],
  [[1, 'x', true, null, '', errorArgument('#NULL!')]],
  [1, 2, 3],
  [[[1], [2]]],
  3.5,
  'x',
  false,
];

/** As newer hosts send cells of data types, to functions that ask for them. */
const RICH: readonly (readonly [string, unknown])[] = [
  ['a formatted number', rich({ type: 'FormattedNumber', basicType: 'Double', basicValue: 3.5, numberFormat: '0.00' })],
  [
    'a double with properties',
    rich({
      type: 'Double',
      basicType: 'Double',
      basicValue: 3.5,
      properties: { p: { type: 'String', basicType: 'String', basicValue: 'x' } },
    }),
  ],
  ['a text', rich({ type: 'String', basicType: 'String', basicValue: '3.5 in' })],
  ['a truth value', rich({ type: 'Boolean', basicType: 'Boolean', basicValue: true })],
  ['a blank', rich({ type: 'Empty', basicType: 'Empty', basicValue: '' })],
  ['an error', rich({ type: 'Error', basicType: 'Error', basicValue: '#DIV/0!', errorType: 'Div0' })],
  ['an entity', rich({ type: 'Entity', basicType: 'Error', basicValue: '#VALUE!', text: 'pin', properties: {} })],
  [
    'an array',
    rich({ type: 'Array', basicType: 'Error', basicValue: '#VALUE!', elements: [[{ type: 'Double', basicValue: 1 }]] }),
  ],
  [
    'a picture',
    rich({ type: 'WebImage', basicType: 'Error', basicValue: '#VALUE!', address: 'https://example.test/a.png' }),
  ],
  [
    'a linked entity',
    rich({
      type: 'LinkedEntity',
      basicType: 'Error',
      basicValue: '#VALUE!',
      id: { entityId: '1', domainId: 'd', serviceId: 1, culture: 'en-US' },
    }),
  ],
];

/** What no message can carry, given to the function in the page itself. */
const IMPOSSIBLE: readonly unknown[] = [NaN, Infinity, -Infinity, undefined, 10n, Symbol('x'), () => 1, new Date(0)];
const IMPOSSIBLE_SHAPES: readonly unknown[] = [NaN, [Array<unknown>(2)], [null, [1]], new Map()];

describe('every function in the host', () => {
  let dist: string;
  let host: SpreadsheetHost;
  beforeAll(async () => {
    dist = await mkdtemp(path.join(tmpdir(), 'rodsheet-'));
    await promisify(execFile)(
      process.execPath,
      ['node_modules/webpack/bin/webpack.js', '--env', 'only=addin', '--output-path', dist],
      { cwd: root },
    );
    host = await SpreadsheetHost.load(await readFile(path.join(dist, 'functions.js'), 'utf8'));
  });
  afterAll(async () => {
    host.close();
    await rm(dist, { recursive: true });
  });

  it('comes with every file that its manifest and its help links name, of the right kind', async () => {
    const manifest = await readFile(path.join(dist, 'manifest.xml'), 'utf8');
    const { functions } = JSON.parse(await readFile(path.join(dist, 'functions.json'), 'utf8')) as {
      readonly functions: readonly { readonly id: string; readonly helpUrl: string }[];
    };
    const named = [
      ...new Set(
        [...manifest.matchAll(/DefaultValue="https:\/\/localhost:3000\/([^"#]+)/g)].map(([, file = '']) => file),
      ),
    ];
    const help = functions.map(({ helpUrl }) => new URL(helpUrl).pathname.slice(1));
    expect(named.length).toBeGreaterThan(7);
    for (const file of [...named, ...new Set(help)]) {
      const bytes = readFileSync(path.join(dist, file));
      // A PNG file's header (ISO/IEC 15948, clauses 5.2 and 11.2.2) says its width and height.
      const size = Number(/icon-(\d+)\.png$/.exec(file)?.[1]);
      if (file.endsWith('.png'))
        expect([bytes.subarray(1, 4).toString('latin1'), bytes.readUInt32BE(16), bytes.readUInt32BE(20)], file).toEqual(
          ['PNG', size, size],
        );
      else if (file.endsWith('.html'))
        expect(bytes.toString(), file).toMatch(/^<!doctype html>[^]*<html lang="en"[^]*<\/html>\s*$/i);
      else if (file.endsWith('.json')) expect(JSON.parse(bytes.toString()), file).toHaveProperty('functions');
      else expect(file).toMatch(/\.js$/);
    }
    expect(host.ids).toEqual(functions.map((f) => f.id));
  });

  it("has a manifest that the vendor's own reader takes", async () => {
    const { OfficeAddinManifest } = createRequire(import.meta.url)('office-addin-manifest') as {
      readonly OfficeAddinManifest: { readManifestFile(file: string): Promise<object> };
    };
    expect(await OfficeAddinManifest.readManifestFile(path.join(dist, 'manifest.xml'))).toMatchObject({
      id: '97e1007a-eef1-4539-b997-503154f84009',
      officeAppType: 'TaskPaneApp',
      displayName: 'Rodsheet',
      providerName: 'Rodsheet',
      defaultLocale: 'en-US',
      hosts: ['Workbook'],
      permissions: 'ReadWriteDocument',
    });
  });

  /** Runs calls and says which handed over something the runtime would spoil, or failed without a word. */
  async function faults(calls: readonly (Call & { readonly what: string })[]): Promise<readonly string[]> {
    host.handed.length = 0;
    const outcomes = await host.run(calls);
    const found = host.handed.flatMap(({ how, value }, i) => {
      const fault = unfit(host, value, how === 'thrown', calls[i]?.args);
      return fault === undefined ? [] : [`${calls[i]?.id ?? ''} with ${calls[i]?.what ?? ''}: ${fault}`];
    });
    expect(host.handed.length).toBe(calls.length);
    outcomes.forEach((outcome, i) => {
      if (!tells(outcome)) found.push(`${calls[i]?.id ?? ''} with ${calls[i]?.what ?? ''}: fails without a word`);
    });
    return found;
  }

  const names = hostFunctions.map((f) => f.name);
  const replaced = (args: HostArguments, i: number, by: unknown): readonly unknown[] =>
    args.map((a, k) => (k === i ? by : a));

  it('gives what the source gives, for every formula of its examples and with every argument given', async () => {
    const calls = CATALOGUE.flatMap((d) =>
      [...d.examples.map(argumentsOf), everyArgument(d.name)].map((args) => ({
        name: d.name,
        args: names.includes(d.name) ? padded(d.name, args) : args,
      })),
    );
    host.handed.length = 0;
    const outcomes = await host.run(calls.map(({ name, args }) => ({ id: idOf(name), args })));
    calls.forEach(({ name, args }, i) => {
      const rows = hostFunctions.find((f) => f.name === name)?.call(asCalled(args)) ?? [];
      const shown = JSON.stringify(args).slice(0, 300);
      expect(
        rows.flat().filter((cell) => typeof cell === 'object' && cell !== null),
        `${name} ${shown}`,
      ).toEqual([]);
      expect(outcomes[i], `${name} ${shown}`).toEqual({ value: rows.map((row) => row.map((cell) => cell ?? '')) });
      expect(unfit(host, host.handed[i]?.value, false), name).toBeUndefined();
    });
    expect(host.warnings).toEqual([]);
  });

  it('takes the whole listing of assumptions, with its heading, for the defaults', async () => {
    const [listing] = await host.run([{ id: 'ASSUMED', args: [null] }]);
    const { value } = listing as { value: readonly (readonly unknown[])[] };
    const sizing = CATALOGUE.filter((d) => d.assume === true && d.examples.length > 0);
    const calls = sizing.map((d) => ({ id: idOf(d.name), args: padded(d.name, argumentsOf(d.examples[0] ?? '')) }));
    const plain = await host.run(calls);
    const same = await host.run(calls.map(({ id, args }) => ({ id, args: [...args.slice(0, -1), value] })));
    sizing.forEach((d, i) => expect(same[i], d.name).toEqual(plain[i]));
  });

  it('makes no difference between the blanks of browser and desktop hosts where a 0 cannot be meant', async () => {
    const cases = hostFunctions.flatMap((f) =>
      f.parameters.flatMap((p, i) => (p.zeroIsBlank ? [{ id: idOf(f.name), i, good: everyArgument(f.name) }] : [])),
    );
    const [browser, desktop] = await Promise.all(
      [null, 0].map((blank) =>
        host.run(
          cases.map(({ id, i, good }) => ({
            id,
            args: replaced(good, i, [[blank]]),
            addresses: good.map(() => 'Sheet1!A5'),
          })),
        ),
      ),
    );
    cases.forEach(({ id, i }, k) => expect(desktop?.[k], `${id} argument ${i + 1}`).toEqual(browser?.[k]));
    expect(cases.length).toBeGreaterThan(200);
  });

  /** Ways of putting cells into an argument: all in a column where a list is taken, and each by itself where it is not. */
  function placed(
    name: string,
    i: number,
    cells: readonly unknown[],
  ): readonly (readonly [what: string, args: readonly unknown[]])[] {
    const good = everyArgument(name);
    const d = CATALOGUE.find((each) => each.name === name);
    const parameter = Object.values(d?.parameters ?? {})[i];
    const put = (what: string, value: unknown) => [`${what} as argument ${i + 1}`, replaced(good, i, value)] as const;
    const short = (cell: unknown): string =>
      (typeof cell === 'object' ? JSON.stringify(cell) : String(cell)).slice(0, 40);
    // Rows of assumptions are read by the same code for every function; all cells are tried where a call is cheap.
    if (!parameter)
      return (name === 'BURN.PIN.HOLE' ? cells : cells.slice(0, 2)).flatMap((cell) => [
        put(`${short(cell)} set to 3`, [[cell, 3]]),
        put(`stub set to ${short(cell)}`, [['stub', cell]]),
      ]);
    if (parameter.kind.kind !== 'cells' && d?.result.kind !== 'table')
      return [
        put(
          'hostile cells',
          cells.map((cell) => [cell]),
        ),
        ...cells.slice(0, 2).map((cell) => put(short(cell), [[cell]])),
      ];
    if (parameter.kind.kind !== 'cells') return cells.map((cell) => put(short(cell), [[cell]]));
    const [first = [], ...rest] = good[i] ?? [[null]];
    return cells.map((cell, k) => put(short(cell), k % 2 === 0 ? [[cell, ...first.slice(1)], ...rest] : [[cell]]));
  }

  const everywhere = (cells: readonly unknown[]) =>
    names.flatMap((name) =>
      everyArgument(name).flatMap((_, i) =>
        placed(name, i, cells).map(([what, args]) => ({ id: idOf(name), what, args })),
      ),
    );

  it('takes or refuses every kind of blank in every argument', async () => {
    expect(await faults(everywhere([null, '', '   ', 0]))).toEqual([]);
    expect(host.warnings).toEqual([]);
  });

  it('takes or refuses every kind of cell in every argument', async () => {
    expect(await faults(everywhere(HOSTILE))).toEqual([]);
    expect(host.warnings).toEqual([]);
  });

  it('takes or refuses shapes that no range has, two of them in each argument', async () => {
    let next = 0;
    const calls = names.flatMap((name) =>
      everyArgument(name).flatMap((_, i) =>
        [0, 1].map(() => {
          const shape = SHAPES[next++ % SHAPES.length];
          return {
            id: idOf(name),
            what: `${JSON.stringify(shape)} as argument ${i + 1}`,
            args: replaced(everyArgument(name), i, shape),
          };
        }),
      ),
    );
    expect(await faults(calls)).toEqual([]);
    expect(host.warnings).toEqual([]);
  });

  it('takes or refuses every data type in every argument', async () => {
    expect(await faults(everywhere(RICH.map(([, cell]) => cell)).map((call) => ({ ...call, rich: true })))).toEqual([]);
    expect(host.warnings).toEqual([]);
  });

  it('takes a number of a data type for the number, and an error of one for the error', async () => {
    const length = [[10]];
    const [plain, formatted, double, error, entity] = await host.run([
      { id: 'PIN.OXYGEN', args: [[[3.5]], length, null, null, null, null] },
      ...RICH.filter(([what]) => /number|double|error|entity/.test(what))
        .slice(0, 4)
        .map(([, value]) => ({ id: 'PIN.OXYGEN', args: [[[value]], length, null, null, null, null], rich: true })),
    ]);
    expect(formatted).toEqual(plain);
    expect(double).toEqual(plain);
    expect(error).toMatchObject({
      failure: INVALID_VALUE,
      message: 'diameter holds the error #DIV/0!; mend that cell first',
    });
    expect(entity).toMatchObject({
      failure: INVALID_VALUE,
      message: 'diameter holds the error #VALUE!; mend that cell first',
    });
  });

  it('takes or refuses what no host sends', async () => {
    const shapes = names.flatMap((name) =>
      everyArgument(name).flatMap((_, i) =>
        IMPOSSIBLE_SHAPES.map((shape) => ({
          id: idOf(name),
          what: `${String(shape)} as argument ${i + 1}`,
          args: replaced(everyArgument(name), i, shape),
        })),
      ),
    );
    const found: string[] = [];
    for (const { id, what, args } of [...everywhere(IMPOSSIBLE), ...shapes]) {
      let fault: string | undefined;
      try {
        fault = unfit(host, await host.direct(id, ...args, {}), false);
      } catch (thrown) {
        fault = unfit(host, thrown, true);
      }
      if (fault !== undefined) found.push(`${id} with ${what}: ${fault}`);
    }
    expect(found).toEqual([]);
  });

  it("throws an error of the host's own where anything else goes wrong, with the reason", async () => {
    const trap = Object.defineProperty({}, 'code', {
      get: () => {
        throw new RangeError('no such thing');
      },
    });
    for (const name of names) {
      if (everyArgument(name).length === 0) continue;
      let thrown: unknown;
      try {
        await host.direct(idOf(name), [[trap]], {});
      } catch (e) {
        thrown = e;
      }
      expect(host.isError(thrown), name).toBe(true);
      expect(thrown).toMatchObject({ code: '#VALUE!', message: expect.stringContaining('no such thing') as string });
    }
  });

  it('takes or refuses any number of arguments', async () => {
    const calls = hostFunctions.flatMap((f) =>
      [0, 1, f.parameters.length - 1, f.parameters.length + 1, f.parameters.length + 5]
        .filter((n) => n >= 0)
        .map((n) => {
          const good = everyArgument(f.name);
          return {
            id: idOf(f.name),
            what: `${n} arguments`,
            args: Array.from({ length: n }, (_, i) => good[i] ?? [[1]]),
          };
        }),
    );
    expect(await faults(calls)).toEqual([]);
    expect(host.warnings).toEqual([]);
  });

  it('answers a call that the host has taken back, once: with the value it would have had, or that it was taken back', async () => {
    const calls = hostFunctions.map((f) => ({ id: idOf(f.name), args: everyArgument(f.name) }));
    const [kept, cancelled] = [await host.run(calls), await host.run(calls.map((c) => ({ ...c, cancelled: true })))];
    expect(cancelled.length).toBe(calls.length);
    const takenBack = { message: 'the calculation was taken back' };
    cancelled.forEach((outcome, i) => {
      if ('value' in outcome) expect(outcome, calls[i]?.id).toEqual(kept[i]);
      else expect(outcome, calls[i]?.id).toMatchObject(takenBack);
    });
    expect(host.warnings).toEqual([]);
  });

  it("hands over nothing that the host's limits would cut: no text longer than a cell, no page of a message", async () => {
    const longest = everyArgument('BURN.PIN.PLAN');
    const [, plan] = [
      longest,
      await host.run([{ id: 'PIN.PLAN', args: [[[HUGE], [4]], [[10], [HUGE]], null, null, null, null] }]),
    ];
    const texts = (plan[0] as { value: readonly (readonly unknown[])[] }).value
      .flat()
      .filter((cell) => typeof cell === 'string');
    expect(Math.max(...texts.map((t) => t.length))).toBeLessThan(MESSAGE * 2);
  });
});

/** A host sends null for each argument left out. */
function padded(name: string, args: HostArguments): HostArguments {
  return (hostFunctions.find((f) => f.name === name)?.parameters ?? []).map((_, i) => args[i] ?? null);
}
