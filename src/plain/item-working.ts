import type { Cell } from '../catalogue/cell.ts';
import { sheetNumber } from '../core/model/sheet-formula.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { conversion } from '../core/units/parse-quantity.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import type { PlainOperand } from './operands.ts';

/** The working of one item of a call. */
export interface ItemWorking {
  readonly title: string;
  readonly steps: readonly WorkedStep[];
  /** What gives the SI value of a step that was handed over, by its symbol, where that stands in cells. */
  readonly links: ReadonlyMap<string, string>;
}

export type ShownCell = ShownStep | ShownSum | ShownLink;

/** A sum of cells above in the same column, by their rows. */
export interface ShownSum {
  readonly sum: readonly number[];
}

/** What a formula gives, as it is shown. */
export interface ShownLink {
  readonly formula: string;
  readonly value: number;
}

export interface ShownStep {
  /** Place among `items`. */
  readonly item: number;
  readonly symbol: string;
  readonly quantity: QuantityName;
  /** How many times it is shown. */
  readonly times?: ShownLink;
}

/** The cell's number in SI, where that is the value; so a unit or a column that was guessed wrong is never taken. */
export function converted(
  operand: PlainOperand,
  row: number,
  column: number,
  cell: Cell,
  quantity: QuantityName,
  unit: string,
  value: number | string,
): string | undefined {
  if (typeof cell !== 'number' || typeof value !== 'number') return undefined;
  const { factor, offset } = conversion(quantity, unit);
  if (Math.abs(cell * factor + offset - value) > 1e-12 * Math.abs(value)) return undefined;
  const link = operand.link(row, column);
  if (link === undefined) return undefined;
  const scaled = factor === 1 ? link : `${link}*${sheetNumber(factor)}`;
  return offset === 0 ? scaled : `${scaled}+${sheetNumber(offset)}`;
}
