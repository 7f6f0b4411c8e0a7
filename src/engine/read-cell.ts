import { CellValueType } from '@univerjs/core';
import type { ICellData, Nullable } from '@univerjs/core';
import { ERROR_TYPE_SET } from '@univerjs/engine-formula';
import { engineErrors } from '../sheet/engine-errors.ts';
import type { Cell } from '../sheet/host-function.ts';
import { textOfCell } from './error-text.ts';
import { unknownFunction } from './unknown-function.ts';

/**
 * A cell of the engine as a plain value; every error has a text.
 *
 * @param formula the formula that stands in the cell, '' where none does
 * @param names the functions that formulas may use
 */
export function readCell(cell: Nullable<ICellData>, formula: string, names: readonly string[]): Cell {
  const value = cell?.v ?? null;
  if (value === null) return null;
  if (cell?.t === CellValueType.BOOLEAN) return Boolean(value);
  if (typeof value === 'string' && cell?.t !== CellValueType.FORCE_STRING && ERROR_TYPE_SET.has(value as never)) {
    const text = textOfCell(cell) || (value === '#NAME?' ? unknownFunction(formula, names) : '');
    return { error: value, message: text || (engineErrors[value] ?? '') };
  }
  return value;
}
