import { findFunction } from '../catalogue/catalogue.ts';
import { isCellError, type Cell } from '../catalogue/cell.ts';
import { asTyped, findCalls } from '../formula/formula-calls.ts';

/** A cell with a formula. */
export interface FormulaCell {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string;
  readonly value: Cell;
}

/** What came of entering cells again: how many have their functions, and why others could not be entered. */
export interface Entered {
  readonly done: number;
  readonly failed: readonly { readonly cell: FormulaCell; readonly reason: string }[];
}

/**
 * Whether the host does not know a function of ours in a formula: the formula was entered, or its workbook opened, before the
 * add-in was there, and the host keeps the name as that of nobody. It stays so until the formula is entered again.
 */
export function isUnknownToHost({ formula, value }: Pick<FormulaCell, 'formula' | 'value'>): boolean {
  const calls = findCalls(formula);
  if (calls.length === 0 || !calls.every((call) => findFunction(call.name))) return false;
  return asTyped(formula) !== formula || (isCellError(value) && value.error === '#NAME?');
}
