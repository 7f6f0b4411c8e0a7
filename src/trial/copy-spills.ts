import type { ICellData, Injector, IRange, Nullable } from '@univerjs/core';
import { ISheetClipboardService } from '@univerjs/preset-sheets-core';
import { isCellError } from '../catalogue/cell.ts';
import { escaped } from '../files/xlsx/xml.ts';
import type { SheetCells } from './sheet-cells.ts';

/** Copies what spilled cells show; the sheet by itself would copy them as blanks. */
export function copySpilledCells(injector: Injector, cells: SheetCells): void {
  let copied: IRange | undefined;
  /** Of a cell that a formula elsewhere fills, or whose own formula is copied with cells that it fills. */
  const shown = (
    row: number,
    column: number,
  ): { readonly v: string | number | boolean; readonly cell: Nullable<ICellData> } | undefined => {
    const sheet = cells.workbook().getActiveSheet();
    const cell = sheet.getCellRaw(row, column);
    if (cell?.v !== undefined && cell.v !== null && !isWithMore(cells.spillOf(sheet, row, column), copied))
      return undefined;
    const value = cells.valueAt(sheet, row, column);
    return value === null ? undefined : { v: isCellError(value) ? value.error : value, cell };
  };
  injector.get(ISheetClipboardService).addClipboardHook({
    id: 'rodsheet-spilled-cells',
    priority: 100,
    onBeforeCopy: (_unit, _sheet, range) => {
      copied = range;
    },
    onCopyCellContent: (row, column) => escaped(String(shown(row, column)?.v ?? '')),
    getCellValueBySpecialMatrix(row, column) {
      const found = shown(row, column);
      return found && { v: found.v, displayV: String(found.v), ...(found.cell?.s ? { s: found.cell.s } : {}) };
    },
  });
}

/** Whether a formula's spill reaches cells of the copied range besides its own: pasted with these it would find them in its way. */
function isWithMore(spill: IRange | undefined, copied: IRange | undefined): boolean {
  if (!spill || !copied) return false;
  const { startRow, startColumn, endRow, endColumn } = copied;
  return (
    (Math.min(endRow, spill.endRow) > spill.startRow && startRow <= spill.endRow) ||
    (Math.min(endColumn, spill.endColumn) > spill.startColumn && startColumn <= spill.endColumn)
  );
}
