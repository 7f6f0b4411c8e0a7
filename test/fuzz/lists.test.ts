import { expect, it } from 'vitest';
import { ALL_CALLS, fuzzGroup } from './groups.ts';

it('all groups together make 200,000 calls, half of them in the usual run', () => {
  expect(ALL_CALLS).toBeGreaterThanOrEqual(200_000);
});

fuzzGroup('safety and lists');
