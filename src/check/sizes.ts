import { isCellError } from '../catalogue/cell.ts';
import type { Cell } from '../sheet/host-function.ts';
import { argumentsOf, type FormulaAt, type LookedAt } from './looked-at.ts';
import type { Reference } from '../formula/read-formula.ts';

/** Whether a cell may hold a size: a number above 0, or a text such as `4-1/2` or `90 mm`. */
export const isSizeLike = (cell: Cell): boolean =>
  (typeof cell === 'number' && cell > 0) || (typeof cell === 'string' && /^\s*[Øø⌀]?\s*[\d.½¼¾⅛⅜⅝⅞⅓⅔]/.test(cell));

const TOTAL = /^\s*(sub-?\s*)?totals?\b|^\s*(in all|all|sum|altogether|grand total|overall|together)\b/i;

/** Whether a row tells a sum of those above it. */
export const isTotalRow = (look: LookedAt, sheet: number, row: number): boolean =>
  look.textsOfRow(sheet, row).some((text) => TOTAL.test(text));

/** A reference in an argument that must be there and holds a size or another figure. */
export interface SizeReference {
  readonly call: number;
  readonly name: string;
  readonly slot: number;
  readonly reference: Reference;
  readonly sheet: number;
}

/** The references of a formula's calls to the figures that they must have. */
export function sizeReferences(look: LookedAt, f: FormulaAt): readonly SizeReference[] {
  return f.read.calls.flatMap((call, k) =>
    argumentsOf(call, f.read).flatMap(({ name, parameter, argument, slot }): readonly SizeReference[] => {
      const reference = slot?.reference;
      if (argument.kind !== 'slot' || !reference || reference.whole) return [];
      if (!parameter || parameter.optional || parameter.kind.kind !== 'quantity') return [];
      const sheet = look.sheetOf(reference, f);
      return sheet === undefined ? [] : [{ call: k, name, slot: argument.slot, reference, sheet }];
    }),
  );
}

/** Rows, by sheet, that our functions read sizes of: the items of the workbook. */
export function itemRows(look: LookedAt): ReadonlySet<string> {
  const rows = new Set<string>();
  for (const f of look.formulas) {
    if (!f.ours) continue;
    for (const { reference, sheet } of sizeReferences(look, f)) {
      const { top, bottom, left } = reference.area;
      if (bottom - top > MOST_ROWS) continue;
      for (let row = top; row <= bottom; row++)
        if (isSizeLike(look.value(sheet, row, left))) rows.add(rowKey(sheet, row));
    }
  }
  return rows;
}

const MOST_ROWS = 20_000;

export const rowKey = (sheet: number, row: number): string => `${sheet}|${row}`;

/** Whether two cells hold the same kind of thing, neither being blank nor an error. */
export function isSameKind(x: Cell, y: Cell): boolean {
  if (x === null || x === '' || y === null || y === '' || isCellError(x) || isCellError(y)) return false;
  return isSizeLike(x) ? isSizeLike(y) : typeof x === typeof y && !isSizeLike(y);
}
