/** How a table of a function of ours is best shown: a function gives cells their values only, never their looks. */
import type { Column, Declaration } from '../catalogue/declaration.ts';
import type { Cell } from '../catalogue/cell.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import type { CellLook } from './described-workbook.ts';

export interface ColumnLook extends Pick<CellLook, 'format' | 'wrap' | 'align' | 'vertical'> {
  /** Least width, px. */
  readonly width: number;
}

export interface TableLook {
  /** Whether the first row holds headings. */
  readonly headed: boolean;
  /** Of the headings. */
  readonly heading: CellLook;
  /** Of the cells below them, column by column. */
  readonly columns: readonly ColumnLook[];
}

export const HEADING_LOOK: CellLook = { bold: true, wrap: true, background: '#dfe6e4', vertical: 'center' };

/** Width of a character of the standard face, px, and of what stands round a text. */
const CHARACTER = 7;
const ROUND = 14;
const NUMBER_WIDTH = 78;
const SHORTEST = 50;
/** Of texts that are not there yet, and of names among them. */
const UNKNOWN = 110;
const NAMES = 180;
/** Texts up to here [px] have a column as wide as they are; longer ones wrap in one so wide. */
const LONGEST = 240;
/** Columns of numbers of rows. */
const COUNTED = /^(item|order|rank)$/;
/** Columns of whole sentences. */
const SENTENCES = 420;
const SENTENCE = /^(note|what to do|formula|reason|cautions)$/;

/** Undefined where the function gives single values. `rows` is the table as it stands, with its heading, if one does. */
export function tableLook({ result }: Declaration, rows: readonly (readonly Cell[])[]): TableLook | undefined {
  if (result.kind === 'value') return undefined;
  const headed = !('headless' in result);
  const below = headed ? rows.slice(1) : rows;
  return {
    headed,
    heading: HEADING_LOOK,
    columns: result.columns.map((column, c) =>
      columnLook(
        column,
        below.map((row) => row[c] ?? null),
      ),
    ),
  };
}

function columnLook({ heading, quantity }: Column, cells: readonly Cell[]): ColumnLook {
  const numbers = cells.filter((cell): cell is number => typeof cell === 'number');
  const texts = cells.filter((cell): cell is string => typeof cell === 'string');
  const sentences = SENTENCE.test(heading);
  if (!sentences && (quantity !== undefined || numbers.length > texts.length)) {
    const format = formatOf(quantity, numbers);
    return { width: NUMBER_WIDTH, align: 'right', vertical: 'top', ...(format === undefined ? {} : { format }) };
  }
  const longest = Math.max(heading.length > 12 ? 0 : heading.length, ...texts.map((text) => text.length));
  const wanted = longest * CHARACTER + ROUND;
  const most = sentences || wanted > 2 * LONGEST ? SENTENCES : LONGEST;
  const open = sentences ? SENTENCES : COUNTED.test(heading) ? SHORTEST : heading === 'mark' ? NAMES : UNKNOWN;
  const width = cells.length === 0 ? open : Math.max(SHORTEST, Math.min(wanted, most));
  return { width, align: 'left', vertical: 'top', wrap: true };
}

/** Numbers with about four digits; undefined where one format would not do for all of them. */
function formatOf(quantity: QuantityName | undefined, numbers: readonly number[]): string | undefined {
  if (quantity === 'count') return '#,##0';
  const sizes = numbers.map(Math.abs).filter((size) => size > 0);
  if (sizes.length === 0) return quantity === undefined ? undefined : '#,##0.0';
  if (quantity === undefined && numbers.every(Number.isInteger)) return undefined;
  const whole = Math.max(1, Math.ceil(Math.log10(Math.max(...sizes))));
  const decimals = Math.min(4, Math.max(0, 4 - whole));
  if (Math.min(...sizes) < 10 ** (1 - decimals)) return quantity === undefined ? undefined : '#,##0.0##';
  return decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`;
}
