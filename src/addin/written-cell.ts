import type { Cell } from '../catalogue/cell.ts';

/** A cell as it is typed: a text that the sheet would turn into a formula, a number or a date is marked as text. */
export function writtenCell(cell: Cell): string | number | boolean {
  if (cell === null) return '';
  if (typeof cell === 'object') return cell.error;
  return typeof cell === 'string' && /^['=+@.\d-]/.test(cell) ? `'${cell}` : cell;
}
