import { serializeRange } from '@univerjs/engine-formula';
import type { Cell, CellError, HostFunction } from '../sheet/host-function.ts';
import { calculateWorkbook } from '../engine/headless.ts';
import type { CellContent } from '../sheet/described-workbook.ts';
import { csvSheet } from '../files/csv-sheet.ts';
import { functionHelp, functionList, noFunction, USAGE } from './help.ts';
import { shownCell, tableLines } from './table.ts';

/** What the command touches of the world. */
export interface World {
  readFile(path: string): string;
  out(text: string): void;
  err(text: string): void;
}

export type ExitCode = 0 | 1 | 2;

interface Asked {
  readonly formulas: readonly string[];
  readonly json: boolean;
  readonly sheet: string | undefined;
  readonly help: boolean;
  readonly wrong: string | undefined;
}

/** Messages shown below one table; the table itself shows the code in every failed cell. */
const MOST_MESSAGES = 20;

/** The command: `calc [--json] [--sheet FILE] FORMULA ...` */
export async function calc(
  args: readonly string[],
  functions: readonly HostFunction[],
  world: World,
): Promise<ExitCode> {
  const asked = read(args);
  if (asked.help) return help(asked.formulas, functions, world);
  if (asked.wrong !== undefined || asked.formulas.length === 0)
    return wrongUse(asked.wrong ?? 'No formula given.', world);
  let rows: readonly (readonly CellContent[])[] = [];
  if (asked.sheet !== undefined) {
    try {
      rows = csvSheet(world.readFile(asked.sheet));
    } catch (thrown) {
      return wrongUse(
        `${asked.sheet} cannot be read: ${thrown instanceof Error ? thrown.message : String(thrown)}`,
        world,
      );
    }
  }
  let failed = false;
  for (const [i, formula] of asked.formulas.entries()) {
    const values = await result(formula, rows, functions);
    failed ||= values.flat().some(isError);
    if (asked.json) world.out(JSON.stringify({ formula, values }));
    else world.out([...(i > 0 && values.length > 1 ? [''] : []), ...shownResult(values)].join('\n'));
  }
  return failed ? 1 : 0;
}

function read(args: readonly string[]): Asked {
  const formulas: string[] = [];
  let json = false;
  let help = false;
  let sheet: string | undefined;
  let wrong: string | undefined;
  const left = [...args];
  for (let arg = left.shift(); arg !== undefined; arg = left.shift()) {
    if (arg === '--') formulas.push(...left.splice(0));
    else if (arg === '--json') json = true;
    else if (arg === '--help' || arg === '-h') help = true;
    else if (arg === '--sheet' || arg.startsWith('--sheet=')) {
      sheet = arg === '--sheet' ? left.shift() : arg.slice('--sheet='.length);
      if (!sheet) wrong ??= '--sheet needs the name of a CSV file.';
    } else if (arg.startsWith('--')) wrong ??= `There is no option ${arg}.`;
    else if (arg.trim() === '') wrong ??= 'A formula is empty.';
    else formulas.push(arg);
  }
  return { formulas, json, sheet, help, wrong };
}

function help(names: readonly string[], functions: readonly HostFunction[], world: World): ExitCode {
  if (names.length === 0) {
    world.out(`${USAGE}\n\nFunctions; arguments in brackets may be left out:\n\n${functionList(functions)}`);
    return 0;
  }
  const texts = names.map((name) => functionHelp(name, functions));
  const unknown = names.find((_, i) => texts[i] === undefined);
  if (unknown !== undefined) {
    world.err(noFunction(unknown, functions));
    return 2;
  }
  world.out(texts.join('\n\n'));
  return 0;
}

function wrongUse(why: string, world: World): ExitCode {
  world.err(`${why}\n\n${USAGE}`);
  return 2;
}

/** Each formula stands below and to the right of the sheet's cells, in a sheet of its own making, so none is in the way of another. */
async function result(
  formula: string,
  rows: readonly (readonly CellContent[])[],
  functions: readonly HostFunction[],
): Promise<readonly (readonly Cell[])[]> {
  const row = rows.length;
  const column = Math.max(0, ...rows.map((cells) => cells.length));
  const address = serializeRange({ startRow: row, endRow: row, startColumn: column, endColumn: column });
  const typed = formula.trim();
  const cells = { [address]: typed.startsWith('=') ? typed : `=${typed}` };
  const workbook = await calculateWorkbook({ sheets: [{ name: 'Sheet1', rows, cells }] }, functions);
  return workbook.spilled(address);
}

const isError = (cell: Cell): cell is CellError => typeof cell === 'object' && cell !== null;

function shownResult(values: readonly (readonly Cell[])[]): string[] {
  const only = values.length === 1 && values[0]?.length === 1 ? values[0][0] : undefined;
  if (only !== undefined) return [isError(only) ? `${only.error} ${only.message}`.trimEnd() : shownCell(only)];
  const messages = values.flatMap((row, r) =>
    row.flatMap((cell, c) =>
      isError(cell) && cell.message !== '' ? [`row ${r + 1}, column ${c + 1}: ${cell.error} ${cell.message}`] : [],
    ),
  );
  const more = messages.length - MOST_MESSAGES;
  return [...tableLines(values), ...messages.slice(0, MOST_MESSAGES), ...(more > 0 ? [`and ${more} more`] : [])];
}
