import { serializeRange } from '@univerjs/engine-formula';
import type { Cell, CellError, HostFunction } from '../sheet/host-function.ts';
import { calculateWorkbook } from '../engine/headless.ts';
import { formulaProblem } from '../files/xlsx/formula-tokens.ts';
import type { CellContent } from '../sheet/described-workbook.ts';
import { SECONDS } from './bounded.ts';
import { csvSheet, type CsvSheet } from '../files/csv-sheet.ts';
import { faultOfOurs, type Ended } from './ended.ts';
import { functionHelp, functionList, noFunction, USAGE } from './help.ts';
import { readOptions, readSeconds } from './options.ts';
import { printable, printableJson } from './printable.ts';
import { TRACE_JSON_SCHEMA } from './trace-schema.ts';
import { notingCalls, traceCall, traceOf, type Trace } from './trace.ts';
import { shownCell, tableLines } from './table.ts';

export interface AskedOfCalc {
  readonly formulas: readonly string[];
  readonly help: boolean;
  readonly json: boolean;
  /** The working as JSON, in place of the values alone. */
  readonly trace: boolean;
  readonly sheet: string | undefined;
  readonly encoding: string | undefined;
  readonly separator: string | undefined;
  readonly decimal: string | undefined;
  readonly seconds: number;
  /** Characters in a line of the terminal; tables are folded to it. */
  readonly width?: number;
}

/** Messages shown below one table; the table itself shows the code in every failed cell. */
const MOST_MESSAGES = 20;

/** Where a formula stands at the nearest, so that a reference to a cell of a small sheet, or of none, is not to itself. */
const ASIDE = 100;

/** Room below a formula for a result longer than the sheet it is made of. */
const SPARE_ROWS = 11_000;
const SPARE_COLUMNS = 60;

const OPTIONS = {
  help: { type: 'boolean', short: 'h', default: false },
  json: { type: 'boolean', default: false },
  trace: { type: 'boolean', default: false },
  'trace-schema': { type: 'boolean', default: false },
  sheet: { type: 'string' },
  encoding: { type: 'string' },
  separator: { type: 'string' },
  decimal: { type: 'string' },
  seconds: { type: 'string', default: String(SECONDS) },
} as const;

/** Reads the arguments; the end of the command where they are wrong. */
export function readCalc(args: readonly string[]): AskedOfCalc | Ended {
  const read = readOptions(args, OPTIONS);
  if ('wrong' in read) return wrongUse(read.wrong);
  const { values, positionals } = read;
  const { help, json, trace, sheet, encoding, separator, decimal } = values;
  const seconds = readSeconds(values.seconds);
  if (seconds === undefined) return wrongUse('--seconds needs a number of seconds, up to 86,400.');
  if (values['trace-schema']) return { code: 0, out: JSON.stringify(TRACE_JSON_SCHEMA, null, 2), err: '' };
  if (!help && positionals.length === 0) return wrongUse('No formula given.');
  return { formulas: positionals, help, json, trace, sheet, encoding, separator, decimal, seconds };
}

/** The command's work, once its arguments are read. */
export async function calc(
  asked: AskedOfCalc,
  functions: readonly HostFunction[],
  readFile: (path: string) => Uint8Array,
): Promise<Ended> {
  if (asked.help) return help(asked.formulas, functions);
  try {
    const sheet = asked.sheet === undefined ? { rows: [], taken: '' } : readSheet(asked.sheet, asked, readFile);
    if ('code' in sheet) return sheet;
    if (asked.trace) return await traced(asked, sheet, functions);
    const lines: string[] = [];
    let failed = false;
    for (const [i, formula] of asked.formulas.entries()) {
      const values = await result(formula, sheet.rows, functions);
      failed ||= values.some((row) => row.some(isError));
      if (asked.json) lines.push(printableJson({ formula, values }));
      else lines.push(...(i > 0 && values.length > 1 ? [''] : []), ...shownResult(values, asked.width));
    }
    return { code: failed ? 1 : 0, out: lines.join('\n'), err: sheet.taken };
  } catch (thrown) {
    return faultOfOurs(thrown);
  }
}

