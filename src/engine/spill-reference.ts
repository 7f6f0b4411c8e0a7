import { BaseFunction, BaseReferenceObject } from '@univerjs/engine-formula';
import type { BaseValueObject } from '@univerjs/engine-formula';
import { errorValue } from './error-text.ts';

type NodeValueType = ReturnType<BaseFunction['calculate']>;

/** All cells that the formula of one cell spilled into: `A1#`, which workbook files call ANCHORARRAY(A1). */
export class AnchorArray extends BaseFunction {
  override needsReferenceObject = true;
  override minParams = 1;
  override maxParams = 1;

  override calculate(anchor: BaseValueObject | BaseReferenceObject): NodeValueType {
    if (!(anchor instanceof BaseReferenceObject) || !anchor.isCell()) {
      return errorValue('#REF!', 'only a single cell can stand before #');
    }
    const first = anchor.getFirstCell();
    if (first.isError()) return first;
    const { startRow, startColumn } = anchor.getRangePosition();
    const ranges =
      anchor.getCurrentRuntimeActiveArrayFormulaRange()?.[startRow]?.[startColumn] ??
      anchor.getCurrentActiveArrayFormulaRange()?.[startRow]?.[startColumn];
    return ranges ? this.createReferenceObject(anchor, ranges) : anchor;
  }
}
