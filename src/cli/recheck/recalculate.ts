import type { Cell, HostFunction } from '../../sheet/host-function.ts';
import { calculateWorkbook } from '../../engine/headless.ts';
import type { CalculatedWorkbook, CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { LAST_COLUMN, LAST_ROW } from '../../files/xlsx/address.ts';
import type { SavedCell, SavedSheet, SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import { asInTheHost } from '../../engine/as-in-the-host.ts';
import { FIT, fitFunction } from './fit.ts';
import { standingCells } from '../../files/xlsx/standing-cells.ts';
import type { PlannedFormula } from './plan.ts';
import type { FormulaReader } from '../../files/xlsx/stored-formula.ts';

/** Room below and beside what is filled, for results that spill farther than they did. */
const SPARE_ROWS = 2_000;
const SPARE_COLUMNS = 60;

/** Calculates the workbook anew with these functions. */
export function recalculate(
  workbook: SavedWorkbook,
  formulas: readonly PlannedFormula[],
  reader: FormulaReader,
  functions: readonly HostFunction[],
): Promise<CalculatedWorkbook> {
  const planned = new Map(formulas.map((f) => [f.cell, f]));
  const sheets = workbook.sheets.map((sheet, i) => described(sheet, reader.engineName(i), planned));
  return calculateWorkbook({ sheets }, [...functions.map(asInTheHost), fitFunction]);
}

function described(sheet: SavedSheet, name: string, planned: ReadonlyMap<SavedCell, PlannedFormula>): SheetDescription {
  const rows: CellContent[][] = [];
  let lastRow = 0;
  let lastColumn = 0;
  for (const cell of standingCells(sheet)) {
    const row = (rows[cell.row] ??= []);
    row[cell.column] = content(cell, planned.get(cell));
    const area = cell.formula?.area ?? { bottom: cell.row, right: cell.column };
    lastRow = Math.max(lastRow, cell.row, area.bottom);
    lastColumn = Math.max(lastColumn, cell.column, area.right);
  }
  for (const cell of keptSpills(sheet, planned)) (rows[cell.row] ??= [])[cell.column] = saved(cell.value);
  return {
    name,
    rows,
    size: [Math.min(LAST_ROW, lastRow + SPARE_ROWS) + 1, Math.min(LAST_COLUMN, lastColumn + SPARE_COLUMNS) + 1],
  };
}

/** What kept formulas show in other cells. */
function keptSpills(sheet: SavedSheet, planned: ReadonlyMap<SavedCell, PlannedFormula>): readonly SavedCell[] {
  const kept = sheet.cells.filter(
    (c) =>
      planned.get(c)?.kept !== undefined &&
      c.formula &&
      (c.formula.area.bottom > c.row || c.formula.area.right > c.column),
  );
  if (kept.length === 0) return [];
  const standing = new Set(standingCells(sheet));
  const areas = kept.map((c) => c.formula!.area);
  return sheet.cells.filter(
    (c) =>
      !standing.has(c) &&
      areas.some((a) => c.row >= a.top && c.row <= a.bottom && c.column >= a.left && c.column <= a.right),
  );
}

function content(cell: SavedCell, planned: PlannedFormula | undefined): CellContent {
  if (!planned || planned.kept !== undefined) return saved(cell.value);
  const { engine = '' } = planned.read;
  const { kind, area } = cell.formula!;
  // Only a spilling formula shows more than its own cell, or the area it was entered over.
  if (kind === 'dynamic' || (kind === 'plain' && !planned.ours)) return engine;
  return `=${FIT}(${engine.slice(1)},${area.bottom - area.top + 1},${area.right - area.left + 1})`;
}

/** A text stays a text, whatever it looks like. */
const saved = (value: Cell): CellContent => (typeof value === 'string' ? { text: value } : value);

/** What a formula gives: its own cell and what it shows in others, from its cell on. */
export function resultOf(
  calculated: CalculatedWorkbook,
  { sheet, cell }: PlannedFormula,
): readonly (readonly Cell[])[] {
  return calculated.spilledAt(sheet, cell.row, cell.column);
}
