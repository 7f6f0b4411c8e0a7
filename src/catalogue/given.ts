import type { Trace } from '../core/model/trace.ts';
import type { QuantityName } from '../core/units/quantities.ts';

/** Records what the user gave, SI, as input steps: name, symbol, value, quantity. */
export function recordGiven(
  trace: Trace | undefined,
  ...inputs: readonly (readonly [name: string, symbol: string, value: number, quantity: QuantityName])[]
): void {
  for (const [name, symbol, value, quantity] of inputs)
    trace?.add({ name, symbol, value, quantity, formula: 'given', kind: 'input', source: '' });
}

/** Records a word or a sentence of the working. */
export function recordText(
  trace: Trace | undefined,
  name: string,
  symbol: string,
  value: string,
  formula = 'given',
  source = '',
): void {
  trace?.add({ name, symbol, value, quantity: 'count', formula, kind: source === '' ? 'input' : 'published', source });
}
