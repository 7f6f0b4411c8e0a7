import type { WorkedStep as Step } from '../../../src/core/model/step.ts';

const { min, max, ceil, floor, sqrt, pow, log, exp, PI, abs } = Math;
const either = (holds: boolean, x: number, y: number): number => (holds ? x : y);
const FUNCTIONS = { min, max, ceil, floor, sqrt, pow, log, ln: log, exp, PI, abs, either };

/** A formula as the language of the tests has it: `if` is a word of its own there, and a power is written otherwise. */
const asScript = (expression: string): string => expression.replace(/\bif\(/g, 'either(').replaceAll('^', '**');

/** Steps from which a step was found by iteration; undefined where it was not. */
export function solvedFrom({ expression }: Step): readonly string[] | undefined {
  const list = /^solve\((.*)\)$/.exec(expression ?? '')?.[1];
  return list?.split(',').map((name) => name.trim());
}

function evaluated(expression: string, known: Readonly<Record<string, unknown>>): number {
  // eslint-disable-next-line @typescript-eslint/no-implied-eval -- our own text, written beside the code it repeats
  const run = new Function(...Object.keys(known), `return ${asScript(expression)};`) as (...v: unknown[]) => number;
  return run(...Object.values(known));
}

/** What each step's expression gives from the values of the steps before it; steps without one, and those found by iteration, are left out. */
export function replay(steps: readonly Step[]): readonly { readonly step: Step; readonly value: number }[] {
  const known: Record<string, unknown> = { ...FUNCTIONS };
  return steps.flatMap((step) => {
    const result =
      step.expression === undefined || solvedFrom(step) ? [] : [{ step, value: evaluated(step.expression, known) }];
    known[step.symbol] = step.value;
    return result;
  });
}