/** The working of each call of ours in each formula. */
async function traced(
  { formulas }: AskedOfCalc,
  { rows, taken }: { readonly rows: CsvSheet['rows']; readonly taken: string },
  functions: readonly HostFunction[],
): Promise<Ended> {
  const told: Trace['formulas'][number][] = [];
  for (const formula of formulas) {
    const made: Parameters<typeof notingCalls>[1] = [];
    const values = await result(formula, rows, notingCalls(functions, made));
    told.push({ formula, values, calls: made.flatMap(({ name, args }) => traceCall(name, args) ?? []) });
  }
  const failed = told.some(({ values }) => values.some((row) => row.some(isError)));
  return { code: failed ? 1 : 0, out: printableJson(traceOf(told)), err: taken };
}

function readSheet(
  file: string,
  asked: AskedOfCalc,
  readFile: (path: string) => Uint8Array,
): { readonly rows: CsvSheet['rows']; readonly taken: string } | Ended {
  try {
    const { rows, taken } = csvSheet(readFile(file), asked);
    return { rows, taken: taken === '' ? '' : printable(`${file}: ${taken}`) };
  } catch (thrown) {
    const why = thrown instanceof Error ? thrown.message : String(thrown);
    return wrongUse(printable(`${file} cannot be read: ${why}`));
  }
}

function help(names: readonly string[], functions: readonly HostFunction[]): Ended {
  if (names.length === 0)
    return {
      code: 0,
      out: `${USAGE}\n\nFunctions; arguments in brackets may be left out:\n\n${functionList(functions)}`,
      err: '',
    };
  const texts = names.map((name) => functionHelp(name, functions));
  const unknown = names.find((_, i) => texts[i] === undefined);
  if (unknown !== undefined) return { code: 2, out: '', err: noFunction(unknown, functions) };
  return { code: 0, out: texts.join('\n\n'), err: '' };
}

const wrongUse = (why: string): Ended => ({ code: 2, out: '', err: `${why}\n\n${USAGE}` });

/** Each formula stands below and to the right of the sheet's cells, in a sheet of its own making, so none is in the way of another. */
async function result(
  formula: string,
  rows: readonly (readonly CellContent[])[],
  functions: readonly HostFunction[],
): Promise<readonly (readonly Cell[])[]> {
  const typed = formula.trim().replace(/^=?/, '=');
  const problem = formulaProblem(typed.slice(1));
  if (problem !== undefined) return [[{ error: '#VALUE!', message: problem }]];
  const row = Math.max(ASIDE, rows.length);
  const column = rows.reduce((most, cells) => Math.max(most, cells.length), ASIDE);
  const address = serializeRange({ startRow: row, endRow: row, startColumn: column, endColumn: column });
  const size = [row + 1 + Math.max(SPARE_ROWS, 2 * rows.length), column + 1 + SPARE_COLUMNS] as const;
  const sheet = { name: 'Sheet1', rows, cells: { [address]: typed }, size };
  const workbook = await calculateWorkbook({ sheets: [sheet] }, functions);
  return workbook.spilled(address);
}

const isError = (cell: Cell): cell is CellError => typeof cell === 'object' && cell !== null;

/** What is wrong in a row, each thing once: a row that cannot be sized says the same in every cell. */
function rowMessages(row: readonly Cell[], r: number): readonly string[] {
  const places = new Map<string, number[]>();
  row.forEach((cell, c) => {
    if (!isError(cell) || cell.message === '') return;
    const said = `${cell.error} ${cell.message}`;
    places.set(said, [...(places.get(said) ?? []), c + 1]);
  });
  return [...places].map(
    ([said, columns]) => `row ${r + 1}${columns.length === 1 ? `, column ${String(columns[0])}` : ''}: ${said}`,
  );
}

function shownResult(values: readonly (readonly Cell[])[], width?: number): string[] {
  const only = values.length === 1 && values[0]?.length === 1 ? values[0][0] : undefined;
  if (only !== undefined)
    return [printable(isError(only) ? `${only.error} ${only.message}`.trimEnd() : shownCell(only))];
  const messages = values.flatMap(rowMessages);
  const more = messages.length - MOST_MESSAGES;
  return [
    ...tableLines(values, width),
    ...messages.slice(0, MOST_MESSAGES).map(printable),
    ...(more > 0 ? [`and ${more} more`] : []),
  ];
}
