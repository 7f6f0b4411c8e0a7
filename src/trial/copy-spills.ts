import type { Injector } from '@univerjs/core';
import { ISheetClipboardService } from '@univerjs/preset-sheets-core';
import { isCellError } from '../catalogue/cell.ts';
import { escaped } from '../files/xlsx/xml.ts';
import type { SheetCells } from './sheet-cells.ts';

/** Copies what spilled cells show; the sheet by itself would copy them as blanks. */
export function copySpilledCells(injector: Injector, cells: SheetCells): void {
  const spilled = (row: number, column: number): string | number | boolean | undefined => {
    const sheet = cells.workbook().getActiveSheet();
    const typed = sheet.getCellRaw(row, column);
    if (typed?.v !== undefined && typed.v !== null) return undefined;
    const value = cells.valueAt(sheet, row, column);
    return value === null ? undefined : isCellError(value) ? value.error : value;
  };
  injector.get(ISheetClipboardService).addClipboardHook({
    id: 'rodsheet-spilled-cells',
    priority: 100,
    onCopyCellContent: (row, column) => escaped(String(spilled(row, column) ?? '')),
    getCellValueBySpecialMatrix(row, column) {
      const v = spilled(row, column);
      return v === undefined ? undefined : { v, displayV: String(v) };
    },
  });
}
