import type { Step } from '../model/step.ts';
import { numberAssumption, type NumberName } from './registry.ts';

/** A step that is an assumption in force; its words, kind and source are those of the register or of the user's own row. */
export function assumed(symbol: string, assumption: NumberName, name: string = assumption): Step {
  return {
    symbol,
    name,
    quantity: numberAssumption(assumption).quantity,
    from: { assumption },
    words: '',
    kind: 'input',
    source: '',
  };
}
