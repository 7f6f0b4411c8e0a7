/**
 * Planning a list of pins: our one call against the same arithmetic as plain cell formulas, in the trial engine and in
 * HyperFormula (development only, under its gpl-v3 key).
 *
 * The plain chain is made from the working of a pin: every step with a formula becomes one cell per pin. What is solved by
 * iteration (mean flow, cooling) is given to it as a number of the row, assumptions and what follows from them alone stand once.
 * The rod is given, and the chain has no low and high. So it does far less than BURN.PIN.PLAN, which favours it. It must give
 * the rods, oxygen and crew time that our functions give, or the run fails.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { HyperFormula } from 'hyperformula';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { WorkedStep } from '../../src/core/model/step.ts';
import { toSi } from '../../src/core/units/parse-quantity.ts';
import { call, callByItems, type Results } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Cell } from '../../src/sheet/host-function.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { CellContent } from '../../src/sheet/described-workbook.ts';

const ROD = '3/8 x 36';
const PLAN = findFunction('BURN.PIN.PLAN')!;
const CREW = findFunction('BURN.PIN.TIME')!;
/** Sizes as a list has them, in steps: 97 diameters and 211 lengths. */
const inSteps = (i: number): readonly [number, number] => [2 + (i % 97) / 20, 5 + (i % 211) / 11];
/** Sizes as they are measured: 41 diameters in eighths of an inch, 77 lengths in quarters. */
const measured = (i: number): readonly [number, number] => [2 + (i % 41) / 8, 5 + (i % 77) / 4];
/** No two alike: the fractional parts of multiples of two irrational numbers fill the same ranges. */
const allDistinct = (i: number): readonly [number, number] => [
  2 + ((i * 0.618033988749895) % 1) * 4.8,
  5 + ((i * 0.754877666246693) % 1) * 19,
];
type Sizes = typeof inSteps;
const columns = (sizes: Sizes, n: number): readonly [number[][], number[][]] => [
  Array.from({ length: n }, (_, i) => [sizes(i)[0]]),
  Array.from({ length: n }, (_, i) => [sizes(i)[1]]),
];

/** Milliseconds: by the clock, and of the processor, which the ratios are taken from since other programs disturb it less. */
interface Spent {
  readonly wall: number;
  readonly cpu: number;
}

async function spent(make: () => unknown): Promise<Spent> {
  const [start, before] = [performance.now(), process.cpuUsage()];
  await make();
  const { user, system } = process.cpuUsage(before);
  return { wall: performance.now() - start, cpu: (user + system) / 1000 };
}
const median = (xs: readonly number[]): number => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)] ?? NaN;
const columnLetters = (i: number): string =>
  (i < 26 ? '' : String.fromCharCode(64 + Math.floor(i / 26))) + String.fromCharCode(65 + (i % 26));
const line = (what: string, figure: string): void => console.log(`${what.padEnd(54)} ${figure}`);
const micro = (ms: number): string => `${(ms * 1000).toFixed(0)} us a row`;

interface Chain {
  readonly cells: CellContent[][];
  readonly formulas: number;
  /** Column of a step. */
  readonly at: (symbol: string) => number;
}

/** The working of one pin: crew time, oxygen and rods. */
function working(i: number): readonly WorkedStep[] {
  const steps = [CREW, ...['OXYGEN', 'RODS'].map((suffix) => findFunction(`BURN.PIN.${suffix}`)!)].flatMap(
    (d) => explain(d, [...inSteps(i), undefined, ROD]).steps,
  );
  return steps.filter((step, at) => steps.findIndex(({ symbol }) => symbol === step.symbol) === at);
}

const calculated = ({ expression }: WorkedStep): boolean => expression !== undefined && !expression.startsWith('solve');

