import { isCellError } from '../../catalogue/cell.ts';
import { shown } from '../../core/messages.ts';
import type { Cell } from '../../sheet/host-function.ts';

const LONGEST = 60;

/** A value in a line of the report. */
export function showValue(cell: Cell): string {
  if (cell === null || cell === '') return 'blank';
  if (isCellError(cell)) return cell.error;
  if (typeof cell === 'number') return Number.isInteger(cell) ? String(cell) : shown(cell);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  const line = cell.replace(/\s+/g, ' ');
  return `"${line.length > LONGEST ? `${line.slice(0, LONGEST)}...` : line}"`;
}

/** The same without quotes round a text. */
export const plainValue = (cell: Cell): string => (typeof cell === 'string' ? cell : showValue(cell));

/** A value and what became of it; two numbers alike in the digits shown get all their digits. */
export function showChange(before: Cell, after: Cell): string {
  const [one, other] = [showValue(before), showValue(after)];
  return one === other && typeof before === 'number' && typeof after === 'number'
    ? `${before} -> ${after}`
    : `${one} -> ${other}`;
}
