import { isCellError } from '../../catalogue/cell.ts';
import { engineErrors } from '../../core/messages.ts';
import { isKnown, readSelectedCell, type ReadCell } from '../../pane/explain-cell.ts';
import type { SelectedCell, SheetPort } from '../../pane/port.ts';
import type { ReadCall } from '../../pane/read-call.ts';
import * as texts from '../texts.ts';

/**
 * Why the function of a cell failed, '' where it did not. The program shows an error of a function without a text, so
 * the calls in the cell's formula are calculated again from the cells they read.
 */
export async function why(cell: SelectedCell, port: Pick<SheetPort, 'read'>): Promise<string> {
  return reasonIn(await readSelectedCell(cell, port));
}

export function reasonIn(read: ReadCell): string {
  const { cell, calls } = read;
  if (!isCellError(cell.value) || calls.length === 0) return '';
  const reasons = calls.map((call) => (isKnown(call) ? reasonOf(call, cell) : call.problem));
  const { error } = cell.value;
  return reasons.find((reason) => reason !== '') ?? engineErrors[error] ?? texts.notOurs(error);
}

function reasonOf(call: ReadCall, cell: SelectedCell): string {
  const { operands, results } = call;
  const unread = operands.find((o) => o.problem !== undefined)?.problem;
  if (unread !== undefined) return unread;
  const given = operands.find((o) => Array.isArray(o.argument) && o.argument.flat().some(isCellError));
  if (given) return texts.errorInArgument(given.operand.text);
  const at = call.whole ? (cell.spill ?? { row: 0, column: 0 }) : undefined;
  const failed = at ? results?.[at.row]?.[at.column] : results?.flat().find((c) => isCellError(c));
  return failed !== undefined && isCellError(failed) ? failed.message : '';
}
