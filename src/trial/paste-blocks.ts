import { ICommandService } from '@univerjs/core';
import type { ICellData, Injector } from '@univerjs/core';
import { ISheetClipboardService } from '@univerjs/preset-sheets-core';
import {
  SetRangeValuesCommand,
  SetWorksheetColumnCountMutation,
  SetWorksheetRowCountMutation,
  SheetsSelectionsService,
} from '@univerjs/sheets';
import { cellData } from '../engine/workbook.ts';
import { fieldContent } from '../files/csv-sheet.ts';
import { readCsv } from '../files/read-csv.ts';
import type { SheetCells } from './sheet-cells.ts';

/**
 * Pastes a block of mail or of another program by its text: cells apart by tabs, quoted where they hold line breaks, sizes
 * such as 3/8 as they are written. The sheet by itself would make dates of them. What was copied here is pasted by the sheet.
 */
export function pasteBlocks(injector: Injector, cells: SheetCells): void {
  const clipboard = injector.get(ISheetClipboardService);
  const commands = injector.get(ICommandService);
  const selections = injector.get(SheetsSelectionsService);

  const isOwn = (html: string): boolean => {
    const id = /data-copy-id="([^"]+)"/.exec(html)?.[1];
    return id !== undefined && clipboard.copyContentCache().get(id) !== undefined;
  };
  const put = async (text: string): Promise<boolean> => {
    const primary = selections.getCurrentLastSelection()?.range;
    const rows = readCsv(text, '\t');
    const width = Math.max(0, ...rows.map((row) => row.length));
    if (!primary || width === 0) return false;
    const { startRow, startColumn } = primary;
    const workbook = cells.workbook();
    const sheet = workbook.getActiveSheet();
    const place = { unitId: workbook.getUnitId(), subUnitId: sheet.getSheetId() };
    const [endRow, endColumn] = [startRow + rows.length - 1, startColumn + width - 1];
    if (endRow >= sheet.getRowCount())
      commands.syncExecuteCommand(SetWorksheetRowCountMutation.id, { ...place, rowCount: endRow + 1 });
    if (endColumn >= sheet.getColumnCount())
      commands.syncExecuteCommand(SetWorksheetColumnCountMutation.id, { ...place, columnCount: endColumn + 1 });
    const value = rows.map((row) => Array.from({ length: width }, (_, c) => pasted(row[c] ?? '')));
    return commands.executeCommand(SetRangeValuesCommand.id, {
      ...place,
      range: { startRow, startColumn, endRow, endColumn },
      value,
    });
  };

  const paste = clipboard.paste.bind(clipboard);
  clipboard.paste = async (item, type) => {
    const html = item.types.includes('text/html') ? await (await item.getType('text/html')).text() : '';
    if (isOwn(html) || !item.types.includes('text/plain')) return paste(item, type);
    return put(await (await item.getType('text/plain')).text());
  };
  const legacyPaste = clipboard.legacyPaste.bind(clipboard);
  clipboard.legacyPaste = (html, text, files, ...more) =>
    text === undefined || text === '' || isOwn(html ?? '') ? legacyPaste(html, text, files, ...more) : put(text);
}

/** Takes the place of all that the cell held; its look stays. */
function pasted(field: string): ICellData {
  const content = fieldContent(field);
  return { v: null, f: null, si: null, p: null, custom: null, ...(content === null ? {} : cellData(content)) };
}
