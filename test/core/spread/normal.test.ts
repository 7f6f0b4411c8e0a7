import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { normalCdf, normalQuantile } from '../../../src/core/spread/normal.ts';

// SciPy 1.17.1, scipy.stats.norm.
const CDF: readonly (readonly [number, number])[] = [
  [0.1, 0.539827837277029],
  [0.5, 0.6914624612740131],
  [1, 0.8413447460685429],
  [1.96, 0.9750021048517795],
  [2.9, 0.998134186699616],
  [3.1, 0.9990323967867817],
  [4.5, 0.9999966023268753],
  [6, 0.9999999990134123],
  [-1, 0.15865525393145707],
  [-3.1, 0.0009676032132183563],
  [-8, 6.22096057427174e-16],
  [-20, 2.7536241186061556e-89],
];
const QUANTILE: readonly (readonly [number, number])[] = [
  [1e-300, -37.0470962993612],
  [1e-10, -6.361340902404056],
  [0.001, -3.090232306167813],
  [0.025, -1.9599639845400545],
  [0.1, -1.2815515655446004],
  [0.3, -0.5244005127080409],
  [0.5, 0],
  [0.9, 1.2815515655446004],
  [0.975, 1.959963984540054],
  [0.99999, 4.264890793923841],
];

describe('normal distribution', () => {
  it.each(CDF)('has at %d the probability of an independent program', (x, p) => {
    expect(Math.abs(normalCdf(x) / p - 1)).toBeLessThan(1e-12);
  });

  it.each(QUANTILE)('has at probability %d the value of an independent program', (p, x) => {
    expect(Math.abs(normalQuantile(p) - x)).toBeLessThanOrEqual(1e-14 * Math.max(1, Math.abs(x)));
  });

  it('agrees with the statistics library', () => {
    for (let x = -4; x <= 4; x += 0.1)
      expect(Math.abs(normalCdf(x) - jstat.jStat.normal.cdf(x, 0, 1))).toBeLessThan(1e-12);
    for (let p = 0.01; p < 1; p += 0.01) expect(normalQuantile(p)).toBeCloseTo(jstat.jStat.normal.inv(p, 0, 1), 8);
  });

  it('runs both ways', () => {
    for (let x = -8; x <= 5; x += 0.01) expect(normalQuantile(normalCdf(x))).toBeCloseTo(x, 9);
  });

  it('is symmetric and rises', () => {
    for (let x = 0.05; x < 8; x += 0.05) {
      expect(normalCdf(x) + normalCdf(-x)).toBeCloseTo(1, 14);
      expect(normalCdf(-x)).toBeLessThan(normalCdf(0.05 - x));
    }
  });

  it('gives 0 and 1 far out', () => {
    expect(normalCdf(-60)).toBe(0);
    expect(normalCdf(60)).toBe(1);
  });

  it.each([0, 1, -0.1, 1.1, NaN])('refuses the quantile of %d', (p) => {
    expect(() => normalQuantile(p)).toThrow(CalcError);
  });
});
