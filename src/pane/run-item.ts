import { CalcError } from '../core/errors.ts';
import { isTableFunction, type ItemOfRow } from '../catalogue/declaration.ts';
import { givenItem, type GivenItem } from '../sheet/call.ts';
import { explainItem, type Explanation, askedUntilFailed, explainRow } from '../sheet/explain.ts';
import { SHARED } from '../sheet/shared-bases.ts';
import type { ReadCall } from './read-call.ts';

/** The explanation of one item, or of one column of its row, with what it was given. */
export interface Run extends Partial<Explanation> {
  /** Undefined where reading the arguments failed. */
  readonly given?: GivenItem;
  readonly failed?: CalcError;
  /** What the selected row of a table is about. */
  readonly row?: ItemOfRow;
}

/** `place` is where the selected cell stands in the table: the row counted from 1 below the heading. */
export function runItem(
  { declaration, operands, explanation }: ReadCall,
  item: number,
  place: { readonly row: number; readonly column: number } | undefined,
): Run {
  let given: GivenItem | undefined;
  try {
    given = givenItem(
      declaration,
      operands.map((o) => o.argument),
      item,
      SHARED,
    );
    const row =
      place && isTableFunction(declaration) ? explainRow(declaration, given, place.row, place.column) : undefined;
    if (row) return { given, row: row.item, ...row.explanation };
    return { given, ...(explanation ?? explainItem(declaration, given, place?.column)) };
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    return { failed: e, ...(given && { given, assumptions: askedUntilFailed(declaration, given) }) };
  } finally {
    SHARED.tidy();
  }
}
