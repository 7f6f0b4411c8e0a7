import { ICommandService, ObjectMatrix } from '@univerjs/core';
import type { Injector, IRange, Worksheet } from '@univerjs/core';
import {
  FormulaDataModel,
  SetFormulaCalculationResultMutation,
  SetTriggerFormulaCalculationStartMutation,
} from '@univerjs/engine-formula';
import { InsertSheetMutation, SetWorksheetColumnCountMutation, SetWorksheetRowCountMutation } from '@univerjs/sheets';
import type { IInsertSheetMutationParams } from '@univerjs/sheets';
import { LAST_COLUMN, LAST_ROW } from '../files/xlsx/address.ts';
import type { SheetCells } from './sheet-cells.ts';

/** Room of a sheet that the user adds: more than any function's table has columns. */
const ROWS = 2_000;
const COLUMNS = 80;
/** Left beyond a spill that met the edge. */
const SPARE = 20;

/** Gives new sheets room for any result, and widens a sheet whose edge a spill has met. */
export function keepRoomForSpills(injector: Injector, cells: SheetCells): void {
  const commands = injector.get(ICommandService);
  const formulas = injector.get(FormulaDataModel);
  commands.beforeCommandExecuted(({ id, params }) => {
    if (id !== InsertSheetMutation.id) return;
    const { sheet } = params as IInsertSheetMutationParams;
    sheet.rowCount = Math.max(sheet.rowCount, ROWS);
    sheet.columnCount = Math.max(sheet.columnCount, COLUMNS);
  });
  commands.onCommandExecuted(({ id }) => {
    if (id !== SetFormulaCalculationResultMutation.id) return;
    // The results are put into the cells by the same command; what it waits for must be done first.
    setTimeout(() => {
      const workbook = cells.workbook();
      const unitId = workbook.getUnitId();
      const dirtyRanges = workbook.getSheets().flatMap((sheet) => {
        const met = spillsBeyond(sheet, formulas.getArrayFormulaRange()[unitId]?.[sheet.getSheetId()] ?? {});
        if (met.length === 0) return [];
        const subUnitId = sheet.getSheetId();
        const rowCount = Math.min(LAST_ROW, Math.max(...met.map((r) => r.endRow)) + SPARE) + 1;
        const columnCount = Math.min(LAST_COLUMN, Math.max(...met.map((r) => r.endColumn)) + SPARE) + 1;
        if (rowCount > sheet.getRowCount())
          commands.syncExecuteCommand(SetWorksheetRowCountMutation.id, { unitId, subUnitId, rowCount });
        if (columnCount > sheet.getColumnCount())
          commands.syncExecuteCommand(SetWorksheetColumnCountMutation.id, { unitId, subUnitId, columnCount });
        return met.map(({ startRow, startColumn }) => ({
          unitId,
          sheetId: subUnitId,
          range: { startRow, startColumn, endRow: startRow, endColumn: startColumn },
        }));
      });
      if (dirtyRanges.length > 0)
        commands.syncExecuteCommand(SetTriggerFormulaCalculationStartMutation.id, { dirtyRanges });
    });
  });
}

/** Ranges of formulas that found no room because the sheet ends. */
function spillsBeyond(sheet: Worksheet, ranges: Parameters<typeof matrixOf>[0]): readonly IRange[] {
  const beyond: IRange[] = [];
  matrixOf(ranges).forValue((row, column, range) => {
    const blocked = sheet.getCellRaw(row, column)?.v === '#SPILL!';
    const fits = range.endRow <= LAST_ROW && range.endColumn <= LAST_COLUMN;
    const outside = range.endRow >= sheet.getRowCount() || range.endColumn >= sheet.getColumnCount();
    if (blocked && fits && outside) beyond.push(range);
  });
  return beyond;
}

const matrixOf = (ranges: ConstructorParameters<typeof ObjectMatrix<IRange>>[0]): ObjectMatrix<IRange> =>
  new ObjectMatrix<IRange>(ranges);
