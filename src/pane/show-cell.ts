import { isCellError, type Cell } from '../catalogue/cell.ts';

/** A number to read: five significant digits, whole numbers in full, no trailing zeros. */
export function showNumber(x: number): string {
  return Number.isInteger(x) && Math.abs(x) < 1e9 ? String(x) : String(Number(x.toPrecision(5)));
}

export function showWithUnit(value: number | string, unit: string): string {
  const text = typeof value === 'number' ? showNumber(value) : value;
  return unit === '' ? text : `${text} ${unit}`;
}

/** What a cell shows; a blank one shows nothing. */
export function showCell(cell: Cell): string {
  if (cell === null) return '';
  if (isCellError(cell)) return cell.error;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'number' ? showNumber(cell) : cell;
}
