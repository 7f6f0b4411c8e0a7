import type { QuantityName } from '../units/quantities.ts';

/** How well a number is founded. `your value` and `your log` come from the user's own cells. */
export type Kind = 'published' | 'common practice' | 'convention' | 'your value' | 'your log' | 'calculated' | 'input';

/** One line of the working of a cell. */
export interface Step {
  /** What it is, in words. */
  readonly name: string;
  /** The source's symbol; unique within one working. */
  readonly symbol: string;
  /** Value in SI, or a text. */
  readonly value: number | string;
  readonly quantity: QuantityName;
  /** The formula in words, from the names of earlier steps. */
  readonly formula: string;
  /**
   * The same formula in symbols of earlier steps, SI, so that a test can replay it.
   * Absent on inputs, assumptions and texts; `solve(a, b)` marks a step found by iteration from the steps `a` and `b`.
   */
  readonly expression?: string;
  readonly kind: Kind;
  /** Key of a source in the register, or '' on inputs and arithmetic. */
  readonly source: string;
}

/**
 * Recorder of a working. Calculations take it as an optional last argument and call
 * `trace?.add({...})`, so nothing is built where nobody listens.
 */
export interface Trace {
  add(step: Step): void;
}

/** A trace that keeps its steps in order. */
export function recorder(): Trace & { readonly steps: readonly Step[] } {
  const steps: Step[] = [];
  return { steps, add: (step) => void steps.push(step) };
}
