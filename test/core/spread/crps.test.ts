import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { crps } from '../../../src/core/spread/crps.ts';
import { normalCdf, normalQuantile } from '../../../src/core/spread/normal.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';

const COUNT = 20_000;
/** The middles of equal parts of the probability. */
const evenly = (quantile: (p: number) => number): Float64Array =>
  Float64Array.from({ length: COUNT }, (_, i) => quantile((i + 0.5) / COUNT));

describe('the score of a distribution for what came', () => {
  it('is that of a beta distribution as published', () => {
    // Values of a scaled beta distribution in the tests of scoringrules, an open package of scores.
    const draws = evenly((p) => jstat.jStat.beta.inv(p, 0.7, 1.1));
    expect(crps(draws, 0.3)).toBeCloseTo(0.0850102437, 6);
    expect(
      crps(
        draws.map((x) => -5 + 9 * x),
        -3,
      ),
    ).toBeCloseTo(0.883206751, 6);
  });

  it('is that of a normal distribution in closed form', () => {
    // Gneiting and Raftery 2007, below equation 21: sd (z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)).
    const draws = evenly(normalQuantile);
    for (const z of [-2, -0.3, 0, 1.4]) {
      const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
      expect(crps(draws, z)).toBeCloseTo(z * (2 * normalCdf(z) - 1) + 2 * density - 1 / Math.sqrt(Math.PI), 3);
    }
  });

  it('of one figure is how far it was off', () => {
    expect(crps([4], 7)).toBe(3);
    expect(crps([4], 7, true)).toBe(3);
    expect(crps([1, 3], 2)).toBe(0.5);
  });

  it('held against others alone it is right on average for few as for many', () => {
    const { uniform } = seeded(31);
    const mean = (members: number): number => {
      let sum = 0;
      for (let i = 0; i < 20_000; i++) sum += crps(Array.from({ length: members }, uniform), uniform(), true);
      return sum / 20_000;
    };
    // Of a uniform distribution: E|X - Y| / 2 = 1/6.
    for (const members of [2, 4, 16]) expect(mean(members)).toBeCloseTo(1 / 6, 2);
  });
});
