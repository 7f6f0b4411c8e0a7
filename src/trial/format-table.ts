import { ICommandService } from '@univerjs/core';
import type { ICellData, Injector, IRange } from '@univerjs/core';
import { SetColWidthCommand, SetFrozenCommand, SetRangeValuesCommand, SetRowHeightCommand } from '@univerjs/sheets';
import { cellStyle } from '../engine/workbook.ts';
import { addressOf, areaName, columnName, readAddress } from '../files/xlsx/address.ts';
import { textHeights } from '../files/xlsx/new-workbook.ts';
import { LAST_FROZEN, type TableToFormat } from '../pane/port.ts';
import type { CellLook } from '../sheet/described-workbook.ts';
import type { SheetCells } from './sheet-cells.ts';

/** Gives a table on show its formats. */
export async function formatTable(
  injector: Injector,
  { workbook, formulaAt }: SheetCells,
  { sheet: name, address, rows, look }: TableToFormat,
): Promise<void> {
  const commands = injector.get(ICommandService);
  const sheet = workbook().getSheetBySheetName(name);
  const first = readAddress(address);
  if (!sheet || !first) throw new Error(`there is no ${name} ${address}`);
  const { row: top, column: left } = first;
  const on = { unitId: workbook().getUnitId(), subUnitId: sheet.getSheetId() };
  const heads = look.headed ? 1 : 0;
  const at = (row: number, column: number): CellLook => {
    if (row < heads) return look.heading;
    const { width: _, ...cells } = look.columns[column] ?? { width: 0 };
    return cells;
  };
  const range: IRange = {
    startRow: top,
    endRow: top + rows.length - 1,
    startColumn: left,
    endColumn: left + look.columns.length - 1,
  };
  const value: Record<number, Record<number, ICellData>> = {};
  for (let r = 0; r < rows.length; r++)
    for (let c = 0; c < look.columns.length; c++) (value[top + r] ??= {})[left + c] = { s: cellStyle(at(r, c)) };
  // The engine takes a cell that is given without its formula for one that has none.
  value[top]![left]!.f = formulaAt(sheet, top, left);
  await commands.executeCommand(SetRangeValuesCommand.id, { ...on, range, value });
  const widths: Record<string, number> = {};
  for (const [c, { width }] of look.columns.entries()) {
    const column = left + c;
    const now = sheet.getColumnWidth(column);
    widths[columnName(column)] = Math.max(now, width);
    if (width <= now) continue;
    const ranges = [{ startRow: 0, endRow: sheet.getRowCount() - 1, startColumn: column, endColumn: column }];
    await commands.executeCommand(SetColWidthCommand.id, { ...on, ranges, value: width });
  }
  const heights = textHeights({
    name,
    widths,
    cells: Object.fromEntries(
      rows.flatMap((cells, r) =>
        cells.flatMap((cell, c) =>
          typeof cell === 'string' && cell !== '' ? [[addressOf(top + r, left + c), { text: cell }]] : [],
        ),
      ),
    ),
    looks: Object.fromEntries(
      look.columns.flatMap((_, c) => [
        [addressOf(top, left + c), at(0, c)],
        [areaName({ top: top + heads, bottom: top + rows.length - 1, left: left + c, right: left + c }), at(heads, c)],
      ]),
    ),
  });
  for (const [row, px] of Object.entries(heights)) {
    const ranges = [{ startRow: Number(row) - 1, endRow: Number(row) - 1, startColumn: 0, endColumn: 0 }];
    await commands.executeCommand(SetRowHeightCommand.id, { ...on, ranges, value: px });
  }
  const { xSplit, ySplit } = sheet.getFreeze();
  // What the user has frozen stays as it is.
  if (look.headed && top < LAST_FROZEN && xSplit + ySplit === 0)
    await commands.executeCommand(SetFrozenCommand.id, {
      ...on,
      startRow: top + 1,
      startColumn: -1,
      ySplit: top + 1,
      xSplit: 0,
    });
}
