import { describe, expect, it } from 'vitest';
import { burningSteps } from '../../../src/core/operations/item-steps.ts';
import { readSteps } from '../model/read-steps.ts';

const STEPS = burningSteps(true, { removal: '', slag: '' });

interface Case {
  readonly depth: number;
  /** Advance that the heat allows, that of slag at the mouth, and the depth that halves it. */
  readonly advance: number;
  readonly limit: number;
  readonly halving: number;
}

/** Burning time of one pierce, from the steps of an item. */
const pierceTime = ({ depth, advance, limit, halving }: Case, sharp: number): number =>
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
    sharp,
  }).number('t');

/** The time that slag takes to get out, by the midpoint rule. */
function slagTime({ depth, limit, halving }: Case, n = 200_000): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += ((depth / n) * (1 + ((i + 0.5) * depth) / n / halving)) / limit;
  return sum;
}

const CASES: readonly Case[] = [
  { depth: 0.25, advance: 0.004, limit: 0.01, halving: 0.19 },
  { depth: 1, advance: 0.004, limit: 0.01, halving: 0.19 },
  { depth: 0.1, advance: 0.02, limit: 0.01, halving: 0.19 },
  { depth: 0.05, advance: 0.001, limit: 0.01, halving: 0.1 },
];

describe('the time of a pierce', () => {
  it.each(CASES)('is the blend of what heat and slag take alone: %o', (of) => {
    const [heat, slag] = [of.depth / of.advance, slagTime(of)];
    expect(pierceTime(of, 1) / (heat + slag)).toBeCloseTo(1, 9);
    expect(pierceTime(of, 2) / Math.hypot(heat, slag)).toBeCloseTo(1, 9);
    expect(pierceTime(of, 3) / Math.cbrt(heat ** 3 + slag ** 3)).toBeCloseTo(1, 9);
    expect(pierceTime(of, 50) / Math.max(heat, slag)).toBeCloseTo(1, 1);
  });

  it.each(CASES)('rises with each of the two, and falls the more sharply the slower decides: %o', (of) => {
    expect(pierceTime({ ...of, advance: 0.9 * of.advance }, 3)).toBeGreaterThan(pierceTime(of, 3));
    expect(pierceTime({ ...of, limit: 0.9 * of.limit }, 3)).toBeGreaterThan(pierceTime(of, 3));
    expect(pierceTime(of, 2)).toBeGreaterThan(pierceTime(of, 6));
  });

  it('is depth over advance where slag does not limit', () => {
    expect(pierceTime({ depth: 0.1, advance: 0.001, limit: 10, halving: 1 }, 3)).toBeCloseTo(100, 9);
  });

  it('grows with depth faster than in proportion', () => {
    const at = (depth: number): number => pierceTime({ depth, advance: 0.004, limit: 0.01, halving: 0.19 }, 3);
    expect(at(2)).toBeGreaterThan(2 * at(1));
  });
});
