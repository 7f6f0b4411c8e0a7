/**
 * Planning a list of pins: our one call against the same arithmetic as plain cell formulas in the trial engine.
 *
 * The plain chain is made from the working of a pin: every step with a formula becomes one cell per pin, the
 * assumptions and the results of iteration (mean flow, heat of burning) are given to it as shared constants, and it
 * has no low and high. So it does less than BURN.PIN.PLAN, which favours it.
 */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { recorder, type Step } from '../../src/core/trace/trace.ts';
import { call, explain } from '../../src/sheet/call.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { calculateWorkbook } from '../../src/trial/engine/headless.ts';
import type { CellContent } from '../../src/trial/engine/workbook.ts';

const PLAN = findFunction('BURN.PIN.PLAN')!;
const CREW = findFunction('BURN.PIN.TIME')!;
const diameterOf = (i: number): number => 2 + (i % 97) / 20;
const lengthOf = (i: number): number => 5 + (i % 211) / 11;

function timed(make: () => unknown): number {
  const start = performance.now();
  make();
  return performance.now() - start;
}
const shown = (cell: unknown): string => (typeof cell === 'number' ? cell.toFixed(2) : 'no number');
const median = (xs: readonly number[]): number => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)] ?? NaN;
const columnLetters = (i: number): string => (i < 26 ? '' : String.fromCharCode(64 + Math.floor(i / 26))) + String.fromCharCode(65 + (i % 26));

/** One row per pin: the given sizes, then a cell for every step with a formula; other steps stand once in row 1. */
function plainChain(rows: number): { readonly cells: CellContent[][]; readonly formulas: number } {
  const trace = recorder();
  explain(CREW, [4, 10], 0, trace);
  const perRow: Step[] = trace.steps.filter((s) => (s.expression !== undefined && !s.expression.startsWith('solve')) || s.symbol === 'D' || s.symbol === 'L');
  const shared: Step[] = trace.steps.filter((s) => !perRow.includes(s) && typeof s.value === 'number');
  const where = new Map<string, (row: number) => string>();
  perRow.forEach((s, i) => where.set(s.symbol, (row) => `${columnLetters(i)}${row}`));
  shared.forEach((s, i) => where.set(s.symbol, () => `$${columnLetters(i)}$1`));
  const formula = (s: Step, row: number): string =>
    `=${(s.expression ?? '').replace(/[A-Za-z_][A-Za-z_0-9]*/g, (name) => (name === 'PI' ? 'PI()' : name === 'ceil' ? 'ROUNDUP' : where.get(name)?.(row) ?? name.toUpperCase()))}`.replace(/ROUNDUP\(([^()]*(?:\([^()]*\)[^()]*)*)\)/g, 'ROUNDUP($1,0)');
  const cells: CellContent[][] = [shared.map((s) => s.value)];
  for (let i = 0; i < rows; i++) {
    cells.push(perRow.map((s) => (s.symbol === 'D' ? diameterOf(i) * 0.0254 : s.symbol === 'L' ? lengthOf(i) * 0.0254 : formula(s, i + 2))));
  }
  return { cells, formulas: perRow.length - 2 };
}

const N = 10_000;
const diameters = Array.from({ length: N }, (_, i) => [diameterOf(i)]);
const lengths = Array.from({ length: N }, (_, i) => [lengthOf(i)]);
call(PLAN, [diameters.slice(0, 200), lengths.slice(0, 200)]);

const list = timed(() => call(PLAN, [diameters, lengths])) / N;
const singles = median(Array.from({ length: 200 }, (_, i) => timed(() => call(PLAN, [diameterOf(i), lengthOf(i)]))));

async function chain(): Promise<void> {
  const ROWS = 400;
  const { cells, formulas } = plainChain(ROWS);
  const start = performance.now();
  const book = await calculateWorkbook({ sheets: [{ name: 'Chain', rows: cells }] }, []);
  const plain = (performance.now() - start) / ROWS;
  const [last] = book.values(`${columnLetters(formulas + 1)}2:${columnLetters(formulas + 1)}2`);
  if (typeof last?.[0] !== 'number') throw new Error('the chain of plain cells does not calculate');
  const own = call(CREW, [diameterOf(0), lengthOf(0)])[0]?.[0];

  const spillStart = performance.now();
  await calculateWorkbook({ sheets: [{ name: 'Pins', rows: [[`=BURN.PIN.PLAN(A2:A${ROWS + 1},B2:B${ROWS + 1})`].map(() => null), ...diameters.slice(0, ROWS).map((d, i): CellContent[] => [d[0] ?? 0, lengths[i]?.[0] ?? 0])], cells: { D1: `=BURN.PIN.PLAN(A2:A${ROWS + 1},B2:B${ROWS + 1})` } }] }, hostFunctions);
  const spill = (performance.now() - spillStart) / ROWS;

  console.log(`PIN.PLAN, ${N} rows in one call      ${(list * 1000).toFixed(0)} us a row, ${(list * N / 1000).toFixed(2)} s in all`);
  console.log(`PIN.PLAN, one cell a call            ${singles.toFixed(2)} ms a call (median of 200)`);
  console.log(`plain cells, ${formulas} formulas a row        ${(plain * 1000).toFixed(0)} us a row, ${ROWS} rows (crew time of the first ${shown(last[0])} s; ours ${shown(own)} min)`);
  console.log(`PIN.PLAN spilled in the same engine  ${(spill * 1000).toFixed(0)} us a row, ${ROWS} rows`);
  console.log(`ratio plain / ours in one call       ${(plain / list).toFixed(1)}`);
  console.log(`ratio plain / ours in the engine     ${(plain / spill).toFixed(1)}`);
}

void chain();
