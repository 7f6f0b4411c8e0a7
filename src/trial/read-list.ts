import { parseQuantity } from '../core/units/parse-quantity.ts';
import { readCsv } from '../files/read-csv.ts';
import type { ListColumn, ListRow } from './new-jobs.ts';

export type Unit = 'in' | 'mm';

export interface PastedTable {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What each column seems to be; undefined where nothing says. */
  readonly guessed: readonly (ListColumn | 'quantity' | undefined)[];
  readonly unit: Unit;
}

export interface ReadRow {
  readonly row: ListRow;
  /** As it was pasted, from 1. */
  readonly line: number;
  /** What keeps the row from being used, in words; empty where nothing does. */
  readonly problems: readonly string[];
}

/** What people write over their columns. */
const WORDS: readonly (readonly [ListColumn | 'quantity', RegExp])[] = [
  ['quantity', /^(qty|quantity|no\.?|no\.? ?off|off|count|number|pcs|pieces|ea)$/],
  ['mark', /^(mark|tag|item|name|pin|where|location|position|description|part|ref)$/],
  ['hole', /^(hole|bore|bored?( to)?)$/],
  ['diameter', /^(d|dia|diam|diameter|od|pin dia(meter)?|ø|⌀)$/],
  ['length', /^(l|len|length|long|lg|depth)$/],
  ['rod', /^(rod|bar)$/],
  ['material', /^(material|grade|steel)$/],
  ['note', /^(note|notes|remark|remarks|comment|comments)$/],
];

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
  const named = first.map(columnOf);
  const hasHeadings = named.some((column) => column !== undefined) || first.every((field) => !/\d/.test(field));
  const rows = hasHeadings ? table.slice(1) : table;
  const width = Math.max(0, ...table.map((row) => row.length));
  const guessed = hasHeadings ? Array.from({ length: width }, (_, c) => named[c]) : guessByContent(rows, width);
  return {
    headings: Array.from({ length: width }, (_, c) => (hasHeadings ? (first[c] ?? '') : `column ${c + 1}`)),
    rows,
    guessed,
    unit: likelyUnit(first, rows, guessed),
  };
}

function columnOf(heading: string): ListColumn | 'quantity' | undefined {
  const plain = heading
    .toLowerCase()
    .replace(/[([].*$|,.*$/, '')
    .replace(/[:\s]+$/, '')
    .trim();
  return WORDS.find(([, pattern]) => pattern.test(plain))?.[0];
}

/** Without headings: the first column of words is the mark, the first two of sizes diameter and length. */
function guessByContent(rows: readonly (readonly string[])[], width: number): (ListColumn | undefined)[] {
  const sizes: ListColumn[] = ['diameter', 'length', 'hole'];
  let marked = false;
  return Array.from({ length: width }, (_, c) => {
    const fields = rows.map((row) => row[c] ?? '').filter((f) => f !== '');
    const areSizes =
      fields.length > 0 && fields.every((field) => /^[\d\s./'"-]+\s*(mm|cm|in|inch|ft|["'])?$/i.test(field));
    if (areSizes) return sizes.shift();
    if (marked) return undefined;
    marked = true;
    return 'mark';
  });
}

/** Inches, unless a heading says millimetres or the bare sizes are too large to be inches. */
function likelyUnit(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  columns: readonly (ListColumn | 'quantity' | undefined)[],
): Unit {
  if (headings.some((h) => /\bmm\b/i.test(h))) return 'mm';
  if (headings.some((h) => /\b(in|inch|inches)\b|"/i.test(h))) return 'in';
  const at = columns.indexOf('diameter');
  const bare = rows.map((row) => Number(row[at] ?? '')).filter((n) => n > 0);
  return bare.length > 0 && bare.every((n) => n > LARGEST_PIN) ? 'mm' : 'in';
}

/** Diameter beyond which a bare number is more likely millimetres, in. Common practice, no source. */
const LARGEST_PIN = 24;
const SIZES: ReadonlySet<ListColumn> = new Set(['diameter', 'length', 'hole']);
/** Rows that one line of a list may stand for. */
const MOST_OFF = 500;

/** The rows of a list, those of many pieces one for each piece, with what is wrong in each. */
export function readRows(
  { rows }: PastedTable,
  columns: readonly (ListColumn | 'quantity' | undefined)[],
  unit: Unit,
): readonly ReadRow[] {
  return rows.flatMap((fields, i): ReadRow[] => {
    const row: Partial<Record<ListColumn, string | number>> = {};
    const problems: string[] = [];
    let pieces = 1;
    columns.forEach((column, c) => {
      const field = fields[c] ?? '';
      if (column === undefined || field === '') return;
      if (column === 'quantity') {
        const found = /^(\d+)\s*(off|x|no|pcs|ea)?\.?$/i.exec(field)?.[1];
        if (found === undefined || Number(found) < 1 || Number(found) > MOST_OFF) problems.push(`quantity is ${field}`);
        else pieces = Number(found);
      } else if (SIZES.has(column)) {
        const size = sizeOf(field, unit);
        if (typeof size === 'string' && size.startsWith('!')) problems.push(`${column} ${size.slice(1)}`);
        else row[column] = size;
      } else row[column] = field;
    });
    for (const needed of ['diameter', 'length'] as const)
      if (row[needed] === undefined && !problems.some((p) => p.startsWith(needed)))
        problems.push(`${needed} is missing`);
    return Array.from({ length: pieces }, (_, n) => ({
      row: pieces === 1 ? row : { ...row, mark: `${row.mark ?? `line ${i + 1}`}, ${n + 1} of ${pieces}` },
      line: i + 1,
      problems,
    }));
  });
}

/** A size as the sheet takes it: a bare number in the unit of the list; what is wrong after `!`. */
function sizeOf(field: string, unit: Unit): string | number {
  const plain = field
    .replace(/^[ø⌀]\s*/i, '')
    .replace(/[“”″]/g, '"')
    .replace(/[’′]/g, "'");
  const bare = /^\d[\d\s./-]*$/.test(plain);
  const asked = bare && unit === 'mm' ? `${plain} mm` : plain;
  let value: number | undefined;
  try {
    value = parseQuantity(asked, 'length');
  } catch {
    value = undefined;
  }
  if (value === undefined) return `!${field} is no size`;
  if (value <= 0) return `!is ${field}; must be above 0`;
  return /^\d+(\.\d+)?$/.test(asked) ? Number(asked) : asked;
}
