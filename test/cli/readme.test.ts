import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { withFunctionTable } from '../../src/cli/function-table.ts';

it('the README lists the functions as they are declared (else run `npm run readme`)', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(withFunctionTable(readme)).toBe(readme);
});
