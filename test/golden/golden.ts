/** Results of the calls in `calls.ts`, as the file keeps them, and how they are compared. */
import { readFileSync } from 'node:fs';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { findCalls } from '../../src/formula/formula-calls.ts';
import { resolveOperands } from '../../src/pane/resolve-operands.ts';
import { call } from '../../src/sheet/call.ts';

export const FILE = new URL('golden.json', import.meta.url);

/** A cell as it is kept: a failed one as its code and message in a text. */
export type Kept = number | string | boolean | null;
export type Table = readonly (readonly Kept[])[];

export interface Golden {
  /** What each formula gives. Of a working the numbers by symbol; the words of workings, cautions and headings of plans stand apart. */
  readonly results: Readonly<Record<string, Table>>;
  /** Lines of workings without their numbers, and cautions: what may be said better without a result changing. Each stands once a function. */
  readonly words: Readonly<Record<string, Table>>;
}

/** Functions of which all is words. */
const ALL_WORDS = ['BURN.CAUTIONS', 'BURN.PPE.LIST', 'BURN.JOB.SHEET', 'BURN.SOURCES', 'BURN.CONDITIONS'];
/** Stands before a failed cell's code. */
const FAILED = 'error ';

const keptCell = (cell: Cell): Kept => (isCellError(cell) ? `${FAILED}${cell.error} ${cell.message}` : cell);

async function rowsOf(formula: string): Promise<Table> {
  const asked = findCalls(formula).find((c) => c.whole);
  const d = asked && findFunction(asked.name);
  if (!d) throw new Error(`${formula} is no call of a function of ours`);
  const operands = await resolveOperands(asked.operands, (reference) =>
    Promise.reject(new Error(`${reference} is a cell of no sheet`)),
  );
  const problem = operands.find((o) => o.problem !== undefined)?.problem;
  if (problem !== undefined) throw new Error(`${formula}: ${problem}`);
  return call(
    d,
    operands.map((o) => o.argument),
  ).map((row) => row.map(keptCell));
}

/** Results of today's code. */
export async function calculate(formulas: readonly string[]): Promise<Golden> {
  const results: Record<string, Table> = {};
  const words: Record<string, Table> = {};
  /** Lines that were kept already, by function: each is kept with the first call that gives it. */
  const said = new Map<string, Set<string>>();
  const unsaid = (name: string, lines: Table): Table => {
    const before = said.get(name) ?? new Set();
    said.set(name, before);
    return lines.filter((line) => before.size < before.add(JSON.stringify(line)).size);
  };
  for (const formula of formulas) {
    const rows = await rowsOf(formula);
    const name = /^=([A-Z.]+)/.exec(formula)?.[1] ?? '';
    if (rows.length === 1 && rows[0]?.length === 1) results[formula] = rows;
    else if (ALL_WORDS.includes(name)) words[formula] = unsaid(name, rows);
    else if (name.endsWith('.STEPS')) {
      const [, ...lines] = rows;
      results[formula] = lines.map(([, symbol, value]) => [symbol!, value!]);
      words[formula] = unsaid(
        name,
        lines.map(([step, symbol, , ...rest]) => [symbol!, step!, ...rest]),
      );
    } else if (name.endsWith('.PLAN')) {
      const [heading, ...lines] = rows;
      const at = heading!.indexOf('cautions');
      results[formula] = lines.map((row) => row.filter((_, i) => i !== at));
      words[formula] = unsaid(name, [heading!, ...lines.map((row) => [row[at]!])]);
    } else results[formula] = rows;
  }
  return { results, words };
}

export const readGolden = (): Golden => JSON.parse(readFileSync(FILE, 'utf8')) as Golden;

/** One formula a line, so that a changed result is a changed line. */
export function write({ results, words }: Golden): string {
  const group = (tables: Readonly<Record<string, Table>>): string =>
    Object.entries(tables)
      .filter(([, rows]) => rows.length > 0)
      .map(([formula, rows]) => `${JSON.stringify(formula)}: ${JSON.stringify(rows)}`)
      .join(',\n');
  return `{"results": {\n${group(results)}\n},\n"words": {\n${group(words)}\n}}\n`;
}

/** How far a number may be from the one kept: rounding of the arithmetic. */
const EXACT = 1e-12;

const same = (expected: Kept | undefined, found: Kept | undefined): boolean =>
  typeof expected === 'number' && typeof found === 'number'
    ? Math.abs(found - expected) <= EXACT * Math.max(Math.abs(found), Math.abs(expected))
    : expected === found;

const shown = (cell: Kept | undefined): string => (cell === undefined ? 'nothing' : JSON.stringify(cell));

/** Where the kept tables differ from those found. */
export const allDifferences = (expected: Golden['results'], found: Golden['results']): readonly string[] =>
  Object.entries(expected).flatMap(([formula, rows]) => differences(formula, rows, found[formula]));

/** Where two tables differ, one text for each cell. Rows of a working are told apart by symbol, whatever their order. */
export function differences(formula: string, expected: Table, found: Table | undefined): readonly string[] {
  if (!found) return [`${formula} is not calculated any more`];
  if (/^=BURN\.[A-Z]+\.STEPS/.test(formula) && (expected[0]?.length ?? 0) > 1) {
    const bySymbol = new Map(found.map((row) => [row[0], row]));
    return expected.flatMap((row) =>
      rowDifferences(`${formula}, step ${shown(row[0])}`, row, bySymbol.get(row[0]) ?? []),
    );
  }
  const more =
    found.length === expected.length ? [] : [`${formula}: ${expected.length} rows expected, ${found.length} found`];
  return [...more, ...expected.flatMap((row, i) => rowDifferences(`${formula}, row ${i + 1}`, row, found[i] ?? []))];
}

function rowDifferences(where: string, expected: readonly Kept[], found: readonly Kept[]): readonly string[] {
  return Array.from({ length: Math.max(expected.length, found.length) }, (_, i) => i)
    .filter((i) => !same(expected[i], found[i]))
    .map((i) => `${where}, column ${i + 1}: ${shown(expected[i])} expected, ${shown(found[i])} found`);
}
