import { findFunction } from '../catalogue/catalogue.ts';
import { isBlankCell } from '../catalogue/cell.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import type { Cell } from '../sheet/host-function.ts';
import { isWithin, type Area } from '../files/xlsx/address.ts';
import {
  readFormula,
  type Argument,
  type Call,
  type Reference,
  type ReadFormula,
  type Slot,
} from '../formula/read-formula.ts';
import type { CheckedCell, CheckedWorkbook, Place } from './workbook.ts';

/** A cell with a formula, taken apart. */
export interface FormulaAt extends Place {
  readonly value: Cell;
  readonly formula: string;
  /** As it is told to a person. */
  readonly told: string;
  readonly read: ReadFormula;
  /** Whether a function of ours is in it. */
  readonly ours: boolean;
  /** What it fills. */
  readonly area: Area;
}

/** An argument of a call that is known, with its parameter: none for the assumptions and for what is one too many. */
export interface KnownArgument {
  readonly name: string;
  readonly parameter: Declaration['parameters'][string] | undefined;
  readonly isAssume: boolean;
  readonly argument: Argument;
  readonly slot: Slot | undefined;
}

/** Areas are followed cell by cell up to this many cells. */
const MOST_FOLLOWED = 5_000;

/** The workbook with its formulas taken apart and its cells to be found by place. */
export class LookedAt {
  readonly formulas: readonly FormulaAt[];
  private readonly cells: readonly ReadonlyMap<number, ReadonlyMap<number, CheckedCell>>[];
  private readonly formulaAt: readonly ReadonlyMap<number, ReadonlyMap<number, FormulaAt>>[];
  private readonly spills: readonly (readonly FormulaAt[])[];
  private readonly sheetsByName: ReadonlyMap<string, number>;

  constructor(readonly workbook: CheckedWorkbook) {
    this.sheetsByName = new Map(workbook.sheets.map((s, i) => [s.name.toLowerCase(), i]));
    this.cells = workbook.sheets.map(({ cells }) => byRowAndColumn(cells));
    const known = new Map<string, ReadFormula>();
    this.formulas = workbook.sheets.flatMap(({ name, cells }, sheet) =>
      cells.flatMap((cell): readonly FormulaAt[] => {
        if (cell.formula === undefined) return [];
        const { row, column, value, formula } = cell;
        const key = `${sheet}|${formula}`;
        const read = known.get(key) ?? readFormula(formula, name);
        known.set(key, read);
        const area = cell.area ?? { top: row, left: column, bottom: row, right: column };
        const told = cell.told ?? formula;
        return [{ sheet, row, column, value, formula, told, read, ours: read.calls.length > 0, area }];
      }),
    );
    this.formulaAt = workbook.sheets.map((_, i) => byRowAndColumn(this.formulas.filter((f) => f.sheet === i)));
    this.spills = workbook.sheets.map((_, i) =>
      this.formulas.filter((f) => f.sheet === i && (f.area.bottom > f.area.top || f.area.right > f.area.left)),
    );
  }

  value(sheet: number, row: number, column: number): Cell {
    return this.cells[sheet]?.get(row)?.get(column)?.value ?? null;
  }

  isBlank(sheet: number, row: number, column: number): boolean {
    const cell = this.cells[sheet]?.get(row)?.get(column);
    return cell === undefined || (cell.formula === undefined && isBlankCell(cell.value));
  }

  isRowBlank(sheet: number, row: number): boolean {
    const cells = this.cells[sheet]?.get(row);
    return cells === undefined || [...cells.keys()].every((column) => this.isBlank(sheet, row, column));
  }

  formula(sheet: number, row: number, column: number): FormulaAt | undefined {
    return this.formulaAt[sheet]?.get(row)?.get(column);
  }

  /** The formula standing elsewhere that fills a cell. */
  filledBy(sheet: number, row: number, column: number): FormulaAt | undefined {
    return this.spills[sheet]?.find(
      (f) => isWithin(f.area, row, column) && !(f.row === row && f.column === column) && f.ours,
    );
  }

  /** The texts of a row, left to right. */
  textsOfRow(sheet: number, row: number): readonly string[] {
    return [...(this.cells[sheet]?.get(row)?.values() ?? [])].flatMap(({ value }) =>
      typeof value === 'string' ? [value] : [],
    );
  }

  sheetOf(reference: Pick<Reference, 'sheet'>, at: Place): number | undefined {
    return reference.sheet === undefined ? at.sheet : this.sheetsByName.get(reference.sheet.toLowerCase());
  }

  /** The cells of an area as far as the sheet has any, row by row; nothing where they are too many. */
  filledGrid(sheet: number, { top, left, bottom, right }: Area): readonly (readonly Cell[])[] | undefined {
    let [lastRow, lastColumn] = [top, left];
    for (const [row, cells] of this.cells[sheet] ?? []) {
      lastRow = Math.max(lastRow, row);
      for (const column of cells.keys()) lastColumn = Math.max(lastColumn, column);
    }
    return this.grid(sheet, { top, left, bottom: Math.min(bottom, lastRow), right: Math.min(right, lastColumn) });
  }

  /** The cells of an area, row by row; nothing where they are too many. */
  grid(sheet: number, { top, left, bottom, right }: Area): readonly (readonly Cell[])[] | undefined {
    if ((bottom - top + 1) * (right - left + 1) > MOST_FOLLOWED) return undefined;
    return Array.from({ length: bottom - top + 1 }, (_, r) =>
      Array.from({ length: right - left + 1 }, (__, c) => this.value(sheet, top + r, left + c)),
    );
  }
}

function byRowAndColumn<T extends { readonly row: number; readonly column: number }>(
  cells: readonly T[],
): ReadonlyMap<number, ReadonlyMap<number, T>> {
  const rows = new Map<number, Map<number, T>>();
  for (const cell of cells) {
    const row = rows.get(cell.row) ?? new Map<number, T>();
    rows.set(cell.row, row);
    row.set(cell.column, cell);
  }
  return rows;
}

/** The arguments of a call under the names of its parameters; none where the function is not known. */
export function argumentsOf({ name, arguments: given }: Call, { slots }: ReadFormula): readonly KnownArgument[] {
  const d = findFunction(name);
  if (!d) return [];
  const names = Object.keys(d.parameters);
  return given.map((argument, i) => ({
    name: names[i] ?? '',
    parameter: names[i] === undefined ? undefined : d.parameters[names[i]],
    isAssume: i === names.length && d.assume !== false,
    argument,
    slot: argument.kind === 'slot' ? slots[argument.slot] : undefined,
  }));
}
