import type { Cell } from '../sheet/host-function.ts';
import { printable } from './printable.ts';

/** A single value shows all digits but the noise of binary arithmetic; a table is for the eye, `--json` has the rest. */
const DIGITS = 12;
const TABLE_DIGITS = 6;

export function shownCell(cell: Cell, digits = DIGITS): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(Number(cell.toPrecision(digits)));
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'string' ? cell : cell.error;
}

/** Rows as lines with aligned columns, numbers to the right. */
export function tableLines(rows: readonly (readonly Cell[])[]): string[] {
  const shown = rows.map((row) => row.map((cell) => printable(shownCell(cell, TABLE_DIGITS))));
  const widths = (shown[0] ?? []).map((_, c) => shown.reduce((most, row) => Math.max(most, row[c]?.length ?? 0), 0));
  return rows.map((row, r) =>
    row
      .map((cell, c) => {
        const text = shown[r]?.[c] ?? '';
        return typeof cell === 'number' ? text.padStart(widths[c] ?? 0) : text.padEnd(widths[c] ?? 0);
      })
      .join('  ')
      .trimEnd(),
  );
}
