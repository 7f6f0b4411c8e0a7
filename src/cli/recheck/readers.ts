import { isWithin } from '../../files/xlsx/address.ts';
import type { PlannedFormula } from './plan.ts';
import type { SheetArea } from '../../files/xlsx/stored-formula.ts';

/** Areas up to this many cells are indexed cell by cell; larger ones are looked through. */
const SMALL = 64;

/** Which formulas read a cell. */
export class Readers {
  private readonly byCell = new Map<string, PlannedFormula[]>();
  private readonly large: {
    readonly sheet: number;
    readonly area: SheetArea['area'];
    readonly formula: PlannedFormula;
  }[] = [];

  constructor(formulas: readonly PlannedFormula[]) {
    for (const formula of formulas) {
      for (const { sheet, area } of formula.read.reads) {
        const cells = (area.bottom - area.top + 1) * (area.right - area.left + 1);
        if (cells > SMALL) {
          this.large.push({ sheet, area, formula });
          continue;
        }
        for (let row = area.top; row <= area.bottom; row++) {
          for (let column = area.left; column <= area.right; column++) {
            const key = keyOf(sheet, row, column);
            const found = this.byCell.get(key);
            if (found) found.push(formula);
            else this.byCell.set(key, [formula]);
          }
        }
      }
    }
  }

  of(sheet: number, row: number, column: number): readonly PlannedFormula[] {
    const far = this.large.filter((l) => l.sheet === sheet && isWithin(l.area, row, column)).map((l) => l.formula);
    return [...(this.byCell.get(keyOf(sheet, row, column)) ?? []), ...far];
  }
}

export const keyOf = (sheet: number, row: number, column: number): string => `${sheet}|${row}|${column}`;
