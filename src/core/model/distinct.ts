import type { Step, Trace } from './trace.ts';

/** A trace that passes each symbol on once, so that parts that rest on the same assumptions can each record them. */
export function distinct(trace: Trace): Trace;
export function distinct(trace: Trace | undefined): Trace | undefined;
export function distinct(trace: Trace | undefined): Trace | undefined {
  if (!trace) return undefined;
  const seen = new Map<string, Step['value']>();
  return {
    add: (step) => {
      const before = seen.get(step.symbol);
      if (before === undefined) {
        seen.set(step.symbol, step.value);
        trace.add(step);
      } else if (before !== step.value) throw new Error(`step ${step.symbol} has two values`);
    },
  };
}
