/** Addresses of cells as rows and columns, counted from 0. */
import { parseA1Ref, toCol } from '@borgar/fx';

export interface Area {
  readonly top: number;
  readonly left: number;
  readonly rows: number;
  readonly columns: number;
}

export function areaOf(address: string): Area | undefined {
  const parsed = parseA1Ref(address);
  if (!parsed || !('range' in parsed)) return undefined;
  const { top, left, bottom, right } = parsed.range;
  // Whole columns and rows end with the sheet.
  const [first, last] = [
    { row: top ?? 0, column: left ?? 0 },
    { row: bottom ?? 1_048_575, column: right ?? 16_383 },
  ];
  return {
    top: first.row,
    left: first.column,
    rows: last.row - first.row + 1,
    columns: last.column - first.column + 1,
  };
}

export const addressOf = (row: number, column: number): string => `${toCol(column)}${row + 1}`;

export function textOf({ top, left, rows, columns }: Area): string {
  const first = addressOf(top, left);
  const last = addressOf(top + rows - 1, left + columns - 1);
  return first === last ? first : `${first}:${last}`;
}

export const holds = (big: Area, small: Area): boolean =>
  small.top >= big.top &&
  small.left >= big.left &&
  small.top + small.rows <= big.top + big.rows &&
  small.left + small.columns <= big.left + big.columns;

export const intersection = (a: Area, b: Area): Area =>
  between(
    Math.max(a.top, b.top),
    Math.max(a.left, b.left),
    Math.min(end(a).row, end(b).row),
    Math.min(end(a).column, end(b).column),
  );

export const bounding = (a: Area, b: Area): Area =>
  between(
    Math.min(a.top, b.top),
    Math.min(a.left, b.left),
    Math.max(end(a).row, end(b).row),
    Math.max(end(a).column, end(b).column),
  );

const end = (a: Area): { readonly row: number; readonly column: number } => ({
  row: a.top + a.rows,
  column: a.left + a.columns,
});
const between = (top: number, left: number, row: number, column: number): Area => ({
  top,
  left,
  rows: row - top,
  columns: column - left,
});
