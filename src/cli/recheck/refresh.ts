import { isCellError } from '../../catalogue/cell.ts';
import type { Cell } from '../../sheet/host-function.ts';
import { isSame } from '../../sheet/same-value.ts';
import { utf8 } from '../../files/xlsx/bytes.ts';
import { editSheet, storable, type NewValue } from '../../files/xlsx/edit-sheet.ts';
import { readWorkbook } from '../../files/xlsx/read-workbook.ts';
import { keyOf } from './readers.ts';
import type { Recheck } from './recheck.ts';

/**
 * The workbook with the results of this recheck as its saved values: those of our formulas and, with `allFormulas`, of
 * the sheet's own. Only parts of sheets with a changed value are written anew, and in them only those values; all else
 * keeps its bytes. An error of the engine never goes over a saved value. What comes out is read back before it is given.
 */
export function refreshed({ workbook, compared, results, refusals }: Recheck, allFormulas = false): Uint8Array {
  const bySheet = new Map<number, NewValue[]>();
  const isEngines = (value: Cell): boolean => isCellError(value) && !refusals.has(value.message);
  for (const { formula, sheet, row, column, before, after, status } of compared) {
    if (status === 'same' || formula.kept !== undefined || (!formula.ours && !allFormulas)) continue;
    if (isEngines(after) && !isCellError(before)) continue;
    const anchor = formula.cell.row === row && formula.cell.column === column;
    const result = results.get(formula) ?? [];
    const area = {
      top: row,
      left: column,
      bottom: row + Math.max(result.length, 1) - 1,
      right: column + Math.max(result[0]?.length ?? 1, 1) - 1,
    };
    const value: NewValue = {
      row,
      column,
      value: storable(after),
      ...(anchor && formula.cell.formula?.kind === 'dynamic' ? { area } : {}),
    };
    const list = bySheet.get(sheet);
    if (list) list.push(value);
    else bySheet.set(sheet, [value]);
  }
  // A spill of another size says so in its own cell, even where that cell's value stayed.
  for (const [formula, result] of results) {
    const { cell, sheet } = formula;
    if (cell.formula?.kind !== 'dynamic' || (!formula.ours && !allFormulas)) continue;
    if (isEngines(result[0]?.[0] ?? null)) continue;
    const area = {
      top: cell.row,
      left: cell.column,
      bottom: cell.row + result.length - 1,
      right: cell.column + (result[0]?.length ?? 1) - 1,
    };
    if (area.bottom === cell.formula.area.bottom && area.right === cell.formula.area.right) continue;
    const list = bySheet.get(sheet) ?? [];
    if (!list.some((v) => v.row === cell.row && v.column === cell.column))
      list.push({ row: cell.row, column: cell.column, value: storable(result[0]?.[0] ?? null), area });
    bySheet.set(sheet, list);
  }
  if (bySheet.size === 0) return workbook.archive.with(new Map());
  const parts = new Map<string, Uint8Array>();
  for (const [index, values] of bySheet) {
    const sheet = workbook.sheets[index]!;
    parts.set(sheet.part, utf8(editSheet(sheet, values)));
  }
  const file = workbook.archive.with(parts);
  checkWritten(file, bySheet);
  return file;
}

function checkWritten(file: Uint8Array, bySheet: ReadonlyMap<number, readonly NewValue[]>): void {
  const written = readWorkbook(file);
  const values = new Map(
    written.sheets.flatMap((s, i) => s.cells.map((c): [string, Cell] => [keyOf(i, c.row, c.column), c.value])),
  );
  for (const [sheet, news] of bySheet) {
    for (const { row, column, value } of news) {
      if (!isSame(values.get(keyOf(sheet, row, column)) ?? null, value))
        throw new Error(
          `the written workbook does not hold what it should at sheet ${sheet + 1}, row ${row + 1}, column ${column + 1}`,
        );
    }
  }
}
