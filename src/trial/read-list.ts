import { listHeadings, readList } from '../catalogue/read-list.ts';
import { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { unitSlip } from '../core/operations/unit-slip.ts';
import { knownUnit } from '../core/units/parse-quantity.ts';
import { INCH } from '../core/units/quantities.ts';
import { readCsv } from '../files/read-csv.ts';
import { LIST_COLUMNS, type ListCells, type ListColumn } from '../files/template/job-list.ts';

export type Unit = 'in' | 'mm';

export interface PastedTable {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What each column seems to be; undefined where nothing says. */
  readonly guessed: readonly (ListColumn | undefined)[];
  /** The unit that a column's heading names; '' where it names none. */
  readonly units: readonly string[];
  /** Of numbers that have none. */
  readonly unit: Unit;
}

export interface ReadRow {
  readonly row: ListCells;
  /** As it was pasted, from 1. */
  readonly line: number;
  /** What keeps the functions from using the row, in their words; '' where nothing does. */
  readonly problem: string;
}

const isColumn = (name: string | undefined): name is ListColumn =>
  name !== undefined && (LIST_COLUMNS as readonly string[]).includes(name);

/** Reads a block from mail, a web page or a spreadsheet: tabs, commas, semicolons or wide gaps between the columns. */
export function readPasted(text: string): PastedTable {
  const lines = text.replace(/\u00a0/g, ' ').trim();
  const delimiter = ['\t', ';', ','].find((d) => lines.split(/\r?\n/, 1)[0]?.includes(d));
  const records: readonly (readonly string[])[] =
    delimiter === undefined
      ? lines.split(/\r?\n/).map((line) => line.trim().split(/\s{2,}/))
      : readCsv(lines, delimiter);
  const table = records.map((record) => record.map((field) => field.trim())).filter((r) => r.some((f) => f !== ''));
  const first = table[0] ?? [];
  const named = listHeadings(first);
  const known = named.filter((heading) => isColumn(heading?.column));
  const hasHeadings = known.length > 1 || first.every((field) => !/\d/.test(field));
  const rows = hasHeadings ? table.slice(1) : table;
  const width = Math.max(0, ...table.map((row) => row.length));
  const each = <T>(of: (column: number) => T): T[] => Array.from({ length: width }, (_, c) => of(c));
  const guessed = hasHeadings
    ? each((c) => (isColumn(named[c]?.column) ? named[c].column : undefined))
    : guessByContent(rows, width);
  const units = each((c) => (hasHeadings ? (knownUnit(named[c]?.unit ?? '', 'length') ?? '') : ''));
  return {
    headings: each((c) => (hasHeadings ? (first[c] ?? '') : `column ${c + 1}`)),
    rows,
    guessed,
    units,
    unit: units.includes('mm') ? 'mm' : units.includes('in') ? 'in' : likelyUnit(rows, guessed),
  };
}

/** Without headings: the first column of words is the mark, the first two of sizes diameter and length. */
function guessByContent(rows: readonly (readonly string[])[], width: number): (ListColumn | undefined)[] {
  const sizes: ListColumn[] = ['diameter', 'length', 'hole'];
  let marked = false;
  return Array.from({ length: width }, (_, c) => {
    const fields = rows.map((row) => row[c] ?? '').filter((f) => f !== '');
    const all = (pattern: RegExp): boolean => fields.length > 0 && fields.every((field) => pattern.test(field));
    if (all(/^\d+\s*(off|x|no|pcs|ea)\.?$/i)) return 'quantity';
    if (all(/^[ø⌀]?[\d\s./'"-]+\s*(mm|cm|in|inch|ft|["'])?$/i)) return sizes.shift();
    if (marked) return undefined;
    marked = true;
    return 'mark';
  });
}

/** Inches, unless most of the rows are out of the usual as inches and everyday sizes as millimetres. */
function likelyUnit(rows: readonly (readonly string[])[], columns: readonly (ListColumn | undefined)[]): Unit {
  const bare = (row: readonly string[], name: ListColumn): number => Number(row[columns.indexOf(name)] ?? '');
  const sizes = rows
    .map((row) => ({ diameter: bare(row, 'diameter'), length: bare(row, 'length') }))
    .filter(({ diameter, length }) => diameter > 0 && length > 0);
  const asked = sizes.filter(({ diameter, length }) =>
    unitSlip('PIN', { diameter: diameter * INCH, length: length * INCH }, 'US'),
  );
  return asked.length > sizes.length / 2 ? 'mm' : 'in';
}

const SIZES: ReadonlySet<ListColumn> = new Set(['diameter', 'length', 'hole', 'depth', 'width', 'thickness']);

/** The rows of a list, each a line with its quantity, with what the functions have against it. */
export function readRows(
  { rows, units }: PastedTable,
  columns: readonly (ListColumn | undefined)[],
  unit: Unit,
): readonly ReadRow[] {
  const read = rows.map((fields): ListCells => {
    const row: Partial<Record<ListColumn, string | number>> = {};
    columns.forEach((column, c) => {
      const field = fields[c] ?? '';
      if (column === undefined || field === '') return;
      row[column] = SIZES.has(column)
        ? sizeOf(field, units[c] || unit)
        : column === 'quantity' && /^\d+$/.test(field)
          ? Number(field)
          : field;
    });
    return row;
  });
  const problems = problemsOf(read);
  return read.map((row, i) => ({ row, line: i + 1, problem: problems[i] ?? '' }));
}

const BASIS = new Basis(Assumptions.defaults());

/** What the functions have against each row, by its place. */
function problemsOf(rows: readonly ListCells[]): readonly string[] {
  const cells = (some: readonly ListCells[]) => [
    [...LIST_COLUMNS],
    ...some.map((row) => LIST_COLUMNS.map((name) => row[name] ?? null)),
  ];
  try {
    return readList(cells(rows), BASIS)
      .rows.slice(1)
      .map((row) => (row.kind === 'bad' ? row.bad.problem.message : ''));
  } catch (e) {
    // Where no row is good, the first alone is told of.
    if (!(e instanceof CalcError)) throw e;
    return rows.length === 1 ? [e.message] : rows.map((row) => problemsOf([row])[0] ?? '');
  }
}

/** A size as the sheet takes it: a bare number gets the unit of its column or of the list. */
function sizeOf(field: string, unit: string): string | number {
  const bare = /^[ø⌀]?\s*\d[\d\s./-]*$/i.test(field);
  if (bare && unit !== 'in') return `${field} ${unit}`;
  return /^\d+(\.\d+)?$/.test(field) ? Number(field) : field;
}
