/// <reference types="office-js" />
/** The pane's port on the spreadsheet host's own interface. */
import { toCol } from '@borgar/fx';
import type { Cell } from '../catalogue/cell.ts';
import type { SelectedCell, SheetPort, WrittenCell } from '../pane/port.ts';
import type { Entered, FormulaCell } from '../pane/unknown-name.ts';
import { findReference } from './office-reference.ts';
import type { Shown } from './shown.ts';
import { writtenCell } from './written-cell.ts';

/** What the port asks of the host; `Excel.run` in the host, a fake in tests. */
export type Run = <T>(batch: (context: Excel.RequestContext) => Promise<T>) => Promise<T>;

const ALWAYS: Shown = { wait: () => Promise.resolve() };

export function officePort(run: Run, shown: Shown = ALWAYS): SheetPort {
  return {
    onSelection: (listener) => follow(run, shown, listener),
    read: (reference, sheet, address) =>
      run(async (context) => {
        const found = await findReference(context, reference, { sheet, address });
        if ('value' in found) return [[toCell(found.value, '')]];
        found.range.load('values,valueTypes');
        await context.sync();
        return cellsOf(found.range);
      }),
    formulas: { all: () => run(allFormulas), enter: (cells) => enter(run, cells) },
    goTo: (sheet, address) =>
      run(async (context) => {
        const worksheet = context.workbook.worksheets.getItem(sheet);
        worksheet.activate();
        worksheet.getRange(address).select();
        await context.sync();
      }),
    write: (sheet, cells) => run((context) => write(context, sheet, cells)),
    putFormula: (formula) =>
      run(async (context) => {
        context.workbook.getActiveCell().formulas = [[formula]];
        await context.sync();
      }),
    addSheet: (name, rows) => run((context) => addSheet(context, name, rows)),
    looker: () => import(/* webpackChunkName: 'check' */ '../pane/workbook/look.ts'),
    beginJob: async (kind) => {
      const { addWorkbook, jobOfKind } = await import(/* webpackChunkName: 'job' */ './job-script.ts');
      return run((context) => addWorkbook(context, jobOfKind(kind)));
    },
    format: async (table) => {
      const { formatTable } = await import(/* webpackChunkName: 'job' */ './job-script.ts');
      return run((context) => formatTable(context, table));
    },
  };
}

/** Reads the selected cell now and after each event; events that come while it is read, or while the pane is hidden, lead to one more reading. */
function follow(run: Run, shown: Shown, listener: (cell: SelectedCell | undefined) => void): () => void {
  let stopped = false;
  let reading = false;
  let again = false;
  let last: SelectedCell | undefined;
  const refresh = async (): Promise<void> => {
    again = true;
    if (reading) return;
    reading = true;
    while (again) {
      await shown.wait();
      again = false;
      // The host refuses while a cell is being edited; the end of the edit is an event of its own.
      last = await run(selectedCell).catch(() => last);
      if (!stopped) listener(last);
    }
    reading = false;
  };
  const handlers = run(async (context) => {
    const { workbook } = context;
    const { worksheets } = workbook;
    const added = [
      workbook.onSelectionChanged.add(refresh),
      worksheets.onActivated.add(refresh),
      worksheets.onCalculated.add(refresh),
      worksheets.onChanged.add(refresh),
    ];
    await context.sync();
    return added;
  });
  void handlers.catch(() => undefined).then(refresh);
  return () => {
    stopped = true;
    void handlers
      .then((added) => {
        for (const handler of added) handler.remove();
        return added[0]?.context.sync(); // handlers are removed in the context that added them
      })
      .catch(() => undefined);
  };
}

async function selectedCell(context: Excel.RequestContext): Promise<SelectedCell> {
  const cell = context.workbook.getActiveCell();
  const parent = cell.getSpillParentOrNullObject();
  cell.load('address,formulas,values,valueTypes,rowIndex,columnIndex');
  cell.worksheet.load('name');
  parent.load('address,formulas,rowIndex,columnIndex');
  await context.sync();
  const value = cellsOf(cell)[0]?.[0] ?? null;
  const common = { sheet: cell.worksheet.name, address: local(cell.address), value };
  if (parent.isNullObject || parent.address === cell.address) return { ...common, formula: formulaOf(cell) };
  const spill = {
    from: local(parent.address),
    formula: formulaOf(parent),
    row: cell.rowIndex - parent.rowIndex,
    column: cell.columnIndex - parent.columnIndex,
  };
  return { ...common, formula: '', spill };
}

