import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Evaluation, type Given } from '../../../src/core/model/evaluation.ts';
import type { Step } from '../../../src/core/model/step.ts';
import { StepList } from '../../../src/core/model/step-list.ts';

/** Some steps on given values, the rest as assumed by default; what stands in `given` but not in the steps is handed over to them. */
export function readSteps(steps: readonly Step[], given: Given, a = Assumptions.defaults()): Evaluation {
  const own = new Set(steps.map((step) => step.symbol));
  const before = Object.keys(given)
    .filter((symbol) => !own.has(symbol))
    .map((symbol): Step => ({
      symbol,
      name: symbol,
      quantity: 'ratio',
      from: { given: true },
      words: '',
      kind: 'input',
      source: '',
    }));
  const all = [...before, ...steps];
  return new Evaluation(
    new StepList(
      all,
      all.map((step) => step.symbol),
    ),
    given,
    a,
  );
}
