import type { Declaration } from '../catalogue/declaration.ts';
import { CalcError } from '../core/errors.ts';
import type { Shape } from '../sheet/broadcast.ts';
import { call, itemShape, type Results } from '../sheet/call.ts';
import { SHARED } from '../sheet/shared-bases.ts';
import type { Argument, Calculated, ToldExplanation } from '../sheet/host-function.ts';
import type { SelectedCell } from './port.ts';
import type { ReadOperand } from './resolve-operands.ts';

/** A call of a known function with what its arguments hold, calculated once for all its items. */
export interface ReadCall {
  readonly declaration: Declaration;
  /** As it stands in the formula. */
  readonly text: string;
  /** Whether it is all of the formula, so that the cell's spill is its own. */
  readonly whole: boolean;
  readonly operands: readonly ReadOperand[];
  /** Undefined where an argument could not be read. */
  readonly results: Results | undefined;
  /** How it is worked out, where that was told with the results. */
  readonly explanation: ToldExplanation | undefined;
  /** How the items lie; items are counted row by row. */
  readonly shape: Shape;
}

/** `calculated` is what came of the call where that is known already. */
export function readCall(
  declaration: Declaration,
  text: string,
  whole: boolean,
  operands: readonly ReadOperand[],
  calculated?: Calculated,
): ReadCall {
  const args = operands.map((o) => o.argument);
  const results = isUnread(operands) ? undefined : (calculated?.cells ?? call(declaration, args, undefined, SHARED));
  const explanation = calculated?.explanation;
  return { declaration, text, whole, operands, results, explanation, shape: shapeOf(declaration, args) };
}

export const isUnread = (operands: readonly ReadOperand[]): boolean => operands.some((o) => o.problem !== undefined);

const ONE: Shape = { rows: 1, columns: 1 };

function shapeOf(d: Declaration, args: readonly Argument[]): Shape {
  if (d.result.kind === 'table') return ONE;
  try {
    return itemShape(d, args);
  } catch (e) {
    if (e instanceof CalcError) return ONE; // the call fails as a whole and says which ranges do not fit
    throw e;
  }
}

/** The item whose result the selected cell shows; the first where the cell shows all or a part of them. */
export function selectedItem({ declaration, whole, shape }: ReadCall, { spill }: SelectedCell): number {
  if (!whole || !spill || declaration.result.kind === 'table') return 0;
  const item = declaration.result.kind === 'rows' ? spill.row - 1 : spill.row * shape.columns + spill.column;
  return Math.min(Math.max(item, 0), shape.rows * shape.columns - 1);
}
