/** Places in a sheet, counted from 0, and their names. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export const LAST_ROW = 1_048_575;
export const LAST_COLUMN = 16_383;

const ADDRESS = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/;

/** Row and column of `B7`; undefined where it names no cell. */
export function readAddress(text: string): { readonly row: number; readonly column: number } | undefined {
  const found = ADDRESS.exec(text);
  if (!found) return undefined;
  const [, letters = '', digits = ''] = found;
  const column = Array.from(letters).reduce((n, letter) => 26 * n + letter.charCodeAt(0) - 64, 0) - 1;
  const row = Number(digits) - 1;
  return row > LAST_ROW || column > LAST_COLUMN ? undefined : { row, column };
}

export function readArea(text: string): Area | undefined {
  const [first = '', second = first] = text.split(':');
  const a = readAddress(first);
  const b = readAddress(second);
  if (!a || !b) return undefined;
  return {
    top: Math.min(a.row, b.row),
    left: Math.min(a.column, b.column),
    bottom: Math.max(a.row, b.row),
    right: Math.max(a.column, b.column),
  };
}

export function columnName(column: number): string {
  let name = '';
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26)) name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  return name;
}

export const addressOf = (row: number, column: number): string => `${columnName(column)}${row + 1}`;

export function areaName({ top, left, bottom, right }: Area): string {
  const first = addressOf(top, left);
  return top === bottom && left === right ? first : `${first}:${addressOf(bottom, right)}`;
}

/** A sheet's name before `!`, in quotes where it needs them. */
export function sheetPrefix(sheet: string): string {
  return /^[A-Za-z_][A-Za-z0-9_]*$/.test(sheet) && !readAddress(sheet.toUpperCase()) && !/^r\d*c?\d*$/i.test(sheet)
    ? `${sheet}!`
    : `'${sheet.replaceAll("'", "''")}'!`;
}

export const isWithin = (area: Area, row: number, column: number): boolean =>
  row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
