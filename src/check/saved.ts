import type { HostFunction } from '../sheet/host-function.ts';
import type { SavedWorkbook } from '../files/xlsx/saved-workbook.ts';
import { FormulaReader } from '../files/xlsx/stored-formula.ts';
import type { CheckedCell, CheckedWorkbook } from './workbook.ts';

/** A workbook from a file, with cells in place of names and parts of tables. */
export function checkedWorkbook(
  saved: SavedWorkbook,
  functions: readonly HostFunction[],
  sheetFunctions: ReadonlySet<string>,
): CheckedWorkbook {
  const reader = new FormulaReader(saved, functions, sheetFunctions);
  return {
    sheets: saved.sheets.map(({ name, cells }, sheet) => ({
      name,
      cells: cells.map(({ row, column, value, formula }): CheckedCell => {
        if (!formula) return { row, column, value };
        const read = formula.kind === 'table' ? undefined : reader.read(formula.text, { sheet, row, column });
        const told = `=${asTyped(formula.text)}`;
        return { row, column, value, formula: read?.engine ?? told, told, area: formula.area };
      }),
    })),
  };
}

/** The names of functions of ours, and the cells of a table's own row, as they are typed. */
function asTyped(text: string): string {
  return text
    .replace(/_xl(?:dudf_|l\.|udf\.)(BURN[._A-Z]+)(?=\()/gi, (_, name: string) =>
      name.toUpperCase().replaceAll('_', '.'),
    )
    .replace(/\[\[#This Row\],(\[(?:[^[\]']|'.)+\])\]/gi, (_, column: string) =>
      /^\[[\p{L}\p{N}_.]+\]$/u.test(column) ? `[@${column.slice(1)}` : `[@${column}]`,
    )
    .replace(/_xlfn\.(_xlws\.)?/g, '');
}