function formulaOf(range: Excel.Range): string {
  const [[formula = ''] = []] = range.formulas as readonly (readonly unknown[])[];
  return typeof formula === 'string' && formula.startsWith('=') ? formula : '';
}

const local = (address: string): string => address.slice(address.lastIndexOf('!') + 1);

function cellsOf(range: Excel.Range): readonly (readonly Cell[])[] {
  const values = range.values as readonly (readonly unknown[])[];
  return values.map((row, r) => row.map((value, c) => toCell(value, range.valueTypes[r]?.[c] ?? '')));
}

function toCell(value: unknown, type: string): Cell {
  if (typeof value === 'number' || typeof value === 'boolean') return value;
  if (typeof value !== 'string' || value === '') return null;
  return type === 'Error' ? { error: value, message: '' } : value;
}

/** Cells in one request; the host refuses an answer over 5 MB. */
const CELLS_AT_ONCE = 20_000;

async function allFormulas(context: Excel.RequestContext): Promise<readonly FormulaCell[]> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const used = worksheets.items.map((sheet) => ({ sheet, range: sheet.getUsedRangeOrNullObject() }));
  for (const { range } of used) range.load('rowIndex,columnIndex,rowCount,columnCount');
  await context.sync();
  const found: FormulaCell[] = [];
  for (const { sheet, range } of used) {
    if (range.isNullObject) continue;
    const { rowIndex, columnIndex, rowCount, columnCount } = range;
    const step = Math.max(1, Math.floor(CELLS_AT_ONCE / columnCount));
    for (let row = 0; row < rowCount; row += step) {
      const part = sheet.getRangeByIndexes(rowIndex + row, columnIndex, Math.min(step, rowCount - row), columnCount);
      part.load('formulas,values,valueTypes');
      await context.sync();
      found.push(...formulasIn(part, sheet.name, rowIndex + row, columnIndex));
    }
  }
  return found;
}

function formulasIn(part: Excel.Range, sheet: string, top: number, left: number): readonly FormulaCell[] {
  const values = cellsOf(part);
  return (part.formulas as readonly (readonly unknown[])[]).flatMap((row, r) =>
    row.flatMap((formula, c): readonly FormulaCell[] => {
      if (typeof formula !== 'string' || !formula.startsWith('=')) return [];
      return [{ sheet, address: `${toCol(left + c)}${top + r + 1}`, formula, value: values[r]?.[c] ?? null }];
    }),
  );
}

/** One cell at a time, so that one that refuses, as on a protected sheet, keeps no other from it. */
async function enter(run: Run, cells: readonly FormulaCell[]): Promise<Entered> {
  const failed: Entered['failed'][number][] = [];
  for (const cell of cells) {
    try {
      await run(async (context) => {
        const range = context.workbook.worksheets.getItem(cell.sheet).getRange(cell.address);
        range.formulas = [[cell.formula]];
        await context.sync();
      });
    } catch (e) {
      failed.push({ cell, reason: e instanceof Error ? e.message : String(e) });
    }
  }
  return { done: cells.length - failed.length, failed };
}

/** All or none: what a formula gives is not written over. */
async function write(context: Excel.RequestContext, name: string, cells: readonly WrittenCell[]): Promise<void> {
  const sheet = context.workbook.worksheets.getItem(name);
  const ranges = cells.map(({ address }) => {
    const range = sheet.getRange(address);
    const spilled = range.getSpillParentOrNullObject();
    range.load('formulas');
    spilled.load('address');
    return { range, spilled, address };
  });
  await context.sync();
  const taken = ranges.find(({ range, spilled }) => formulaOf(range) !== '' || !spilled.isNullObject);
  if (taken) throw new Error(`${name} ${taken.address} is filled by a formula`);
  ranges.forEach(({ range }, i) => {
    range.values = [[writtenCell(cells[i]?.value ?? null)]];
  });
  await context.sync();
}

async function addSheet(
  context: Excel.RequestContext,
  wanted: string,
  rows: readonly (readonly Cell[])[],
): Promise<string> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const taken = new Set(worksheets.items.map((each) => each.name.toLowerCase()));
  let name = wanted;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${wanted} ${n}`;
  const sheet = worksheets.add(name);
  const range = sheet.getRangeByIndexes(0, 0, rows.length, rows[0]?.length ?? 0);
  range.values = rows.map((row) => row.map(writtenCell)) as unknown[][];
  range.getRow(0).format.font.bold = true;
  range.format.autofitColumns();
  sheet.freezePanes.freezeRows(1);
  sheet.activate();
  await context.sync();
  return name;
}
