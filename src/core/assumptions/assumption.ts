import { plainUnit } from '../units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../units/quantities.ts';

export type AssumptionKind = 'published' | 'common practice' | 'convention';

interface Named {
  readonly name: string;
  readonly summary: string;
  readonly kind: AssumptionKind;
  /** Key in the register of sources. */
  readonly source: string;
}

/** A numeric default. Value, low, high and limits are in `unit`, which belongs to `quantity`. */
export interface NumberAssumption extends Named {
  readonly quantity: QuantityName;
  readonly unit: string;
  /** Median: as often too low as too high. */
  readonly value: number;
  /** P10: one case in ten lies below it; and P90. The value and one of them may be the same: then half of the cases are at it. */
  readonly low: number;
  readonly high: number;
  /** Physical limits: outside them an override is refused. */
  readonly min: number;
  readonly max: number;
}

/** A default that is a word. */
export interface ChoiceAssumption extends Named {
  readonly choices: readonly string[];
  readonly value: string;
}

export type Assumption = NumberAssumption | ChoiceAssumption;

export const isChoice = (a: Assumption): a is ChoiceAssumption => 'choices' in a;

/** Unit in which an assumption is shown and typed: its own, or the plain one of SI. */
export const unitIn = ({ quantity, unit }: Pick<NumberAssumption, 'quantity' | 'unit'>, system: UnitSystem): string =>
  system === 'SI' ? plainUnit(quantity, 'SI') : unit;
