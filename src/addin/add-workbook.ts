/// <reference types="office-js" />
import { addressOf, readAddress } from '../files/xlsx/address.ts';
import { withFreeNames } from '../files/template/free-names.ts';
import type { NewSheet, NewWorkbook, Validation } from '../files/xlsx/new-workbook.ts';
import type { Added } from '../pane/port.ts';
import type { CellContent } from '../sheet/described-workbook.ts';
import { POINTS_A_PIXEL, setColours, setLook } from './set-look.ts';
import { writtenCell } from './written-cell.ts';

/** Adds the sheets and names of a workbook to the one that is open; takes them away again where the host refuses a part. */
export async function addWorkbook(context: Excel.RequestContext, workbook: NewWorkbook): Promise<Added> {
  const { worksheets, names, tables } = context.workbook;
  for (const all of [worksheets, names, tables]) all.load('items/name');
  await context.sync();
  const free = withFreeNames(workbook, {
    sheets: worksheets.items.map(({ name }) => name),
    names: [...names.items, ...tables.items].map(({ name }) => name),
  });
  const defined = Object.entries(free.definedNames ?? {});
  try {
    // All of them before any formula: the host looks for a file where a formula names a sheet that is not there.
    for (const { name } of free.sheets) worksheets.add(name);
    for (const [name, meaning] of defined) names.add(name, `=${meaning}`);
    await context.sync();
    const sheets = free.sheets.map(({ name }) => worksheets.getItem(name));
    for (const [i, sheet] of sheets.entries()) {
      fill(sheet, free.sheets[i]!);
      await context.sync();
    }
    await calculated(context);
    for (const [i, sheet] of sheets.entries()) {
      fitRows(sheet, free.sheets[i]!);
      if (free.sheets[i]!.protected) sheet.protection.protect({ allowFormatColumns: true, allowFormatRows: true });
    }
    sheets[0]?.activate();
    await context.sync();
  } catch (e) {
    await takeAway(context, free).catch(() => undefined);
    throw e;
  }
  return {
    sheets: free.sheets.filter(({ hidden }) => !hidden).map(({ name }) => name),
    names: defined.map(([n]) => n),
  };
}

/** Found by their names again: what was asked for in a refused request may not be there. */
async function takeAway(context: Excel.RequestContext, { sheets, definedNames = {} }: NewWorkbook): Promise<void> {
  const { worksheets, names } = context.workbook;
  const added = sheets.map(({ name }) => worksheets.getItemOrNullObject(name));
  const named = Object.keys(definedNames).map((name) => names.getItemOrNullObject(name));
  for (const each of [...added, ...named]) each.load('name');
  await context.sync();
  for (const each of [...named, ...added]) if (!each.isNullObject) each.delete();
  await context.sync();
}

function fill(sheet: Excel.Worksheet, described: NewSheet): void {
  const cells = matrixOf(described);
  if (cells.length > 0) sheet.getRangeByIndexes(0, 0, cells.length, cells[0]!.length).formulas = cells as unknown[][];
  for (const [range, look] of Object.entries(described.looks ?? {})) setLook(sheet.getRange(range), look);
  for (const [letters, px] of Object.entries(described.widths ?? {}))
    sheet.getRange(letters.includes(':') ? letters : `${letters}:${letters}`).format.columnWidth = px * POINTS_A_PIXEL;
  for (const [range, rule] of Object.entries(described.validations ?? {})) validate(sheet.getRange(range), rule);
  for (const { range, formula, look } of described.conditions ?? []) {
    const { rule, format } = sheet.getRange(range).conditionalFormats.add('Custom').custom;
    rule.formula = `=${formula}`;
    setColours(format, look);
  }
  const { frozenRows = 0, frozenColumns = 0, landscape, printedHeading, hidden } = described;
  if (frozenRows > 0 && frozenColumns > 0)
    sheet.freezePanes.freezeAt(sheet.getRange(`A1:${addressOf(frozenRows - 1, frozenColumns - 1)}`));
  else if (frozenRows > 0) sheet.freezePanes.freezeRows(frozenRows);
  else if (frozenColumns > 0) sheet.freezePanes.freezeColumns(frozenColumns);
  if (landscape) {
    sheet.pageLayout.orientation = 'Landscape';
    sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
  }
  if (printedHeading !== undefined) sheet.pageLayout.setPrintTitleRows(`$1:$${printedHeading}`);
  if (hidden) sheet.visibility = 'Hidden';
}

/** What stands in the cells, row by row from A1, as the host takes what is typed. */
function matrixOf({ rows = [], cells = {} }: NewSheet): readonly (readonly (string | number | boolean)[])[] {
  const placed = Object.entries(cells).flatMap(([at, content]) => {
    const found = readAddress(at);
    return found ? [{ ...found, content }] : [];
  });
  const height = Math.max(rows.length, ...placed.map(({ row }) => row + 1));
  const width = Math.max(0, ...rows.map((row) => row.length), ...placed.map(({ column }) => column + 1));
  if (width === 0) return [];
  const matrix = Array.from({ length: height }, (_, r) =>
    Array.from({ length: width }, (__, c) => typed(rows[r]?.[c] ?? null)),
  );
  for (const { row, column, content } of placed) matrix[row]![column] = typed(content);
  return matrix;
}

function typed(content: CellContent): string | number | boolean {
  if (typeof content === 'object' && content !== null && 'text' in content) return writtenCell(content.text);
  return typeof content === 'string' && content.startsWith('=') ? content : writtenCell(content);
}

function validate({ dataValidation }: Excel.Range, { list, from, message }: Validation): void {
  dataValidation.rule =
    list || from !== undefined
      ? { list: { inCellDropDown: true, source: from === undefined ? (list?.join(',') ?? '') : `=${from}` } }
      : { decimal: { formula1: 0, operator: 'GreaterThan' } };
  dataValidation.errorAlert = { message, showAlert: true, style: 'Warning', title: 'Rodsheet' };
}

/** How often the host is asked whether it has calculated, and how long it is left alone in between [ms]. */
const ASKED = 40;
const PAUSE = 250;

/** Rows can be fitted to their texts only once those are there. */
async function calculated(context: Excel.RequestContext): Promise<void> {
  const { application } = context.workbook;
  for (let asked = 0; asked < ASKED; asked++) {
    application.load('calculationState');
    await context.sync();
    if (application.calculationState === 'Done') return;
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
}

function fitRows(sheet: Excel.Worksheet, { looks = {}, heights = {} }: NewSheet): void {
  for (const [range, { wrap }] of Object.entries(looks)) {
    if (wrap) sheet.getRange(range).format.autofitRows();
  }
  for (const [row, px] of Object.entries(heights))
    sheet.getRange(`${row}:${row}`).format.rowHeight = px * POINTS_A_PIXEL;
}
