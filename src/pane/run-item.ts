import { CalcError } from '../core/errors.ts';
import { askedUntilFailed, explainItem, givenItem, type Explanation, type GivenItem } from '../sheet/call.ts';
import { SharedBases } from '../sheet/shared-bases.ts';
import type { ReadCall } from './read-call.ts';

/** The explanation of one item, or of one column of its row, with what it was given. */
export interface Run extends Partial<Explanation> {
  /** Undefined where reading the arguments failed. */
  readonly given?: GivenItem;
  readonly failed?: CalcError;
}

/** Cells of one pane have most of their solving in common. */
const SHARED = new SharedBases();

export function runItem({ declaration, operands }: ReadCall, item: number, column: number | undefined): Run {
  let given: GivenItem | undefined;
  try {
    given = givenItem(
      declaration,
      operands.map((o) => o.argument),
      item,
      SHARED,
    );
    return { given, ...explainItem(declaration, given, column) };
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    return { failed: e, ...(given && { given, assumptions: askedUntilFailed(declaration, given) }) };
  } finally {
    SHARED.tidy();
  }
}
