import type { QuantityName } from '../units/quantities.ts';
import type { CalcError } from '../errors.ts';

/** How well a number is founded. `your value` and `your log` come from the user's own cells. */
export type Kind = 'published' | 'common practice' | 'convention' | 'your value' | 'your log' | 'calculated' | 'input';

/** A value that a check refuses: scalars throw, a draw of a column becomes NaN. */
export interface Check {
  /** What the value must be more than, and what it may be at most. */
  readonly above?: number;
  readonly most?: number;
  otherwise(value: number, of: (symbol: string) => number): CalcError;
}

/** Finds a value from those of other steps. */
export interface Solver {
  (...values: number[]): number;
  /** The same of many at once, NaN where one by one is refused: a first cell has hundreds of draws before anything is compiled. */
  readonly column?: (into: Float64Array, ...values: Float64Array[]) => void;
}

/** Where the value of a step comes from. */
export type Origin =
  /** A formula in symbols of earlier steps, SI. */
  | { readonly expression: string; readonly check?: Check }
  /** Found by iteration or integration, or read from a published table or polynomial, from nothing but the steps named. */
  | {
      readonly solve: readonly string[];
      readonly by: Solver;
      /** Symbol of a step; where that is not positive there is nothing to solve, and the value is 0. */
      readonly where?: string;
    }
  /** An assumption in force. */
  | { readonly assumption: string }
  /** An entry of a register, or another thing that the list is built for. */
  | { readonly entry: number | string }
  /** Handed over with the call: an argument, a rod's size. */
  | { readonly given: true };

/** One step of a calculation, stated once: what it is, where it comes from, and how it reads. */
export interface Step {
  /** The source's symbol; unique within one list. */
  readonly symbol: string;
  /** What it is, in words. Empty for an assumption: it has its own. */
  readonly name: string;
  readonly quantity: QuantityName;
  readonly from: Origin;
  /** The formula in words, from the names of earlier steps. */
  readonly words: string;
  readonly kind: Kind;
  /** Key of a source in the register, or '' on inputs. */
  readonly source: string;
  /**
   * Assumptions that decide that the step is this one: its formula names them nowhere, and with another word or value there
   * would be another step in its place.
   */
  readonly decidedBy?: readonly string[];
}

/** A step as assumptions decide it that its formula does not name: a position, a method, a depth of more than nothing. */
export const decidedBy = (step: Step, ...assumptions: readonly string[]): Step => ({
  ...step,
  decidedBy: [...(step.decidedBy ?? []), ...assumptions],
});

/** One line of the working of a cell: a step with its value. */
export interface WorkedStep {
  readonly name: string;
  readonly symbol: string;
  /** Value in SI, or a text. */
  readonly value: number | string;
  readonly quantity: QuantityName;
  /** The formula in words. */
  readonly formula: string;
  /** The formula in symbols; `solve(a, b)` for a step that is solved from the steps `a` and `b`. Absent on inputs and assumptions. */
  readonly expression?: string;
  /** Name of the assumption that the step is, if it is one. */
  readonly assumption?: string;
  readonly kind: Kind;
  readonly source: string;
}

/** What a list of steps reads assumptions from. */
export interface AssumptionReader {
  /** In force, SI. */
  value(name: string): number;
  about(name: string): {
    readonly quantity: QuantityName;
    readonly words: string;
    readonly kind: Kind;
    readonly source: string;
  };
}

/** A step calculated by a formula. */
export function calculated(
  symbol: string,
  name: string,
  quantity: QuantityName,
  expression: string,
  words: string,
  {
    source = 'arithmetic',
    kind = 'calculated',
    check,
  }: { readonly source?: string; readonly kind?: Kind; readonly check?: Check } = {},
): Step {
  return { symbol, name, quantity, from: check ? { expression, check } : { expression }, words, kind, source };
}

/** A step found by iteration, integration, or from a published table, from the steps `from`; 0 where the step `where` is not positive. */
export function solved(
  symbol: string,
  name: string,
  quantity: QuantityName,
  from: readonly string[],
  by: Solver,
  words: string,
  source: string,
  kind: Kind = 'calculated',
  where?: string,
): Step {
  const solve = where === undefined ? { solve: from, by } : { solve: from, by, where };
  return { symbol, name, quantity, from: solve, words, kind, source };
}

/** An entry of a register, or a word that the list is built for. */
export function entered(
  symbol: string,
  name: string,
  quantity: QuantityName,
  entry: number | string,
  words: string,
  kind: Kind,
  source: string,
): Step {
  return { symbol, name, quantity, from: { entry }, words, kind, source };
}

/** A value handed over: an argument of the call, unless `words`, `kind` and `source` say that it comes from a register. */
export function given(
  symbol: string,
  name: string,
  quantity: QuantityName,
  {
    words = 'given',
    kind = 'input',
    source = '',
  }: { readonly words?: string; readonly kind?: Kind; readonly source?: string } = {},
): Step {
  return { symbol, name, quantity, from: { given: true }, words, kind, source };
}
