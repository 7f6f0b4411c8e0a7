import { pinHole } from '../core/operations/pin.ts';
import { LENGTH } from './limits.ts';
import { required, workedFunction, type Declaration } from './declaration.ts';

export const PIN_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.PIN.HOLE',
    family: 'PIN',
    summary: 'Planned bore of a seized pin: how wide to burn its core out.',
    parameters: { diameter: required(LENGTH, 'Pin diameter', '4') },
    assume: true,
    result: { kind: 'value', quantity: 'length' },
    sources: ['common practice'],
    cautions: ['PIN'],
    examples: ['=BURN.PIN.HOLE(4)'],
    working: ({ diameter }, { a }) => pinHole(diameter, a),
  }),
];
