import {
  BooleanNumber,
  BorderStyleTypes,
  CellValueType,
  HorizontalAlign,
  LocaleType,
  VerticalAlign,
  WrapStrategy,
} from '@univerjs/core';
import type {
  IBorderData,
  IBorderStyleData,
  ICellData,
  IObjectMatrixPrimitiveType,
  IStyleData,
  IWorkbookData,
  IWorksheetData,
} from '@univerjs/core';
import { deserializeRangeWithSheet } from '@univerjs/engine-formula';
import type {
  Border,
  BorderLine,
  CellContent,
  CellLook,
  SheetDescription,
  WorkbookDescription,
} from '../sheet/described-workbook.ts';

/** Room left for results that spill, beyond what is filled. */
const SPARE_ROWS = 11_000;
const SPARE_COLUMNS = 60;

const ALIGN = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT } as const;
const LINES: Readonly<Record<BorderLine, BorderStyleTypes>> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  dashDot: BorderStyleTypes.DASH_DOT,
  dashDotDot: BorderStyleTypes.DASH_DOT_DOT,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  mediumDashed: BorderStyleTypes.MEDIUM_DASHED,
  mediumDashDot: BorderStyleTypes.MEDIUM_DASH_DOT,
  mediumDashDotDot: BorderStyleTypes.MEDIUM_DASH_DOT_DOT,
  slantDashDot: BorderStyleTypes.SLANT_DASH_DOT,
  thick: BorderStyleTypes.THICK,
};
const VERTICAL = { top: VerticalAlign.TOP, center: VerticalAlign.MIDDLE, bottom: VerticalAlign.BOTTOM } as const;

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
        cell.s = { ...(typeof cell.s === 'object' ? cell.s : {}), ...cellStyle(look) };
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
    columnData: columnData(sheet),
    rowData: rowData(sheet),
    mergeData: (sheet.merged ?? []).map((range) => deserializeRangeWithSheet(range).range),
    hidden: sheet.hidden ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    freeze: { xSplit: frozenColumns, ySplit: frozenRows, startRow: frozenRows || -1, startColumn: frozenColumns || -1 },
  };
}

/** A cell of the engine that holds this. */
export function cellData(content: Exclude<CellContent, null>): ICellData {
  if (typeof content === 'number') return { v: content, t: CellValueType.NUMBER };
  if (typeof content === 'boolean') return { v: content ? 1 : 0, t: CellValueType.BOOLEAN };
  if (typeof content === 'string')
    return content.startsWith('=') && content.length > 1 ? { f: content } : { v: content, t: CellValueType.STRING };
  if ('text' in content) return { v: content.text, t: CellValueType.FORCE_STRING };
  return { v: content.error, t: CellValueType.STRING, custom: { errorText: content.message } };
}

/** A look as the engine has it. */
export function cellStyle(look: CellLook): IStyleData {
  return {
    ...(look.bold === undefined ? {} : { bl: flag(look.bold) }),
    ...(look.italic === undefined ? {} : { it: flag(look.italic) }),
    ...(look.size === undefined ? {} : { fs: look.size }),
    ...(look.color === undefined ? {} : { cl: { rgb: look.color } }),
    ...(look.background === undefined ? {} : { bg: { rgb: look.background } }),
    ...(look.format === undefined ? {} : { n: { pattern: look.format } }),
    ...(look.wrap === undefined
      ? {}
      : { tb: look.wrap ? WrapStrategy.WRAP : WrapStrategy.OVERFLOW, vt: VerticalAlign.TOP }),
    ...(look.align === undefined ? {} : { ht: ALIGN[look.align] }),
    ...(look.vertical === undefined ? {} : { vt: VERTICAL[look.vertical] }),
    ...(look.underline === undefined ? {} : { ul: { s: flag(look.underline) } }),
    ...(look.strike === undefined ? {} : { st: { s: flag(look.strike) } }),
    ...(look.face === undefined ? {} : { ff: look.face }),
    ...(look.borders === undefined ? {} : { bd: borders(look.borders) }),
  };
}

const flag = (on: boolean): BooleanNumber => (on ? BooleanNumber.TRUE : BooleanNumber.FALSE);

function borders({ top, bottom, left, right }: NonNullable<CellLook['borders']>): IBorderData {
  const one = ({ line, color }: Border): IBorderStyleData => ({ s: LINES[line], cl: { rgb: color ?? '#000000' } });
  return {
    ...(top ? { t: one(top) } : {}),
    ...(bottom ? { b: one(bottom) } : {}),
    ...(left ? { l: one(left) } : {}),
    ...(right ? { r: one(right) } : {}),
  };
}

function columnData({
  widths = {},
  hiddenColumns = [],
}: SheetDescription): Record<number, { w?: number; hd?: BooleanNumber }> {
  const columns: Record<number, { w?: number; hd?: BooleanNumber }> = {};
  const each = (letters: string, put: (column: { w?: number; hd?: BooleanNumber }) => void): void => {
    const asked = letters.includes(':') ? letters : `${letters}:${letters}`;
    const { startColumn, endColumn } = deserializeRangeWithSheet(asked).range;
    for (let c = startColumn; c <= endColumn; c++) put((columns[c] ??= {}));
  };
  for (const [letters, w] of Object.entries(widths)) each(letters, (column) => (column.w = w));
  for (const letters of hiddenColumns) each(letters, (column) => (column.hd = BooleanNumber.TRUE));
  return columns;
}

function rowData({
  heights = {},
  hiddenRows = [],
}: SheetDescription): Record<number, { h?: number; ia?: BooleanNumber; hd?: BooleanNumber }> {
  const rows: Record<number, { h?: number; ia?: BooleanNumber; hd?: BooleanNumber }> = {};
  for (const [row, h] of Object.entries(heights)) rows[Number(row) - 1] = { h, ia: BooleanNumber.FALSE };
  for (const row of hiddenRows) rows[row - 1] = { ...rows[row - 1], hd: BooleanNumber.TRUE };
  return rows;
}
