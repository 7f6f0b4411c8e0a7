/** Ranges with a heading row: columns are found by what stands above them, and a heading may carry a unit. */
import { CalcError } from '../core/errors.ts';
import * as messages from '../core/messages.ts';
import { knownUnit } from '../core/units/parse-quantity.ts';
import { QUANTITIES, type QuantityName, type UnitSystem } from '../core/units/quantities.ts';
import { isBlankCell, isBlankOrZero, type Cell } from './cell.ts';
import type { QuantityKind } from './declaration.ts';
import { readCell, readRangeCell, zeroIsBlank } from './read-cell.ts';

export type Cells = readonly (readonly Cell[])[];

/** A heading as read: `Oxygen low (scf)` is the name `oxygen low` and the unit `scf`. */
export interface Heading {
  readonly name: string;
  readonly unit: string;
  /** As it stands in the sheet. */
  readonly text: string;
}

/** One column of a range. */
export interface TableColumn {
  readonly at: number;
  readonly heading: Heading;
}

export interface TableRow {
  /** Counted from 1, the range's first row. */
  readonly row: number;
  readonly cells: readonly Cell[];
  /** The columns in force, by the name asked for. */
  readonly columns: ReadonlyMap<string, TableColumn>;
}

const tidy = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s_]+/g, ' ')
    .trim();

/** The heading a cell holds; undefined where it is blank or a number. */
export function readHeading(cell: Cell | undefined): Heading | undefined {
  if (typeof cell !== 'string' || cell.trim() === '') return undefined;
  const text = cell.trim();
  const parts = /^(.+?)\s*(?:,\s*([^,]*)|[([]([^)\]]*)[)\]])$/.exec(text);
  return parts
    ? { name: tidy(parts[1] ?? ''), unit: (parts[2] ?? parts[3] ?? '').trim(), text }
    : { name: tidy(text), unit: '', text };
}

/**
 * The rows of a range under its heading row.
 *
 * `aliases` gives for each column every name it may be headed by; `required` those without which nothing can be done.
 * Rows above the heading and blank rows are passed over; a further heading row takes over from there, so that tables
 * may stand below each other. Columns with other headings are left alone.
 */
export function readTable(
  range: string,
  cells: Cells,
  aliases: Readonly<Record<string, readonly string[]>>,
  required: readonly string[],
): readonly TableRow[] {
  const rows: TableRow[] = [];
  let columns: ReadonlyMap<string, TableColumn> | undefined;
  let nearest: ReadonlyMap<string, TableColumn> = new Map();
  let headings: readonly string[] = [];
  cells.forEach((row, i) => {
    if (row.every(isBlankOrZero)) return;
    const found = headingRow(range, row, aliases);
    if (required.every((name) => found.has(name)) && found.size >= Math.min(2, Object.keys(aliases).length))
      columns = found;
    else if (columns) rows.push({ row: i + 1, cells: row, columns });
    else if (found.size > nearest.size) {
      nearest = found;
      headings = row.flatMap((cell) => readHeading(cell)?.text ?? []);
    }
  });
  if (columns) return rows;
  const lacking = required.find((name) => !nearest.has(name));
  throw nearest.size > 0 && lacking !== undefined
    ? messages.noColumn(range, lacking, headings)
    : messages.noHeading(range, required.length > 0 ? required : Object.keys(aliases));
}

function headingRow(
  range: string,
  row: readonly Cell[],
  aliases: Readonly<Record<string, readonly string[]>>,
): ReadonlyMap<string, TableColumn> {
  const found = new Map<string, TableColumn>();
  row.forEach((cell, at) => {
    const heading = readHeading(cell);
    if (!heading) return;
    for (const [name, names] of Object.entries(aliases)) {
      if (!names.includes(heading.name)) continue;
      if (found.has(name)) throw messages.headingTwice(range, heading.text);
      found.set(name, { at, heading });
    }
  });
  return found;
}

/** The cell of a row under a column; null where there is no such column. */
export function cellUnder({ cells, columns }: TableRow, name: string): Cell {
  const column = columns.get(name);
  return column ? (cells[column.at] ?? null) : null;
}

/** Quantity of a cell in SI; a plain number is in the unit of its heading, else in that of the system. */
export function quantityIn(
  cell: Cell,
  label: string,
  kind: QuantityKind,
  system: UnitSystem,
  heading?: Heading,
): number | undefined {
  if (heading === undefined || heading.unit === '' || isBlankCell(cell) || (cell === 0 && zeroIsBlank(kind)))
    return readRangeCell(cell, label, kind, system) as number | undefined;
  const unit = headingUnit(heading, kind.quantity);
  const plain = typeof cell === 'number' || (typeof cell === 'string' && Number.isFinite(Number(cell)));
  return readCell(plain ? `${String(cell).trim()} ${unit}` : cell, label, kind, system) as number | undefined;
}

function headingUnit({ text, unit }: Heading, quantity: QuantityName): string {
  const known = knownUnit(unit, quantity);
  if (known === undefined)
    throw messages.unknownHeadingUnit(
      text,
      unit,
      Object.keys(QUANTITIES[quantity].units).filter((u) => u !== ''),
    );
  return known;
}

/** Quantity under a column of a row; undefined where the column is absent or the cell blank. */
export function quantityUnder(row: TableRow, name: string, kind: QuantityKind, system: UnitSystem): number | undefined {
  const column = row.columns.get(name);
  return column ? quantityIn(row.cells[column.at] ?? null, name, kind, system, column.heading) : undefined;
}

/** Reads each row; a row that cannot be read is kept apart with its problem. */
export function readRows<R, T>(
  range: string,
  rows: readonly R[],
  rowOf: (row: R) => number,
  read: (row: R) => T,
): { readonly good: readonly T[]; readonly bad: readonly CalcError[] } {
  const good: T[] = [];
  const bad: CalcError[] = [];
  for (const row of rows) {
    try {
      good.push(read(row));
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
      bad.push(messages.inRow(range, rowOf(row), e));
    }
  }
  const [first] = bad;
  if (good.length === 0) throw first ? messages.everyRowBad(range, first) : messages.noRows(range);
  return { good, bad };
}
