import { BooleanNumber, CellValueType, HorizontalAlign, VerticalAlign, WrapStrategy } from '@univerjs/core';
import type {
  IBorderData,
  IBorderStyleData,
  ICellData,
  IColumnData,
  IRange,
  IRowData,
  IStyleData,
  IWorkbookData,
  Nullable,
  Worksheet,
} from '@univerjs/core';
import { isCellError } from '../catalogue/cell.ts';
import { addressOf, areaName, columnName } from '../files/xlsx/address.ts';
import { newWorkbook, type NewSheet, type NewWorkbook } from '../files/xlsx/new-workbook.ts';
import {
  BORDER_LINES,
  type Border,
  type CellContent,
  type CalculatedWorkbook,
  type CellLook,
  type SheetDescription,
} from '../sheet/described-workbook.ts';
import type { SheetCells } from './sheet-cells.ts';

/** What a file's sheet had that the page does not show and that goes into the file again, by the sheet's id. */
export type Carried = Readonly<Record<string, Pick<NewSheet, 'landscape' | 'printedHeading' | 'validations'>>>;

/** How a workbook is written: with its formulas, or with what they give in their place. */
export type Written = 'formulas' | 'values';

/** The workbook on show in words, with what its formulas give. */
export interface ShownWorkbook {
  readonly workbook: NewWorkbook;
  readonly results: Pick<CalculatedWorkbook, 'valueAt' | 'spilledAt'>;
}

/** The workbook on show as a file in the open format. */
export function writtenWorkbook(
  data: IWorkbookData,
  cells: SheetCells,
  title: string,
  carried: Carried,
  as: Written,
): Uint8Array {
  const { workbook, results } = shownWorkbook(data, cells, title, carried, as);
  return newWorkbook(workbook, results);
}

export function shownWorkbook(
  data: IWorkbookData,
  cells: SheetCells,
  title: string,
  carried: Carried,
  as: Written = 'formulas',
): ShownWorkbook {
  const sheets = shownSheets(cells);
  const described = sheets.map((sheet) => describedSheet(sheet, data, cells, carried[sheet.getSheetId()] ?? {}, as));
  const nth = (index: number): Worksheet => {
    const sheet = sheets[index];
    if (!sheet) throw new RangeError(`there is no sheet ${index}`);
    return sheet;
  };
  const valueAt = (index: number, row: number, column: number) => cells.valueAt(nth(index), row, column);
  return {
    workbook: { title, sheets: described, definedNames: definedNames(data) },
    results: {
      valueAt,
      spilledAt: (index, row, column) => {
        const range = cells.spillOf(nth(index), row, column) ?? {
          startRow: row,
          endRow: row,
          startColumn: column,
          endColumn: column,
        };
        return Array.from({ length: range.endRow - range.startRow + 1 }, (_, r) =>
          Array.from({ length: range.endColumn - range.startColumn + 1 }, (__, c) =>
            valueAt(index, row + r, column + c),
          ),
        );
      },
    },
  };
}

