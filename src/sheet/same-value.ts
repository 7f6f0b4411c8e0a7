import { isBlankCell } from '../catalogue/cell.ts';
import type { Cell } from './host-function.ts';

/** Within what two computers may differ in the last digits of a calculation, far below anything a job would notice. */
const CLOSE = 1e-9;

/** Whether a saved and a new value are the same: numbers to one part in a thousand million, an error by its code, a blank like an empty text. */
export function isSame(before: Cell, after: Cell): boolean {
  if (typeof before === 'number' && typeof after === 'number')
    return before === after || Math.abs(before - after) <= CLOSE * Math.max(Math.abs(before), Math.abs(after));
  if (isBlankCell(before) && isBlankCell(after)) return true;
  if (typeof before === 'object' && before !== null && typeof after === 'object' && after !== null)
    return before.error === after.error;
  return before === after;
}
