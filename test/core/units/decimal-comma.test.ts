import { expect, it } from 'vitest';
import { withPoints } from '../../../src/core/units/decimal-comma.ts';

it.each([
  ['4,5', '4.5'],
  ['4,5 mm', '4.5 mm'],
  ['Ø90,5', 'Ø90.5'],
  ['-2,5 C', '-2.5 C'],
  [',5 m', '.5 m'],
  ['1 m 2,5 cm', '1 m 2.5 cm'],
  ['4，5', '4.5'],
  ['2,500', '2.500'],
  ['4.5 mm', '4.5 mm'],
  ['boom, left', 'boom, left'],
  ['3 pins, all seized; see photo', '3 pins, all seized; see photo'],
  ['3/8 x 36', '3/8 x 36'],
])('%s is %s where the decimal mark is a comma', (text, read) => {
  expect(withPoints(text)).toBe(read);
});

it('refuses a point that could part thousands', () => {
  expect(withPoints('1.500 mm')).toMatchObject({
    code: '#VALUE!',
    message: '"1.500 mm" has a point, which could part thousands where the decimal mark is a comma: write 1500 or 1,5',
  });
});
