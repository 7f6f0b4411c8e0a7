import { isFormulaId, isFormulaString, IUniverInstanceService, ObjectMatrix, UniverInstanceType } from '@univerjs/core';
import type { ICellData, Injector, IRange, Nullable, Workbook, Worksheet } from '@univerjs/core';
import { FormulaDataModel, IFunctionService, serializeRange } from '@univerjs/engine-formula';
import { isCellError } from '../catalogue/cell.ts';
import { spillBeyondSheet, spillBlocked } from '../core/messages.ts';
import { readCell } from '../engine/read-cell.ts';
import type { Cell } from '../sheet/host-function.ts';

/** What the cells of the workbook on show hold, typed or spilled. */
export interface SheetCells {
  readonly workbook: () => Workbook;
  /** '' where the cell holds none. */
  readonly formulaAt: (sheet: Worksheet, row: number, column: number) => string;
  readonly valueAt: (sheet: Worksheet, row: number, column: number) => Cell;
  /** The range of the spill that fills a cell, its formula's own cell included. */
  readonly spillAt: (sheet: Worksheet, row: number, column: number) => IRange | undefined;
  /** The range that the formula of a cell has filled; undefined where it fills its own cell only. */
  readonly spillOf: (sheet: Worksheet, row: number, column: number) => IRange | undefined;
  /** Last row and column of a sheet that hold anything. */
  readonly extent: (sheet: Worksheet) => { readonly row: number; readonly column: number };
}

export function sheetCells(injector: Injector, workbookId: string): SheetCells {
  const formulas = injector.get(FormulaDataModel);
  const functionNames = [...injector.get(IFunctionService).getExecutors().keys()].map(String);

  const workbook = (): Workbook => {
    const found = injector.get(IUniverInstanceService).getUnit<Workbook>(workbookId, UniverInstanceType.UNIVER_SHEET);
    if (!found) throw new Error('the workbook is gone');
    return found;
  };
  const typedCell = (sheet: Worksheet, row: number, column: number): Nullable<ICellData> =>
    sheet.getCellRaw(row, column);
  const spilledCell = (sheet: Worksheet, row: number, column: number): Nullable<ICellData> =>
    formulas.getArrayFormulaCellData()[workbookId]?.[sheet.getSheetId()]?.[row]?.[column];

  const formulaAt = (sheet: Worksheet, row: number, column: number): string => {
    const cell = typedCell(sheet, row, column);
    if (isFormulaString(cell?.f)) return cell?.f ?? '';
    return isFormulaId(cell?.si)
      ? (formulas.getFormulaStringByCell(row, column, sheet.getSheetId(), workbookId) ?? '')
      : '';
  };
  const rangeOf = (sheet: Worksheet, row: number, column: number): IRange | undefined =>
    formulas.getArrayFormulaRange()[workbookId]?.[sheet.getSheetId()]?.[row]?.[column] ?? undefined;
  /** What a formula that could not spill met first. */
  const blockedBy = (sheet: Worksheet, row: number, column: number): string | undefined => {
    const range = rangeOf(sheet, row, column);
    if (!range) return undefined;
    if (range.endRow >= sheet.getRowCount() || range.endColumn >= sheet.getColumnCount()) return spillBeyondSheet();
    for (let r = range.startRow; r <= range.endRow; r++) {
      for (let c = range.startColumn; c <= range.endColumn; c++) {
        const held = typedCell(sheet, r, c);
        const holds = Boolean(held?.f) || Boolean(held?.si) || (held?.v ?? '') !== '';
        if (holds && (r !== row || c !== column)) return spillBlocked(address(r, c));
      }
    }
    return undefined;
  };
  const valueAt = (sheet: Worksheet, row: number, column: number): Cell => {
    const typed = typedCell(sheet, row, column);
    const cell = typed?.v === undefined || typed.v === null ? spilledCell(sheet, row, column) : typed;
    const value = readCell(cell, formulaAt(sheet, row, column), functionNames);
    return isCellError(value) && value.error === '#SPILL!'
      ? { ...value, message: blockedBy(sheet, row, column) ?? value.message }
      : value;
  };
  /** A formula that could not spill keeps its range. */
  const spillOf = (sheet: Worksheet, row: number, column: number): IRange | undefined =>
    typedCell(sheet, row, column)?.v === '#SPILL!' ? undefined : rangeOf(sheet, row, column);

  const spillAt = (sheet: Worksheet, row: number, column: number): IRange | undefined => {
    let found: IRange | undefined;
    new ObjectMatrix<IRange>(formulas.getArrayFormulaRange()[workbookId]?.[sheet.getSheetId()] ?? {}).forValue(
      (_r, _c, range) => {
        const inside =
          row >= range.startRow && row <= range.endRow && column >= range.startColumn && column <= range.endColumn;
        if (inside) found = spillOf(sheet, range.startRow, range.startColumn);
        return found === undefined;
      },
    );
    return found;
  };

  const extent = (sheet: Worksheet): { readonly row: number; readonly column: number } => {
    let row = 0;
    let column = 0;
    const spilled = new ObjectMatrix<Nullable<ICellData>>(
      formulas.getArrayFormulaCellData()[workbookId]?.[sheet.getSheetId()] ?? {},
    );
    for (const cells of [sheet.getCellMatrix(), spilled]) {
      cells.forValue((r, c, cell) => {
        if (!cell || ((cell.v === undefined || cell.v === null) && !cell.f && !cell.si)) return;
        row = Math.max(row, r);
        column = Math.max(column, c);
      });
    }
    return { row, column };
  };
  return { workbook, formulaAt, valueAt, spillAt, spillOf, extent };
}

export function address(row: number, column: number): string {
  return serializeRange({ startRow: row, endRow: row, startColumn: column, endColumn: column });
}
