import type { Injector } from '@univerjs/core';
import {
  BaseFunction,
  BaseReferenceObject,
  FunctionNodeFactory,
  IFunctionService,
  LexerNode,
  SuffixNodeFactory,
} from '@univerjs/engine-formula';
import type { BaseValueObject } from '@univerjs/engine-formula';
import { errorValue } from './error-text.ts';

type NodeValueType = ReturnType<BaseFunction['calculate']>;

/** The name workbook files use for `A1#`. */
const NAME = 'ANCHORARRAY';

/** All cells that the formula of one cell spilled into. */
class AnchorArray extends BaseFunction {
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

/** Lets formulas say `A1#`, which the engine parses and then answers with an error. */
export function allowSpillReferences(injector: Injector): void {
  injector.get(IFunctionService).registerExecutors(new AnchorArray(NAME));
  const suffixes = injector.get(SuffixNodeFactory);
  const functions = injector.get(FunctionNodeFactory);
  const check = suffixes.checkAndCreateNodeType.bind(suffixes);
  suffixes.checkAndCreateNodeType = (param) =>
    param instanceof LexerNode && param.getToken().trim() === '#'
      ? (functions.create(NAME) as ReturnType<typeof check>)
      : check(param);
}