/** One row per pin: what is given for it, then a cell for every step with a formula; what all rows share stands once in row 1. */
function plainChain(rows: number): Chain {
  const workings = Array.from({ length: Math.min(rows, DISTINCT) }, (_, i) => working(i));
  const [first = [], other = []] = [workings[0], workings[1]];
  const differs = (s: WorkedStep): boolean => other.find((o) => o.symbol === s.symbol)?.value !== s.value;
  const perRow = first.filter((s) => calculated(s) || (typeof s.value === 'number' && differs(s)));
  const shared = first.filter((s) => !perRow.includes(s) && typeof s.value === 'number');
  const where = new Map<string, (row: number) => string>();
  perRow.forEach((s, i) => where.set(s.symbol, (row) => `${columnLetters(i)}${row}`));
  shared.forEach((s, i) => where.set(s.symbol, () => `$${columnLetters(i)}$1`));
  // HyperFormula reads no 1e-9.
  const formula = (s: WorkedStep, row: number): string =>
    `=${(s.expression ?? '').replace(/\d+e-\d+/g, (x) => Number(x).toFixed(12)).replace(/[A-Za-z_][A-Za-z_0-9]*/g, (name) => (name === 'PI' ? 'PI()' : name === 'ceil' ? 'ROUNDUP' : (where.get(name)?.(row) ?? name.toUpperCase())))}`.replace(
      /ROUNDUP\(([^()]*(?:\([^()]*\)[^()]*)*)\)/g,
      'ROUNDUP($1,0)',
    );
  const cells: CellContent[][] = [shared.map((s) => s.value)];
  for (let i = 0; i < rows; i++) {
    const given = new Map(workings[i % DISTINCT]?.map((s) => [s.symbol, s.value]));
    cells.push(perRow.map((s) => (calculated(s) ? formula(s, i + 2) : (given.get(s.symbol) ?? null))));
  }
  return {
    cells,
    formulas: perRow.filter(calculated).length,
    at: (symbol) => perRow.findIndex((s) => s.symbol === symbol),
  };
}

/** Pins whose workings are made; longer chains repeat them. */
const DISTINCT = 100;
const TRIAL_ROWS = 400;
const HYPER_ROWS = 5000;

/** Throws where a chain's rods, oxygen [kg] and crew time [s] of a row are not ours. */
function compare(engine: string, chain: Chain, valueAt: (row: number, column: number) => unknown): void {
  for (let i = 0; i < DISTINCT; i++) {
    for (const [symbol, suffix, quantity] of [
      ['N', 'RODS', 'count'],
      ['O', 'OXYGEN', 'oxygen'],
      ['t_crew', 'TIME', 'time'],
    ] as const) {
      const si = toSi((ours(suffix)[i]?.[0] ?? NaN) as number, quantity, 'US');
      const plain = valueAt(i + 1, chain.at(symbol));
      if (!(typeof plain === 'number' && Math.abs(plain - si) <= 1e-9 * Math.abs(si)))
        throw new Error(`${engine}: ${symbol} of row ${i + 1} is ${String(plain)}; ours is ${si}`);
    }
  }
}

const results = new Map<string, readonly (readonly Cell[])[]>();
function ours(suffix: string): readonly (readonly Cell[])[] {
  const found =
    results.get(suffix) ?? call(findFunction(`BURN.PIN.${suffix}`)!, [...columns(inSteps, DISTINCT), undefined, ROD]);
  results.set(suffix, found);
  return found;
}
/** Milliseconds of processor a row. */
async function list(what: string, sizes: Sizes, n: number): Promise<number> {
  const [diameters, lengths] = columns(sizes, n);
  const { wall, cpu } = await spent(() => call(PLAN, [diameters, lengths]));
  const distinct = new Set(diameters.map((d, i) => `${d[0]} ${lengths[i]?.[0]}`)).size;
  line(
    `PIN.PLAN, ${n} rows, ${what}`,
    `${distinct} distinct, ${micro(cpu / n)}, ${(cpu / 1000).toFixed(2)} s of processor in all, ${(wall / 1000).toFixed(2)} s by the clock`,
  );
  return cpu / n;
}

const MANY = 100_000;

/** Milliseconds of processor a row. */
async function expAndLog(rows: number): Promise<number> {
  const sizes = Float64Array.from({ length: rows }, (_, i) => allDistinct(i)[0] / 10);
  let sum = 0;
  const { cpu } = await spent(() => {
    for (let pass = 0; pass < 50; pass++) for (let i = 0; i < rows; i++) sum += Math.log(Math.exp(sizes[i]!));
  });
  if (!(sum > 0)) throw new Error('no sum');
  return cpu / rows;
}

