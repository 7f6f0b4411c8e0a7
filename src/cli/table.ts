import type { Cell } from '../sheet/host-function.ts';
import { printable } from './printable.ts';

/** A single value shows all digits but the noise of binary arithmetic; a table is for the eye, `--json` has the rest. */
const DIGITS = 12;
const TABLE_DIGITS = 6;
const GAP = '  ';
/** Texts longer than this are broken into lines where a table has to be folded. */
const LONG_TEXT = 40;
/** Characters that a heading may always take. */
const LEAST_HEADING = 10;
/** First columns by which a row is known in each part of a folded table. */
const KEYS = ['order', 'item', 'mark', 'line', 'load', 'what', 'section', 'step', 'name'];

export function shownCell(cell: Cell, digits = DIGITS): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(Number(cell.toPrecision(digits)));
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'string' ? cell : cell.error;
}

interface ShownColumn {
  readonly texts: readonly (readonly string[])[];
  readonly width: number;
  readonly right: readonly boolean[];
}

/**
 * Rows as lines with aligned columns, numbers to the right.
 *
 * A table wider than `width` characters is folded: as many columns as fit, then the next ones below, each part with the columns
 * that say which row it is; long texts are broken into lines. Columns without any cell are left out of a folded table.
 */
export function tableLines(rows: readonly (readonly Cell[])[], width = Infinity): string[] {
  const whole = columnsOf(rows, Infinity);
  if (lineWidth(whole) <= width) return linesOf(whole, rows.length);
  const keys = keyColumns(rows[0] ?? [], columnsOf(rows, LONG_TEXT), width);
  const taken = lineWidth(columnsOf(rows, LONG_TEXT).slice(0, keys)) + GAP.length;
  const columns = columnsOf(rows, Math.max(LEAST_HEADING, Math.min(LONG_TEXT, width - taken)));
  const others = columns.filter((column, c) => c >= keys && column.width > 0);
  const parts: ShownColumn[][] = [];
  for (const column of others) {
    const part = parts.at(-1);
    if (part && lineWidth([...columns.slice(0, keys), ...part, column]) <= width) part.push(column);
    else parts.push([column]);
  }
  return parts.flatMap((part, i) => [
    ...(i > 0 ? [''] : []),
    ...linesOf([...columns.slice(0, keys), ...part], rows.length),
  ]);
}

function columnsOf(rows: readonly (readonly Cell[])[], longest: number): readonly ShownColumn[] {
  return (rows[0] ?? []).map((_, c) => {
    const below = rows.slice(1).map((row) => broken(printable(shownCell(row[c] ?? null, TABLE_DIGITS)), longest));
    const widest = below.reduce((most, lines) => lines.reduce((m, line) => Math.max(m, line.length), most), 0);
    // Where a table is folded a heading is no reason for a wide column, and one above nothing is left out.
    const title = printable(shownCell(rows[0]?.[c] ?? null, TABLE_DIGITS));
    const word = Math.max(...title.split(' ').map((w) => w.length));
    const room = longest === Infinity ? Infinity : Math.min(longest, Math.max(LEAST_HEADING, widest, word));
    const heading = broken(title, room);
    const empty = longest !== Infinity && rows.length > 1 && widest === 0;
    return {
      texts: [heading, ...below],
      width: empty ? 0 : heading.reduce((most, line) => Math.max(most, line.length), widest),
      right: rows.map((row) => typeof row[c] === 'number'),
    };
  });
}

/** A text in lines of so many characters, at its spaces where it has any. */
function broken(text: string, longest: number): readonly string[] {
  if (text.length <= longest) return [text];
  const lines: string[] = [];
  let rest = text;
  while (rest.length > longest) {
    const space = rest.lastIndexOf(' ', longest);
    const at = space > longest / 3 ? space : longest;
    lines.push(rest.slice(0, at).trimEnd());
    rest = rest.slice(at).trimStart();
  }
  return [...lines, rest];
}

/** How many of the first columns name the row, as far as they leave half of the width to the others. */
function keyColumns(headings: readonly Cell[], columns: readonly ShownColumn[], width: number): number {
  const named = headings.findIndex((h) => typeof h !== 'string' || !KEYS.includes(h));
  const most = Math.max(1, named < 0 ? 1 : named);
  for (let keys = most; keys > 1; keys--) if (lineWidth(columns.slice(0, keys)) <= width / 2) return keys;
  return lineWidth(columns.slice(0, 1)) <= width / 2 ? 1 : 0;
}

const lineWidth = (columns: readonly ShownColumn[]): number =>
  columns.reduce((sum, column) => sum + column.width, 0) + GAP.length * Math.max(0, columns.length - 1);

function linesOf(columns: readonly ShownColumn[], rows: number): string[] {
  return Array.from({ length: rows }, (_, r) => {
    const height = Math.max(1, ...columns.map(({ texts }) => texts[r]?.length ?? 1));
    return Array.from({ length: height }, (__, k) =>
      columns
        .map(({ texts, width, right }) => {
          const text = texts[r]?.[k] ?? '';
          return right[r] ? text.padStart(width) : text.padEnd(width);
        })
        .join(GAP)
        .trimEnd(),
    );
  }).flat();
}
