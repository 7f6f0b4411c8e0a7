import type { FormulaAt } from './looked-at.ts';
import { linesOf, type Line } from './lines.ts';
import { byPlace } from './workbook.ts';

/** Cells of one sheet with the same formula: a filled column or row, or a cell by itself. */
export interface Group {
  /** In the order of the sheet. */
  readonly cells: readonly FormulaAt[];
}

/** Groups all formulas: down the columns, and what is left alone there, across the rows. */
export function groupsOf(formulas: readonly FormulaAt[], down: readonly Line[]): readonly Group[] {
  const grouped = new Set<FormulaAt>();
  const groups: FormulaAt[][] = [];
  const take = (line: Line): void => {
    const alike = new Map<string, FormulaAt[]>();
    line.cells.forEach((cell, k) => {
      const says = line.exact[k] ?? '';
      const found = alike.get(says);
      if (found) found.push(cell);
      else alike.set(says, [cell]);
    });
    for (const cells of alike.values()) {
      if (cells.length < 2) continue;
      for (const cell of cells) grouped.add(cell);
      groups.push(cells);
    }
  };
  down.forEach(take);
  linesOf(
    formulas.filter((f) => !grouped.has(f)),
    'across',
  ).forEach(take);
  for (const f of formulas) if (!grouped.has(f)) groups.push([f]);
  return groups.map((cells) => ({ cells })).sort((x, y) => byPlace(x.cells[0]!, y.cells[0]!));
}
