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
