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
