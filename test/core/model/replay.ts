import type { WorkedStep as Step } from '../../../src/core/model/step.ts';

const { min, max, ceil, floor, sqrt, pow, log, exp, PI, abs } = Math;
const either = (holds: boolean, x: number, y: number): number => (holds ? x : y);
const FUNCTIONS = { min, max, ceil, floor, sqrt, pow, ln: log, exp, PI, abs, either };

/** A formula as the language of the tests has it: `if` is a word of its own there, and a power is written otherwise. */
const asScript = (expression: string): string => expression.replace(/\bif\(/g, 'either(').replaceAll('^', '**');

/** Steps from which a step was found by iteration; undefined where it was not. */
export function solvedFrom({ expression }: Step): readonly string[] | undefined {
  const list = /^solve\((.*)\)$/.exec(expression ?? '')?.[1];
  return list?.split(',').map((name) => name.trim());
}

/** What each step's expression gives from the values of the steps before it; steps without one, and those found by iteration, are left out. */
export function replay(steps: readonly Step[]): readonly { readonly step: Step; readonly value: number }[] {
  const known: Record<string, unknown> = { ...FUNCTIONS };
  return steps.flatMap((step) => {
    const names = Object.keys(known);
    const result =
      step.expression === undefined || solvedFrom(step)
        ? []
        : // eslint-disable-next-line @typescript-eslint/no-implied-eval -- our own text, written beside the code it repeats
          [
            {
              step,
              value: (
                new Function(...names, `return ${asScript(step.expression)};`) as (...values: unknown[]) => number
              )(...names.map((n) => known[n])),
            },
          ];
    known[step.symbol] = step.value;
    return result;
  });
}
