/// <reference types="office-js" />
import { parseA1Ref, parseStructRef, type RangeA1, type ReferenceStruct } from '@borgar/fx';

/** Where a reference stands, and so what `A5` without a sheet and `[@length]` mean. */
export interface Place {
  readonly sheet: string;
  readonly address: string;
}

/** A range of the sheet, or the value of a name that stands for one. */
export type Found = { readonly range: Excel.Range } | { readonly value: unknown };

/** Finds what a reference of a formula points to. Loads nothing of it; throws with a reason in plain words. */
export async function findReference(context: Excel.RequestContext, reference: string, place: Place): Promise<Found> {
  const { workbook } = context;
  const part = reference.includes('[') ? parseStructRef(reference) : undefined;
  if (part) return { range: await tablePart(context, part, place) };
  const spilt = reference.endsWith('#');
  const parsed = parseA1Ref(spilt ? reference.slice(0, -1) : reference);
  if (!parsed) throw new Error('it is not a reference the pane knows');
  const [first = place.sheet, ...more] = parsed.context ?? [];
  if (more.length > 0) throw new Error('it is in another workbook');
  if (first.includes(':')) throw new Error('it runs through several sheets');
  if ('name' in parsed) return named(context, parsed.name, first, spilt);
  const sheet = workbook.worksheets.getItemOrNullObject(first);
  await context.sync();
  if (sheet.isNullObject) throw new Error(`there is no sheet ${first}`);
  if (isOpen(parsed.range)) return { range: await filledPart(context, sheet, parsed.range) };
  const range = sheet.getRange(withoutSheet(spilt ? reference.slice(0, -1) : reference));
  return { range: spilt ? await spillOf(context, range) : range };
}

async function named(context: Excel.RequestContext, name: string, sheet: string, spilt: boolean): Promise<Found> {
  const { workbook } = context;
  const ofSheet = workbook.worksheets.getItem(sheet).names.getItemOrNullObject(name);
  const ofBook = workbook.names.getItemOrNullObject(name);
  const table = workbook.tables.getItemOrNullObject(name);
  ofSheet.load('type,value');
  ofBook.load('type,value');
  await context.sync();
  const item = ofSheet.isNullObject ? ofBook : ofSheet;
  if (!item.isNullObject) {
    if (item.type !== 'Range') return { value: item.value as unknown };
    const range = item.getRange();
    return { range: spilt ? await spillOf(context, range) : range };
  }
  if (table.isNullObject) throw new Error('there is no such name in the workbook');
  return { range: table.getDataBodyRange() };
}

async function spillOf(context: Excel.RequestContext, anchor: Excel.Range): Promise<Excel.Range> {
  const range = anchor.getSpillingToRangeOrNullObject();
  await context.sync();
  if (range.isNullObject) throw new Error('nothing spills from there');
  return range;
}

const isOpen = ({ top, bottom, left, right }: RangeA1): boolean =>
  [top, bottom, left, right].some((edge) => edge === null || edge === undefined);

/** Whole columns and rows end with the last filled cell of the workbook, the same for all, so that they still fit one another. */
async function filledPart(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  { top, bottom, left, right }: RangeA1,
): Promise<Excel.Range> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const used = worksheets.items.map((each) => each.getUsedRangeOrNullObject(true));
  for (const range of used) range.load('rowIndex,rowCount,columnIndex,columnCount');
  await context.sync();
  const filled = used.filter((range) => !range.isNullObject);
  const lastRow = Math.max(0, ...filled.map((range) => range.rowIndex + range.rowCount - 1));
  const lastColumn = Math.max(0, ...filled.map((range) => range.columnIndex + range.columnCount - 1));
  const [r, c] = [top ?? 0, left ?? 0];
  return sheet.getRangeByIndexes(
    r,
    c,
    Math.max(bottom ?? lastRow, r) - r + 1,
    Math.max(right ?? lastColumn, c) - c + 1,
  );
}

async function tablePart(
  context: Excel.RequestContext,
  part: ReferenceStruct,
  { sheet, address }: Place,
): Promise<Excel.Range> {
  const { workbook } = context;
  const cell = workbook.worksheets.getItem(sheet).getRange(address);
  const table = part.table ? workbook.tables.getItemOrNullObject(part.table) : await tableRound(context, cell);
  await context.sync();
  if (!table || table.isNullObject)
    throw new Error(part.table ? `there is no table ${part.table}` : 'its formula is not in a table');
  const [first, last = first] = part.columns ?? [];
  const between = (pick: (column: Excel.TableColumn) => Excel.Range): Excel.Range | undefined =>
    first === undefined || last === undefined
      ? undefined
      : pick(table.columns.getItem(first)).getBoundingRect(pick(table.columns.getItem(last)));
  const sections = (part.sections ?? []).map((s) => s.toLowerCase());
  if (sections.includes('all')) return between((c) => c.getRange()) ?? table.getRange();
  if (sections.includes('this row'))
    return (between((c) => c.getDataBodyRange()) ?? table.getDataBodyRange()).getIntersection(cell.getEntireRow());
  if (sections.includes('headers') && !sections.includes('data'))
    return between((c) => c.getHeaderRowRange()) ?? table.getHeaderRowRange();
  if (sections.some((s) => s !== 'data')) throw new Error('the pane does not read this part of a table');
  return between((c) => c.getDataBodyRange()) ?? table.getDataBodyRange();
}

async function tableRound(context: Excel.RequestContext, cell: Excel.Range): Promise<Excel.Table | undefined> {
  const tables = cell.getTables(false);
  tables.load('items/name');
  await context.sync();
  return tables.items[0];
}

/** The address alone; a sheet's name may hold an exclamation mark itself. */
function withoutSheet(reference: string): string {
  return reference.slice(reference.lastIndexOf('!') + 1);
}
