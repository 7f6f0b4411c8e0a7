import { expect, it } from 'vitest';
import { readCell } from '../../src/catalogue/read-cell.ts';
import { QUANTITIES, type QuantityName } from '../../src/core/units/quantities.ts';

const cases = (Object.keys(QUANTITIES) as QuantityName[]).flatMap((quantity) =>
  (['US', 'SI'] as const).map((system) => [quantity, system] as const),
);

it.each(cases)('a text that is no %s, with %s units, is refused with examples that are', (quantity, system) => {
  const kind = { kind: 'quantity', quantity } as const;
  let message = '';
  try {
    readCell('wide', 'it', kind, system);
  } catch (e) {
    message = (e as Error).message;
  }
  expect(message).toMatch(/^it is "wide"; must be a number/);
  const examples = / such as (.*)$/.exec(message)?.[1]?.split(' or ') ?? [];
  expect(examples.length > 0).toBe(QUANTITIES[quantity][system === 'US' ? 'us' : 'si'] !== '');
  for (const example of examples) expect(readCell(example, 'it', kind, system), example).toBeTypeOf('number');
});

it.each([
  ['too high', 1e308, { min: 0, max: 1e6 }, 'it is 1e+308 psi; must be at most 145.038 psi'],
  ['too low', -1e308, { min: 0, max: 1e6 }, 'it is -1e+308 psi; must be at least 0 psi'],
  ['too low', -1e308, { above: 1, max: 1e6 }, 'it is -1e+308 psi; must be more than 0.000145038 psi'],
  ['too low', -1e308, {}, 'it is -1e+308 psi; must be at least a number the sheet can hold'],
] as const)(
  'a number beyond what its unit can be turned into is told as it came, and as %s',
  (_, cell, limits, why) => {
    expect(() => readCell(cell, 'it', { kind: 'quantity', quantity: 'pressure', ...limits }, 'US')).toThrow(why);
  },
);

const message = (cell: string | number, argument = 'diameter', system: 'US' | 'SI' = 'US'): string => {
  try {
    readCell(cell, argument, { kind: 'quantity', quantity: 'length', above: 0, max: 2 }, system);
  } catch (e) {
    return (e as Error).message;
  }
  return '';
};

it.each([
  ['60 mmm', 'diameter is "60 mmm": "mmm" is no unit here; mm?'],
  ['4 kg', 'diameter is "4 kg": "kg" is no unit here; in?'],
  ['60 x 200', 'diameter is "60 x 200": "x 200" is left over; must be one size, such as 100 mm or 4-1/2"'],
  [
    '4,5',
    'diameter is "4,5" with a comma: write it with a point and without parted thousands, or set the assumption decimal mark to comma',
  ],
  [
    46211,
    "diameter is 46211, which looks like a date: the sheet turned a fraction into one. 7/8? Type '7/8 with a leading apostrophe, or =7/8",
  ],
] as const)('%s is refused with the part that is wrong', (cell, words) => {
  expect(message(cell)).toBe(words);
});

it('takes a diameter for a diameter, and for nothing else', () => {
  expect(message('Ø3.5')).toBe('');
  expect(message('90 mm dia', 'hole')).toBe('');
  expect(message('Ø3.5', 'length')).toBe('length is "Ø3.5", a diameter');
  expect(message('3.5 dia', 'hose length')).toBe('hose length is "3.5 dia", a diameter');
});

it('a plain number of inches beyond its limit is asked about where it is a size in mm', () => {
  const kind = { kind: 'quantity', quantity: 'length', above: 0, max: 2 } as const;
  const told = (cell: number | string, system: 'US' | 'SI' = 'US'): string => {
    try {
      return String(readCell(cell, 'diameter', kind, system));
    } catch (e) {
      return (e as Error).message;
    }
  };
  const meant = 'diameter is 80 in; must be at most 78.7402 in; if mm was meant, write 80 mm';
  expect(told(80)).toBe(meant);
  expect(told('80')).toBe(meant);
  expect(told('80 in')).toBe('diameter is 80 in; must be at most 78.7402 in');
  expect(told(3000)).toBe('diameter is 3000 in; must be at most 78.7402 in');
  expect(told(3000, 'SI')).toBe('diameter is 3000 mm; must be at most 2000 mm');
});