/** The values of one sheet as a text of comma-separated values. Source: RFC 4180. */
export function writtenCsv(sheet: Worksheet, cells: SheetCells): string {
  const { row, column } = cells.extent(sheet);
  const field = (r: number, c: number): string => {
    const value = cells.valueAt(sheet, r, c);
    const text =
      value === null
        ? ''
        : isCellError(value)
          ? value.error
          : typeof value === 'boolean'
            ? String(value).toUpperCase()
            : String(value);
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return Array.from(
    { length: row + 1 },
    (_, r) => `${Array.from({ length: column + 1 }, (__, c) => field(r, c)).join(',')}\r\n`,
  ).join('');
}

/** In the order of their tabs. */
export function shownSheets(cells: SheetCells): readonly Worksheet[] {
  return cells.workbook().getSheets();
}

function definedNames({ resources = [] }: IWorkbookData): Record<string, string> {
  const kept = resources.find(({ name }) => name === 'SHEET_DEFINED_NAME_PLUGIN')?.data ?? '';
  if (kept === '') return {};
  const names = Object.values(JSON.parse(kept) as Record<string, { name: string; formulaOrRefString: string }>);
  return Object.fromEntries(names.map(({ name, formulaOrRefString }) => [name, formulaOrRefString.replace(/^=/, '')]));
}

function describedSheet(
  sheet: Worksheet,
  data: IWorkbookData,
  cells: SheetCells,
  carried: Carried[string],
  as: Written,
): NewSheet {
  const snapshot = data.sheets[sheet.getSheetId()] ?? {};
  const looks: Record<string, CellLook> = {};
  const contents: Record<string, CellContent> = {};
  const put = (row: number, column: number, cell: Nullable<ICellData>): void => {
    const style = typeof cell?.s === 'string' ? data.styles[cell.s] : cell?.s;
    const look = style ? lookOf(style) : {};
    if (Object.keys(look).length > 0) looks[addressOf(row, column)] = look;
    const content = contentOf(sheet, row, column, cell, cells, as);
    if (content !== null) contents[addressOf(row, column)] = content;
  };
  sheet.getCellMatrix().forValue(put);
  if (as === 'values') {
    const { row, column } = cells.extent(sheet);
    for (let r = 0; r <= row; r++)
      for (let c = 0; c <= column; c++) {
        const value = cells.valueAt(sheet, r, c);
        if (value !== null) contents[addressOf(r, c)] = typeof value === 'string' ? { text: value } : value;
      }
  }
  return {
    name: sheet.getName(),
    cells: contents,
    looks,
    ...sizes(snapshot),
    merged: (snapshot.mergeData ?? []).map(nameOf),
    hidden: snapshot.hidden === BooleanNumber.TRUE,
    plain: 'singles',
    ...carried,
  };
}

function contentOf(
  sheet: Worksheet,
  row: number,
  column: number,
  cell: Nullable<ICellData>,
  cells: SheetCells,
  as: Written,
): CellContent {
  const formula = cells.formulaAt(sheet, row, column);
  if (formula !== '') return as === 'formulas' ? formula : null;
  if (cell?.p) return { text: (cell.p.body?.dataStream ?? '').replace(/\r\n$|[\r\n]+$/, '').replaceAll('\r', '\n') };
  if (cell?.v === undefined || cell.v === null || cell.v === '') return null;
  if (
    cell.t === CellValueType.FORCE_STRING ||
    (cell.t === CellValueType.STRING && typeof cell.v === 'string' && !cell.custom)
  )
    return { text: String(cell.v) };
  const value = cells.valueAt(sheet, row, column);
  return typeof value === 'string' ? { text: value } : value;
}

function sizes({
  columnData = {},
  rowData = {},
  freeze,
}: NonNullable<IWorkbookData['sheets'][string]>): Pick<
  SheetDescription,
  'widths' | 'heights' | 'hiddenRows' | 'hiddenColumns' | 'frozenRows' | 'frozenColumns'
> {
  const widths: Record<string, number> = {};
  const heights: Record<number, number> = {};
  const hiddenRows: number[] = [];
  const hiddenColumns: string[] = [];
  for (const [column, { w, hd } = {}] of Object.entries(columnData as Record<string, Partial<IColumnData>>)) {
    if (w !== undefined) widths[columnName(Number(column))] = Math.round(w);
    if (hd === BooleanNumber.TRUE) hiddenColumns.push(columnName(Number(column)));
  }
  for (const [row, { h, ia, hd } = {}] of Object.entries(rowData as Record<string, Partial<IRowData>>)) {
    if (h !== undefined && ia === BooleanNumber.FALSE) heights[Number(row) + 1] = Math.round(h);
    if (hd === BooleanNumber.TRUE) hiddenRows.push(Number(row) + 1);
  }
  return {
    widths,
    heights,
    hiddenRows,
    hiddenColumns,
    frozenRows: freeze?.ySplit ?? 0,
    frozenColumns: freeze?.xSplit ?? 0,
  };
}

const nameOf = ({ startRow, startColumn, endRow, endColumn }: IRange): string =>
  areaName({ top: startRow, left: startColumn, bottom: endRow, right: endColumn });

const ALIGN: Readonly<Partial<Record<HorizontalAlign, CellLook['align']>>> = {
  [HorizontalAlign.LEFT]: 'left',
  [HorizontalAlign.CENTER]: 'center',
  [HorizontalAlign.RIGHT]: 'right',
};
const VERTICAL: Readonly<Partial<Record<VerticalAlign, CellLook['vertical']>>> = {
  [VerticalAlign.TOP]: 'top',
  [VerticalAlign.MIDDLE]: 'center',
  [VerticalAlign.BOTTOM]: 'bottom',
};

function lookOf(style: IStyleData): CellLook {
  const { bl, it, fs, cl, bg, n, tb, ht, vt, ul, st, ff, bd } = style;
  const color = hex(cl?.rgb);
  const background = hex(bg?.rgb);
  const borders = bd ? bordersOf(bd) : {};
  const align = ht ? ALIGN[ht] : undefined;
  const vertical = vt ? VERTICAL[vt] : undefined;
  const wrap = tb === WrapStrategy.WRAP;
  return {
    ...(bl === BooleanNumber.TRUE ? { bold: true } : {}),
    ...(it === BooleanNumber.TRUE ? { italic: true } : {}),
    ...(ul?.s === BooleanNumber.TRUE ? { underline: true } : {}),
    ...(st?.s === BooleanNumber.TRUE ? { strike: true } : {}),
    ...(fs === undefined ? {} : { size: fs }),
    ...(ff ? { face: ff } : {}),
    ...(color === undefined ? {} : { color }),
    ...(background === undefined ? {} : { background }),
    ...(n?.pattern === undefined || n.pattern === '' || n.pattern === 'General' ? {} : { format: n.pattern }),
    ...(wrap ? { wrap } : {}),
    ...(align === undefined ? {} : { align }),
    ...(vertical === undefined || (wrap && vertical === 'top') ? {} : { vertical }),
    ...(Object.keys(borders).length > 0 ? { borders } : {}),
  };
}

function bordersOf({ t, b, l, r }: IBorderData): NonNullable<CellLook['borders']> {
  const one = (border: Nullable<IBorderStyleData>): Border | undefined => {
    const line = border ? BORDER_LINES[border.s - 1] : undefined;
    if (line === undefined) return undefined;
    const color = hex(border?.cl.rgb);
    return color === undefined || color === '#000000' ? { line } : { line, color };
  };
  const sides = { top: one(t), bottom: one(b), left: one(l), right: one(r) };
  return Object.fromEntries(Object.entries(sides).filter(([, border]) => border !== undefined));
}

/** `#rrggbb` of a colour in any writing of style sheets. */
function hex(colour: Nullable<string>): string | undefined {
  if (!colour) return undefined;
  if (/^#[0-9a-f]{6}$/i.test(colour)) return colour.toLowerCase();
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(colour);
  if (short)
    return `#${short
      .slice(1)
      .map((d) => d + d)
      .join('')}`.toLowerCase();
  const parts = /^rgba?\(\s*(\d+)[\s,]+(\d+)[\s,]+(\d+)/i.exec(colour);
  return parts
    ? `#${parts
        .slice(1)
        .map((d) => Number(d).toString(16).padStart(2, '0'))
        .join('')}`
    : undefined;
}