/** The same with the sum in a variable of the loop's own, where the engine keeps it in a register: a third less, measured. */
async function expAndLogAlone(rows: number): Promise<number> {
  const sizes = Float64Array.from({ length: rows }, (_, i) => allDistinct(i)[0] / 10);
  const passes = (): number => {
    let sum = 0;
    for (let pass = 0; pass < 50; pass++) for (let i = 0; i < rows; i++) sum += Math.log(Math.exp(sizes[i]!));
    return sum;
  };
  const { cpu } = await spent(() => {
    if (!(passes() > 0)) throw new Error('no sum');
  });
  return cpu / rows;
}

/** Memory that a plan takes while it is worked out, over that of its result; only where Node lets it be collected (--expose-gc). */
function memory(): void {
  const { gc } = globalThis as { gc?: () => void };
  if (!gc) return;
  const used = (): number => {
    gc();
    const { heapUsed, external } = process.memoryUsage();
    return (heapUsed + external) / 1e6;
  };
  const [diameters, lengths] = columns(allDistinct, MANY);
  const before = used();
  let most = before;
  const paused = callByItems(PLAN, [diameters, lengths]);
  let result: Results | undefined;
  for (let i = 0; !result; i++) {
    const { done, value } = paused.next();
    if (done) result = value;
    if (i % 10_000 === 0) most = Math.max(most, used());
  }
  most = Math.max(most, used());
  const own = used() - before;
  line(
    `memory of a plan of ${MANY} rows`,
    `${(most - before).toFixed(0)} MB at most, its result ${own.toFixed(0)} MB: ${((most - before) / own).toFixed(2)} (asked: at most 2)`,
  );
  if (result.length !== MANY + 1) throw new Error('rows are missing');
}

