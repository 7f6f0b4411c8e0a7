import { BooleanNumber, CellValueType, HorizontalAlign, LocaleType, VerticalAlign, WrapStrategy } from '@univerjs/core';
import type { ICellData, IObjectMatrixPrimitiveType, IStyleData, IWorkbookData, IWorksheetData } from '@univerjs/core';
import { deserializeRangeWithSheet } from '@univerjs/engine-formula';
import type { CellContent, CellLook, SheetDescription, WorkbookDescription } from '../sheet/described-workbook.ts';

/** Room left for results that spill, beyond what is filled. */
const SPARE_ROWS = 11_000;
const SPARE_COLUMNS = 60;

const ALIGN = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT } as const;

/** A workbook of the engine from a plain description; sheets get the ids `sheet1`, `sheet2`, ... */
export function workbookData(id: string, description: WorkbookDescription): IWorkbookData {
  const sheets = description.sheets.map((sheet, i) => worksheetData(`sheet${i + 1}`, sheet));
  return {
    id,
    name: id,
    appVersion: '',
    locale: LocaleType.EN_US,
    styles: {},
    sheetOrder: sheets.map((sheet) => sheet.id),
    sheets: Object.fromEntries(sheets.map((sheet) => [sheet.id, sheet])),
    resources: [{ name: 'SHEET_DEFINED_NAME_PLUGIN', data: JSON.stringify(definedNames(description)) }],
  };
}

/** Defined names as the engine keeps them, by id. */
export function definedNames(
  description: WorkbookDescription,
): Record<string, { id: string; name: string; formulaOrRefString: string }> {
  return Object.fromEntries(
    Object.entries(description.definedNames ?? {}).map(([name, meaning], i) => {
      const id = `name${i + 1}`;
      return [id, { id, name, formulaOrRefString: meaning }];
    }),
  );
}

export function worksheetData(id: string, sheet: SheetDescription): Partial<IWorksheetData> & { id: string } {
  const cells: IObjectMatrixPrimitiveType<ICellData> = {};
  let lastRow = -1;
  let lastColumn = -1;
  const at = (row: number, column: number): ICellData => {
    lastRow = Math.max(lastRow, row);
    lastColumn = Math.max(lastColumn, column);
    return ((cells[row] ??= {})[column] ??= {});
  };
  const put = (row: number, column: number, content: CellContent): void => {
    if (content !== null) Object.assign(at(row, column), cellData(content));
  };
  sheet.rows?.forEach((row, r) => row.forEach((content, c) => put(r, c, content)));
  for (const [address, content] of Object.entries(sheet.cells ?? {})) {
    const { startRow, startColumn } = deserializeRangeWithSheet(address).range;
    put(startRow, startColumn, content);
  }
  for (const [range, look] of Object.entries(sheet.looks ?? {})) {
    const { startRow, startColumn, endRow, endColumn } = deserializeRangeWithSheet(range).range;
    for (let r = startRow; r <= endRow; r++) {
      for (let c = startColumn; c <= endColumn; c++) {
        const cell = at(r, c);
        cell.s = { ...(typeof cell.s === 'object' ? cell.s : {}), ...style(look) };
      }
    }
  }
  const [rowCount, columnCount] = sheet.size ?? [lastRow + 1 + SPARE_ROWS, lastColumn + 1 + SPARE_COLUMNS];
  const { frozenRows = 0, frozenColumns = 0 } = sheet;
  return {
    id,
    name: sheet.name,
    cellData: cells,
    rowCount,
    columnCount,
    columnData: widths(sheet.widths ?? {}),
    rowData: Object.fromEntries(
      Object.entries(sheet.heights ?? {}).map(([row, h]) => [Number(row) - 1, { h, ia: BooleanNumber.FALSE }]),
    ),
    freeze: { xSplit: frozenColumns, ySplit: frozenRows, startRow: frozenRows || -1, startColumn: frozenColumns || -1 },
  };
}

function cellData(content: Exclude<CellContent, null>): ICellData {
  if (typeof content === 'number') return { v: content, t: CellValueType.NUMBER };
  if (typeof content === 'boolean') return { v: content ? 1 : 0, t: CellValueType.BOOLEAN };
  if (typeof content === 'string')
    return content.startsWith('=') && content.length > 1 ? { f: content } : { v: content, t: CellValueType.STRING };
  if ('text' in content) return { v: content.text, t: CellValueType.FORCE_STRING };
  return { v: content.error, t: CellValueType.STRING, custom: { errorText: content.message } };
}

function style(look: CellLook): IStyleData {
  return {
    ...(look.bold === undefined ? {} : { bl: look.bold ? BooleanNumber.TRUE : BooleanNumber.FALSE }),
    ...(look.italic === undefined ? {} : { it: look.italic ? BooleanNumber.TRUE : BooleanNumber.FALSE }),
    ...(look.size === undefined ? {} : { fs: look.size }),
    ...(look.color === undefined ? {} : { cl: { rgb: look.color } }),
    ...(look.background === undefined ? {} : { bg: { rgb: look.background } }),
    ...(look.format === undefined ? {} : { n: { pattern: look.format } }),
    ...(look.wrap === undefined
      ? {}
      : { tb: look.wrap ? WrapStrategy.WRAP : WrapStrategy.OVERFLOW, vt: VerticalAlign.TOP }),
    ...(look.align === undefined ? {} : { ht: ALIGN[look.align] }),
  };
}

function widths(byLetters: Readonly<Record<string, number>>): Record<number, { w: number }> {
  return Object.fromEntries(
    Object.entries(byLetters).flatMap(([letters, w]) => {
      const { startColumn, endColumn } = deserializeRangeWithSheet(
        letters.includes(':') ? letters : `${letters}:${letters}`,
      ).range;
      return Array.from({ length: endColumn - startColumn + 1 }, (_, i) => [startColumn + i, { w }]);
    }),
  );
}
