import { areaName } from '../files/xlsx/address.ts';
import type { FormulaAt, LookedAt } from './looked-at.ts';

/** How many formulas a result is followed through. */
const MOST_ROUNDS = 8;

/** Formulas that have to do with ours: ours, what they are calculated from, and what is calculated from them. */
export function tiedFormulas(look: LookedAt): ReadonlySet<FormulaAt> {
  const ours = look.formulas.filter((f) => f.ours);
  const tied = new Set(ours);
  if (ours.length === 0) return tied;
  const others = look.formulas.filter((f) => !f.ours);
  const filled = new Filled();
  for (const f of ours) filled.add(f);
  for (let round = 0, open = others; round < MOST_ROUNDS; round++) {
    const next = open.filter((f) => areasOf(look, f).some(({ sheet, area }) => filled.meets(sheet, area)));
    if (next.length === 0) break;
    for (const f of next) {
      tied.add(f);
      filled.add(f);
    }
    open = open.filter((f) => !tied.has(f));
  }
  // What else is calculated from the cells that ours read: their sum, another unit of them.
  const inputs = new Filled();
  const noted = new Set<string>();
  for (const f of ours)
    for (const { sheet, area } of areasOf(look, f)) {
      const key = `${sheet}|${areaName(area)}`;
      if (noted.has(key)) continue;
      noted.add(key);
      inputs.add({ ...f, sheet, row: area.top, column: area.left, area });
    }
  for (const f of others) if (areasOf(look, f).some(({ sheet, area }) => inputs.meets(sheet, area))) tied.add(f);
  // What ours read, one formula deep: a size that is calculated from another unit.
  const read = new Filled();
  for (const f of others) read.add(f);
  for (const f of ours)
    for (const { sheet, area } of areasOf(look, f)) for (const cell of read.within(sheet, area)) tied.add(cell);
  return tied;
}

function areasOf(
  look: LookedAt,
  f: FormulaAt,
): readonly { readonly sheet: number; readonly area: FormulaAt['area'] }[] {
  return f.read.slots.flatMap(({ reference }) => {
    const sheet = reference && look.sheetOf(reference, f);
    return reference && sheet !== undefined ? [{ sheet, area: reference.area }] : [];
  });
}

/** Cells that are filled by formulas, column by column. */
class Filled {
  /** By sheet and column; sorted by row before it is looked into. */
  private readonly columns = new Map<number, Map<number, { readonly cells: FormulaAt[]; sorted: boolean }>>();
  private readonly spills: FormulaAt[] = [];

  add(f: FormulaAt): void {
    if (f.area.bottom > f.area.top || f.area.right > f.area.left) this.spills.push(f);
    const sheet = this.columns.get(f.sheet) ?? new Map<number, { readonly cells: FormulaAt[]; sorted: boolean }>();
    this.columns.set(f.sheet, sheet);
    const column = sheet.get(f.column) ?? { cells: [], sorted: false };
    sheet.set(f.column, column);
    column.cells.push(f);
    column.sorted = false;
  }

  meets(sheet: number, area: FormulaAt['area']): boolean {
    const { top, left, bottom, right } = area;
    return (
      this.within(sheet, area, true).length > 0 ||
      this.spills.some(
        (f) =>
          f.sheet === sheet &&
          f.area.top <= bottom &&
          f.area.bottom >= top &&
          f.area.left <= right &&
          f.area.right >= left,
      )
    );
  }

  within(sheet: number, { top, left, bottom, right }: FormulaAt['area'], first = false): readonly FormulaAt[] {
    const found: FormulaAt[] = [];
    for (const [at, column] of this.columns.get(sheet) ?? []) {
      if (at < left || at > right) continue;
      if (!column.sorted) column.cells.sort((x, y) => x.row - y.row);
      column.sorted = true;
      for (let i = firstFrom(column.cells, top); i < column.cells.length && column.cells[i]!.row <= bottom; i++) {
        found.push(column.cells[i]!);
        if (first) return found;
      }
    }
    return found;
  }
}

/** The place of the first cell in a row or below it. */
function firstFrom(cells: readonly FormulaAt[], row: number): number {
  let [low, high] = [0, cells.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (cells[middle]!.row < row) low = middle + 1;
    else high = middle;
  }
  return low;
}