/** Packed sizes of what the page of the add-in loads of our own, built to a folder of its own. */
function packedSizes(): void {
  const out = mkdtempSync(path.join(tmpdir(), 'rodsheet-size-'));
  try {
    execFileSync(
      process.execPath,
      ['node_modules/webpack/bin/webpack.js', '--output-path', out, '--env', 'only=addin'],
      { stdio: 'ignore' },
    );
    const packed = (name: string): number => gzipSync(readFileSync(path.join(out, name)), { level: 9 }).length / 1000;
    const pane = readdirSync(out).find((name) => /^pane\.\w+\.js$/.test(name)) ?? '';
    for (const name of ['functions.js', 'pane.css', 'pane.html', pane])
      line(`${name}, packed`, `${packed(name).toFixed(1)} kB`);
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}

/** Cells calculated first of all in a process of their own. */
const FIRST: Readonly<Record<string, readonly number[]>> = {
  'BURN.PIN.PLAN': [4, 10],
  'BURN.PIN.TIME': [4, 10],
  'BURN.GRIP.AFTER': [4, 10, 10, 2.5, 60],
  'BURN.PIN.OXYGEN': [4, 10],
};
const PROCESSES = 9;

/** The processor's time counts every thread: compiling and clearing up beside the calculation too. Loading the script is not in it. */
function firstCells(): void {
  for (const name in FIRST) {
    const each = Array.from({ length: PROCESSES }, () =>
      Number(spawnSync(process.execPath, [process.argv[1]!, name], { encoding: 'utf8' }).stdout),
    );
    line(
      `${name}, first cell of a process`,
      `${median(each).toFixed(0)} ms of processor (median of ${PROCESSES}; asked: at most 40)`,
    );
  }
}

async function cells(make: (i: number) => unknown): Promise<string> {
  await make(0);
  const each: number[] = [];
  for (let i = 1; i <= 200; i++) each.push((await spent(() => make(i))).cpu);
  return `${median(each).toFixed(2)} ms a call (median of 200)`;
}

async function main(): Promise<void> {
  firstCells();
  call(PLAN, columns(inSteps, 300));
  // Before the others, whose results the engine may still hold.
  memory();
  const host = hostFunctions.find((f) => f.name === 'BURN.PIN.PLAN')!;
  line('PIN.PLAN, one cell a call, by itself', await cells((i) => call(PLAN, [...inSteps(i)])));
  line('PIN.PLAN, one cell a call, in a host', await cells((i) => host.call([...inSteps(i)])));
  const ten = await list('sizes in steps', inSteps, 10_000);
  const hundred = await list('sizes in steps', inSteps, 100_000);
  await list('in eighths and quarters', measured, 100_000);
  await list('all distinct', allDistinct, 10_000);
  const many = await list('all distinct', allDistinct, MANY);
  const passes = await expAndLog(MANY);
  line(`50 passes of exp and log over ${MANY} rows`, `${(passes * 1000).toFixed(2)} us a row`);
  line('ratio PIN.PLAN, all distinct / 50 passes of exp and log', `${(many / passes).toFixed(1)} (asked: at most 20)`);
  const alone = await expAndLogAlone(MANY);
  line(
    "the same passes with a sum of the loop's own",
    `${(alone * 1000).toFixed(2)} us a row, ratio ${(many / alone).toFixed(1)}`,
  );

  for (const suffix of ['RODS', 'OXYGEN', 'TIME']) ours(suffix);
  const chain = plainChain(TRIAL_ROWS);
  const last = columnLetters((chain.cells[1]?.length ?? 1) - 1);
  const plain =
    (
      await spent(async () => {
        const book = await calculateWorkbook({ sheets: [{ name: 'Chain', rows: chain.cells }] }, []);
        const values = book.values(`A1:${last}${TRIAL_ROWS + 1}`);
        compare('the trial engine', chain, (r, c) => values[r]?.[c]);
      })
    ).cpu / TRIAL_ROWS;
  const [diameters, lengths] = columns(inSteps, TRIAL_ROWS);
  const rows = diameters.map((d, i): CellContent[] => [d[0] ?? 0, lengths[i]?.[0] ?? 0]);
  const formula = `=BURN.PIN.PLAN(A2:A${TRIAL_ROWS + 1},B2:B${TRIAL_ROWS + 1})`;
  const spill =
    (
      await spent(() =>
        calculateWorkbook(
          { sheets: [{ name: 'Pins', rows: [[null], ...rows], cells: { D1: formula } }] },
          hostFunctions,
        ),
      )
    ).cpu / TRIAL_ROWS;

  const long = plainChain(HYPER_ROWS);
  const build = (): HyperFormula =>
    HyperFormula.buildFromArray(long.cells as (string | number | null)[][], {
      licenseKey: 'gpl-v3',
      maxRows: HYPER_ROWS + 1,
    });
  const engine = build();
  compare('HyperFormula', long, (row, col) => engine.getCellValue({ sheet: 0, row, col }));
  const hyper = (await spent(build)).cpu / HYPER_ROWS;

  line(
    `plain cells, trial engine, ${TRIAL_ROWS} rows`,
    `${micro(plain)}, ${chain.formulas} formulas a row, no low and high; rods, oxygen and crew time as ours`,
  );
  line(`plain cells, HyperFormula, ${HYPER_ROWS} rows`, `${micro(hyper)}, the same formulas and results`);
  line(`PIN.PLAN spilled in the trial engine`, `${micro(spill)}, ${TRIAL_ROWS} rows`);
  for (const [name, own] of [
    ['10,000 rows in one call', ten],
    ['100,000 rows in one call', hundred],
    ['100,000 distinct rows in one call', many],
  ] as const) {
    line(`ratio trial engine / ours, ${name}`, (plain / own).toFixed(1));
    line(`ratio HyperFormula / ours, ${name}`, `${(hyper / own).toFixed(2)}${hyper < own ? ': ours is slower' : ''}`);
  }
  line('ratio trial engine / ours spilled in it', (plain / spill).toFixed(1));
  packedSizes();
}

const first = process.argv[2] ?? '';
if (first in FIRST) void spent(() => call(findFunction(first)!, FIRST[first]!)).then(({ cpu }) => console.log(cpu));
else void main();
