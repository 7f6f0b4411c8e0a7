import { isCellError } from '../../catalogue/cell.ts';
import { engineErrors } from '../../sheet/engine-errors.ts';
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

/** Why a formula fails that stands in no cell, as if it stood in this one; '' where it does not. */
export async function whyWritten(cell: SelectedCell, port: Pick<SheetPort, 'read'>): Promise<string> {
  const { calls } = await readSelectedCell(cell, port);
  return calls.length === 0 ? texts.NONE_OF_OURS : firstReason(calls);
}

export function reasonIn(read: ReadCell): string {
  const { cell, calls } = read;
  if (!isCellError(cell.value) || calls.length === 0) return '';
  const { error } = cell.value;
  const { row, column } = cell.spill ?? { row: 0, column: 0 };
  return firstReason(calls, [row, column]) || (engineErrors[error] ?? texts.notOurs(error));
}

/** Of the calls of a formula; of one that is all of the formula the item in its place, where that is said. */
function firstReason(calls: ReadCell['calls'], place?: readonly [row: number, column: number]): string {
  const reasons = calls.map((call) => (isKnown(call) ? reasonOf(call, call.whole ? place : undefined) : call.problem));
  return reasons.find((reason) => reason !== '') ?? '';
}

function reasonOf(call: ReadCall, place: readonly [row: number, column: number] | undefined): string {
  const { operands, results } = call;
  const unread = operands.find((o) => o.problem !== undefined)?.problem;
  if (unread !== undefined) return unread;
  const given = operands.find((o) => Array.isArray(o.argument) && o.argument.flat().some(isCellError));
  if (given) return texts.errorInArgument(given.operand.text);
  const failed = place ? results?.[place[0]]?.[place[1]] : results?.flat().find((c) => isCellError(c));
  return failed !== undefined && isCellError(failed) ? failed.message : '';
}
