import { pinHole } from '../core/operations/pin.ts';
import { LENGTH } from './limits.ts';
import { required, valueFunction, type Declaration } from './declaration.ts';

export const PIN_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
    name: 'BURN.PIN.HOLE',
    family: 'PIN',
    summary: 'Planned bore of a seized pin: how wide to burn its core out.',
    parameters: { diameter: required(LENGTH, 'Pin diameter', '4') },
    assume: true,
    result: { kind: 'value', quantity: 'length' },
    sources: ['common practice'],
    cautions: ['PIN'],
    examples: ['=BURN.PIN.HOLE(4)'],
    monotone: [{ rises: ['diameter'], risesWith: ['bore ratio'] }],
    calculate: ({ diameter }, { a }, trace) => {
      trace?.add({
        name: 'diameter',
        symbol: 'D',
        value: diameter,
        quantity: 'length',
        formula: 'given',
        kind: 'input',
        source: '',
      });
      return pinHole(diameter, a, trace);
    },
  }),
];
