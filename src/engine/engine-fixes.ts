import {
  BaseFunction,
  BaseReferenceObject,
  CELL_INVERTED_INDEX_CACHE,
  ErrorValueObject,
  functionDate,
  ValueObjectFactory,
} from '@univerjs/engine-formula';
import { errorValue, textOfCell } from './error-text.ts';

/** Set on the engine's own objects once it is mended, so that a second workbook does not mend it again. */
const MENDED = Symbol.for('rodsheet.engine-mended');

/** Mends what the engine does differently from the spreadsheet it stands in for. To be called before the first formula. */
export function mendEngine(): void {
  const marked = ValueObjectFactory as typeof ValueObjectFactory & { [MENDED]?: true };
  if (marked[MENDED]) return;
  marked[MENDED] = true;
  dropIndexCache();
  keepTextAsText();
  keepErrorText();
}

/** The cache of values by column makes a spill of n rows cost n squared, and is only ever a shortcut. */
function dropIndexCache(): void {
  CELL_INVERTED_INDEX_CACHE.set = () => undefined;
  CELL_INVERTED_INDEX_CACHE.setContinueBuildingCache = () => undefined;
}

/**
 * A quoted "3/8" in a formula is a text. The engine would read it as the third of August; only its
 * functions of dates may go on doing so, because some of them take no text.
 */
function keepTextAsText(): void {
  const create = ValueObjectFactory.create.bind(ValueObjectFactory);
  ValueObjectFactory.create = (raw, ignorePatterns = true) => create(raw, ignorePatterns);
  // The engine's list is of pairs, class and name, which its typings mix.
  for (const [date] of functionDate as unknown as readonly (readonly [
    { readonly prototype: BaseFunction },
    string,
  ])[]) {
    if (!Object.hasOwn(date.prototype, 'isArgumentsIgnoreNumberPattern'))
      date.prototype.isArgumentsIgnoreNumberPattern = () => false;
  }
  BaseFunction.prototype.isArgumentsIgnoreNumberPattern = () => true;
}

/** A reference to a failed cell brings the cell's text along with its code. */
function keepErrorText(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const read = BaseReferenceObject.prototype.getCellValueObject;
  BaseReferenceObject.prototype.getCellValueObject = function (this: BaseReferenceObject, cell) {
    const value = read.call(this, cell);
    const text = value instanceof ErrorValueObject ? textOfCell(cell) : '';
    return text === '' ? value : errorValue(String(value.getValue()), text);
  };
}
