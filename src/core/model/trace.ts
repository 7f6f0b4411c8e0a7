import type { WorkedStep } from './step.ts';

export type { Kind } from './step.ts';
export type Step = WorkedStep;

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
