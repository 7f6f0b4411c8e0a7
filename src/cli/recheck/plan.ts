import { functionNames } from '../../engine/headless.ts';
import type { HostFunction } from '../../sheet/host-function.ts';
import type { Area } from '../../files/xlsx/address.ts';
import type { SavedCell, SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import { FormulaReader, type StoredFormula } from '../../files/xlsx/stored-formula.ts';

/** A formula of the workbook and what is done with it. */
export interface PlannedFormula {
  readonly sheet: number;
  readonly cell: SavedCell;
  readonly read: StoredFormula;
  /** Whether one of our functions is in it. */
  readonly ours: boolean;
  /** Why it keeps its saved value, which others are calculated from, instead of being calculated. */
  kept: string | undefined;
}

const MOST_ARRAY_CELLS = 1_000_000;

/** Reads every formula of the workbook. */
export function planFormulas(
  workbook: SavedWorkbook,
  functions: readonly HostFunction[],
): { readonly formulas: readonly PlannedFormula[]; readonly reader: FormulaReader } {
  const reader = new FormulaReader(workbook, functions, new Set(functionNames));
  const formulas = workbook.sheets.flatMap((sheet, index) =>
    sheet.cells.flatMap((cell): PlannedFormula[] => {
      if (!cell.formula) return [];
      const read = withinBounds(
        reader.read(cell.formula.text, { sheet: index, row: cell.row, column: cell.column }),
        cell.formula.area,
      );
      const ours = read.ours.length > 0;
      return [{ sheet: index, cell, read, ours, kept: whyKept(cell, read, ours) }];
    }),
  );
  return { formulas, reader };
}

function withinBounds(read: StoredFormula, { top, left, bottom, right }: Area): StoredFormula {
  return (bottom - top + 1) * (right - left + 1) > MOST_ARRAY_CELLS
    ? { ...read, engine: undefined, problem: read.problem ?? 'it covers more cells than are taken here' }
    : read;
}

function whyKept(
  { formula }: SavedCell,
  { problem, lacking, volatile }: StoredFormula,
  ours: boolean,
): string | undefined {
  if (formula?.kind === 'table') return 'it is a what-if table';
  if (volatile.length > 0 && !ours) return `${volatile.join(', ')} changes by itself`;
  return problem ?? lacking;
}
