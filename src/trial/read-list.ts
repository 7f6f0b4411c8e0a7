import { columnOfHeading, listHeadings, readList } from '../catalogue/read-list.ts';
import { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { unitSlip } from '../core/operations/unit-slip.ts';
import { parseConditions } from '../core/safety/conditions.ts';
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
  /** What to ask about it, and what was made of it; '' where there is nothing. */
  readonly remark: string;
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
    ? each((c) => (isColumn(named[c]?.column) ? named[c].column : isMark(first[c]) ? 'mark' : undefined))
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

/** A tag and a description are both what a pin is called. */
const isMark = (heading: string | undefined): boolean => columnOfHeading(heading ?? '')?.name === 'mark';

/** Sizes of a pin that no column was taken for. A list with its own column of operations says by its rows what is missing. */
export const missingSizes = (columns: readonly (ListColumn | undefined)[]): readonly ListColumn[] =>
  columns.includes('operation') ? [] : (['diameter', 'length'] as const).filter((size) => !columns.includes(size));

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
  // A list that counts nothing has a line for each piece.
  const counted = columns.includes('quantity') || columns.includes('count');
  const read = rows.map((fields) => {
    const row: Partial<Record<ListColumn, string | number>> = counted ? {} : { quantity: 1 };
    const remarks: string[] = [];
    columns.forEach((column, c) => {
      const field = fields[c] ?? '';
      if (column === undefined || field === '') return;
      const before = row[column];
      if (SIZES.has(column)) {
        const point = field.replace(DECIMAL_COMMA, '$1.$2');
        if (point !== field) remarks.push(`${field} is read as ${point}`);
        row[column] = sizeOf(point, units[c] || unit);
      } else if (JOINED.has(column) && before !== undefined) row[column] = `${before} ${field}`;
      else row[column] = column === 'quantity' && /^\d+$/.test(field) ? Number(field) : field;
    });
    const conditions = row.condition === undefined ? conditionsOf(row.note) : '';
    if (conditions !== '') {
      row.condition = conditions;
      remarks.push(`the note names a condition: ${conditions}`);
    }
    return { row, remarks };
  });
  const said = saidOf(read.map(({ row }) => row));
  return read.map(({ row, remarks }, i) => ({
    row,
    line: i + 1,
    problem: said[i]?.problem ?? '',
    remark: [...remarks, said[i]?.question ?? ''].filter(Boolean).join('; '),
  }));
}

/** Columns that several columns of a customer's list may go into. */
export const JOINED: ReadonlySet<ListColumn> = new Set(['mark', 'note']);

/** One or two digits behind a comma are no thousands. */
const DECIMAL_COMMA = /^(\D?\s*\d+),(\d{1,2})(?!\d)/;

/** What a note says in the words of the conditions, as one cell of them. */
const conditionsOf = (note: string | number | undefined): string =>
  String(note ?? '')
    .split(/[,;]/)
    .map((words) => words.trim())
    .filter(isCondition)
    .join(', ');

function isCondition(words: string): boolean {
  try {
    return parseConditions([words], 'US').length > 0;
  } catch (e) {
    if (e instanceof CalcError) return false;
    throw e;
  }
}

const BASIS = new Basis(Assumptions.defaults());

/** A row without fault: where no row of a list can be used, its functions tell of the first alone. */
const SOUND: ListCells = { diameter: 3, length: 10 };

/** What the functions say of each row, by its place. */
function saidOf(rows: readonly ListCells[]): readonly { readonly problem: string; readonly question: string }[] {
  const cells = [[...LIST_COLUMNS], ...[...rows, SOUND].map((row) => LIST_COLUMNS.map((name) => row[name] ?? null))];
  return readList(cells, BASIS)
    .rows.slice(1, -1)
    .map((row) => ({
      problem: row.kind === 'bad' ? row.bad.problem.message : '',
      question: row.kind === 'item' ? row.item.question : '',
    }));
}

/** A size as the sheet takes it: a bare number gets the unit of its column or of the list. */
function sizeOf(field: string, unit: string): string | number {
  const bare = /^[ø⌀]?\s*\d[\d\s./-]*$/i.test(field);
  if (bare && unit !== 'in') return `${field} ${unit}`;
  return /^\d+(\.\d+)?$/.test(field) ? Number(field) : field;
}
