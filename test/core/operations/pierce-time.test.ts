import { describe, expect, it } from 'vitest';
import { burningSteps } from '../../../src/core/operations/item-steps.ts';
import { readSteps } from '../model/read-steps.ts';

const STEPS = burningSteps(true, { removal: '', slag: '' });

/** Burning time of one pierce whose heat allows `advance`, from the steps of an item. */
const pierceTime = (depth: number, advance: number, limit: number, halving: number): number =>
  readSteps(STEPS, {
    k: 1,
    m: 1,
    m_widen: 1,
    r_pure: 1,
    rho: 1,
    V: 0,
    n: 1,
    w: 1,
    x: depth,
    v: advance,
    c: limit,
    s: halving,
  }).number('t');

/** The same integral by the midpoint rule. */
function integrated(depth: number, advance: number, limit: number, halving: number, n = 200_000): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += depth / n / Math.min(advance, limit / (1 + ((i + 0.5) * depth) / n / halving));
  return sum;
}

describe('the time of a pierce', () => {
  it.each([
    [0.25, 0.004, 0.01, 0.19],
    [1, 0.004, 0.01, 0.19],
    [0.1, 0.02, 0.01, 0.19],
    [0.05, 0.001, 0.01, 0.1],
  ])('equals the integral for depth %f, advance %f, limit %f, halving %f', (depth, advance, limit, halving) => {
    expect(pierceTime(depth, advance, limit, halving)).toBeCloseTo(integrated(depth, advance, limit, halving), 5);
  });

  it('is depth over advance where slag does not limit', () => {
    expect(pierceTime(0.1, 0.001, 10, 1)).toBeCloseTo(100, 9);
  });

  it('grows with depth faster than in proportion', () => {
    expect(pierceTime(2, 0.004, 0.01, 0.19)).toBeGreaterThan(2 * pierceTime(1, 0.004, 0.01, 0.19));
  });
});
