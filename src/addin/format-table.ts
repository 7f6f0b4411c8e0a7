/// <reference types="office-js" />
import { LAST_FROZEN, type TableToFormat } from '../pane/port.ts';
import { POINTS_A_PIXEL, setLook } from './set-look.ts';

/** Gives a table that one formula spilled its formats. */
export async function formatTable(
  context: Excel.RequestContext,
  { sheet: name, address, rows, look }: TableToFormat,
): Promise<void> {
  const sheet = context.workbook.worksheets.getItem(name);
  const first = sheet.getRange(address);
  const frozen = sheet.freezePanes.getLocationOrNullObject();
  const columns = look.columns.map((_, c) => first.getOffsetRange(0, c).getEntireColumn());
  first.load('rowIndex,columnIndex');
  frozen.load('address');
  for (const { format } of columns) format.load('columnWidth');
  await context.sync();
  const { rowIndex: top, columnIndex: left } = first;
  const heads = look.headed ? 1 : 0;
  look.columns.forEach(({ width, ...cells }, c) => {
    const column = columns[c]!;
    column.format.columnWidth = Math.max(column.format.columnWidth, width * POINTS_A_PIXEL);
    if (rows.length > heads) setLook(sheet.getRangeByIndexes(top + heads, left + c, rows.length - heads, 1), cells);
  });
  if (look.headed) {
    setLook(sheet.getRangeByIndexes(top, left, 1, look.columns.length), look.heading);
    // What the user has frozen stays as it is.
    if (frozen.isNullObject && top < LAST_FROZEN) sheet.freezePanes.freezeRows(top + 1);
  }
  sheet.getRangeByIndexes(top, left, rows.length, look.columns.length).format.autofitRows();
  await context.sync();
}
