import type { Cell } from '../../src/catalogue/cell.ts';
import type { SelectedCell, SheetPort } from '../../src/pane/port.ts';

/** A reference and what it holds; anything else is unknown, as a wrong name is in a sheet. */
export type Cells = Readonly<Record<string, Cell | readonly (readonly Cell[])[]>>;

export function reader(cells: Cells): SheetPort['read'] {
  return (reference) => {
    const found = cells[reference];
    if (found === undefined) return Promise.reject(new Error('there is no such range'));
    return Promise.resolve(Array.isArray(found) ? (found as readonly (readonly Cell[])[]) : [[found as Cell]]);
  };
}

export function selected(formula: string, more: Partial<SelectedCell> = {}): SelectedCell {
  return { sheet: 'Pins', address: 'D5', formula, value: null, ...more };
}
