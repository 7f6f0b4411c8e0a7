import { isBlankCell, isCellError, type Cell } from '../catalogue/cell.ts';
import { engineErrors } from '../sheet/engine-errors.ts';
import type { SelectedCell } from './port.ts';
import type { ReadCall } from './read-call.ts';
import { showCell } from './show-cell.ts';

/** What is to be said of the value the cell shows: an error of the sheet's own, or a value its formula no longer gives. */
export function cellNote({ whole, results }: ReadCall, { value, spill }: SelectedCell): string | undefined {
  if (isCellError(value) && value.error !== '#VALUE!' && value.error !== '#N/A') {
    const meaning = engineErrors[value.error];
    return `The cell shows ${value.error}${meaning ? `: ${meaning}` : ''}.`;
  }
  if (!whole || !results) return undefined;
  const now = results[spill?.row ?? 0]?.[spill?.column ?? 0] ?? null;
  if (same(value, now)) return undefined;
  return `The cell shows ${shown(value)}; its formula gives ${shown(now)} now. Recalculate the sheet.`;
}

const shown = (cell: Cell): string => (isBlankCell(cell) ? 'nothing' : showCell(cell));

function same(a: Cell, b: Cell): boolean {
  if (isBlankCell(a) || isBlankCell(b)) return isBlankCell(a) === isBlankCell(b) || a === 0 || b === 0; // some sheets show a blank result as 0
  if (isCellError(a) || isCellError(b)) return isCellError(a) && isCellError(b) && a.error === b.error;
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
  return a === b;
}
