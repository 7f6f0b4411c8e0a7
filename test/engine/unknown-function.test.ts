import { expect, it } from 'vitest';
import { unknownFunction } from '../../src/engine/unknown-function.ts';

const NAMES = ['SUM', 'BURN.PIN.OXYGEN', 'BURN.PIN.RODS'];

it.each([
  ['=BURN.PIN.OXIGEN(3,4)', 'there is no function BURN.PIN.OXIGEN; nearest: BURN.PIN.OXYGEN, BURN.PIN.RODS'],
  ['=SUM(A6:A)', 'A6:A has no last row: give one, as in A6:A500'],
  ['=SUM($B$2:$B)', '$B$2:$B has no last row: give one, as in $B$2:$B500'],
  ['=SUM(A:A)+B2:B9', ''],
  ['=SUM("A6:A")+rods', ''],
])('%s: %s', (formula, message) => {
  expect(unknownFunction(formula, NAMES)).toBe(message);
});
