import type { QuantityName } from '../units/quantities.ts';

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
  readonly value: number;
  /** What a careful estimator would call unlikely to be undercut, and to be exceeded. */
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
