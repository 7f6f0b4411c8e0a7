import type { Step } from '../../../src/core/trace/trace.ts';

const { min, max, ceil, floor, sqrt, pow, log, exp, PI, abs } = Math;
const FUNCTIONS = { min, max, ceil, floor, sqrt, pow, log, exp, PI, abs };

/** What each step's expression gives from the values of the steps before it; steps without one are left out. */
export function replay(steps: readonly Step[]): readonly { readonly step: Step; readonly value: number }[] {
  const known: Record<string, unknown> = { ...FUNCTIONS };
  return steps.flatMap((step) => {
    const names = Object.keys(known);
    // The expressions are our own text, written beside the code they repeat.
    const result =
      step.expression === undefined
        ? []
        : // eslint-disable-next-line @typescript-eslint/no-implied-eval
          [{ step, value: (new Function(...names, `return ${step.expression};`) as (...values: unknown[]) => number)(...names.map((n) => known[n])) }];
    known[step.symbol] = step.value;
    return result;
  });
}
