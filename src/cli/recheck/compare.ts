import { isBlankCell, isCellError } from '../../catalogue/cell.ts';
import type { Cell } from '../../sheet/host-function.ts';
import { isSame } from '../../sheet/same-value.ts';
import { isWithin } from '../../files/xlsx/address.ts';
import type { SavedCell, SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import type { PlannedFormula } from './plan.ts';
import { keyOf } from './readers.ts';
import type { Results } from './run.ts';

/** One cell before and after. */
export interface Compared {
  readonly formula: PlannedFormula;
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly before: Cell;
  readonly after: Cell;
  /** `kept` where the engine here does not calculate it as the host does. */
  readonly status: 'same' | 'moved' | 'broken' | 'kept';
}

/** Compares what each formula shows with what is saved, cell by cell. */
export function compare(
  workbook: SavedWorkbook,
  formulas: readonly PlannedFormula[],
  results: Results,
): readonly Compared[] {
  const saved = new Map(
    workbook.sheets.flatMap((s, i) => s.cells.map((c): [string, SavedCell] => [keyOf(i, c.row, c.column), c])),
  );
  const spilled = spilledCells(workbook, formulas);
  return formulas.flatMap((f) => compareFormula(f, results, saved, spilled.get(f) ?? []));
}

function compareFormula(
  f: PlannedFormula,
  results: Results,
  saved: ReadonlyMap<string, SavedCell>,
  spilled: readonly SavedCell[],
): readonly Compared[] {
  const { sheet, cell, read } = f;
  const own = { formula: f, sheet, row: cell.row, column: cell.column, before: cell.value };
  if (f.kept !== undefined)
    return f.ours
      ? [{ ...own, after: { error: '', message: f.kept }, status: read.problem === undefined ? 'kept' : 'broken' }]
      : [];
  const result = results.get(f) ?? [];
  const first = result[0]?.[0] ?? null;
  // A formula that fails as a whole is told once, not for every cell it used to fill.
  if (result.length <= 1 && (result[0]?.length ?? 0) <= 1 && isCellError(first))
    return [{ ...own, after: first, status: statusOf(cell.value, first, f) }];
  const found: Compared[] = [];
  result.forEach((values, r) =>
    values.forEach((after, c) => {
      const row = cell.row + r;
      const column = cell.column + c;
      const before = saved.get(keyOf(sheet, row, column))?.value ?? null;
      found.push({ formula: f, sheet, row, column, before, after, status: statusOf(before, after, f) });
    }),
  );
  for (const { row, column, value } of spilled) {
    if (row - cell.row < result.length && column - cell.column < (result[0]?.length ?? 0)) continue;
    if (!isBlankCell(value))
      found.push({ formula: f, sheet, row, column, before: value, after: null, status: 'moved' });
  }
  return found;
}

function statusOf(before: Cell, after: Cell, { ours }: PlannedFormula): Compared['status'] {
  if (isSame(before, after)) return 'same';
  // A reference to a blank cell shows as 0 in the host.
  if (!ours && before === 0 && isBlankCell(after)) return 'same';
  return isCellError(after) ? 'broken' : 'moved';
}

/** Saved cells that show a result of a formula standing elsewhere. */
function spilledCells(
  workbook: SavedWorkbook,
  formulas: readonly PlannedFormula[],
): ReadonlyMap<PlannedFormula, readonly SavedCell[]> {
  const found = new Map<PlannedFormula, SavedCell[]>();
  workbook.sheets.forEach(({ cells }, i) => {
    const large = formulas.filter(
      ({ sheet, cell: { formula: f } }) =>
        sheet === i && f && (f.area.bottom > f.area.top || f.area.right > f.area.left),
    );
    if (large.length === 0) return;
    for (const cell of cells) {
      if (cell.formula) continue;
      const over = large.find((f) => isWithin(f.cell.formula!.area, cell.row, cell.column));
      if (!over) continue;
      const list = found.get(over);
      if (list) list.push(cell);
      else found.set(over, [cell]);
    }
  });
  return found;
}
