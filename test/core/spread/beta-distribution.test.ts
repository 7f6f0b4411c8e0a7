import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { betaCdf, betaQuantile, betaShape, logGamma } from '../../../src/core/spread/beta-distribution.ts';

// SciPy 1.17.1, scipy.stats.beta: a, b, probability, value.
const QUANTILE: readonly (readonly [number, number, number, number])[] = [
  [1, 5, 0.1, 0.020851637639023212],
  [5, 1, 0.1, 0.6309573444801932],
  [3, 3, 0.1, 0.2466364532884666],
  [2.2, 3.8, 0.9, 0.6207544856651201],
  [1.0001, 4.9999, 0.001, 0.00020022887960735223],
  [4.5, 1.5, 0.999, 0.9974397043330829],
  [2, 4, 1e-12, 3.162278660168933e-7],
  [0.3, 0.4, 0.2, 0.01928729276238652],
  [50, 80, 0.01, 0.28879881395385126],
];
// The same: a, b, value, probability.
const CDF: readonly (readonly [number, number, number, number])[] = [
  [1, 5, 0.1, 0.40951],
  [3, 3, 0.4, 0.31744],
  [2.2, 3.8, 0.3, 0.3980278500942712],
  [4.5, 1.5, 0.99, 0.9924008270064344],
  [2, 4, 1e-6, 9.999980000014998e-12],
  [0.3, 0.4, 0.2, 0.41462696482526634],
  [50, 80, 0.3, 0.02070028791137334],
];
const SHAPES: readonly (readonly [number, number])[] = [
  [1, 5],
  [1.3, 4.7],
  [2, 4],
  [3, 3],
  [3.9, 2.1],
  [4.8, 1.2],
  [5, 1],
  [1, 1],
  [0.5, 0.7],
  [30, 12],
  [2000, 900],
];

describe('beta distribution', () => {
  it.each(CDF)('a %d, b %d has at %d the probability of an independent program', (a, b, x, p) => {
    expect(Math.abs(betaCdf(betaShape(a, b), x) / p - 1)).toBeLessThan(1e-13);
  });

  it.each(QUANTILE)('a %d, b %d has at probability %d the value of an independent program', (a, b, p, x) => {
    expect(Math.abs(betaQuantile(betaShape(a, b), p) / x - 1)).toBeLessThan(1e-12);
  });

  it('agrees with the statistics library', () => {
    for (const [a, b] of SHAPES.slice(0, 8)) {
      const shape = betaShape(a, b);
      for (let x = 0.01; x < 1; x += 0.01)
        expect(Math.abs(betaCdf(shape, x) - jstat.jStat.beta.cdf(x, a, b))).toBeLessThan(1e-8);
      for (let p = 0.01; p < 1; p += 0.01) {
        expect(Math.abs(jstat.jStat.beta.cdf(betaQuantile(shape, p), a, b) - p)).toBeLessThan(1e-8);
        // The library's own inverse stops its iteration early; its quantile is good to about 1e-6.
        expect(Math.abs(betaQuantile(shape, p) - jstat.jStat.beta.inv(p, a, b))).toBeLessThan(1e-6);
      }
    }
  });

  it('has the closed form of whole exponents', () => {
    // I_x(1, b) = 1 - (1 - x)^b, I_x(a, 1) = x^a, I_x(2, 2) = 3 x^2 - 2 x^3.
    for (let x = 0; x <= 1; x += 1 / 64) {
      expect(betaCdf(betaShape(1, 5), x)).toBeCloseTo(1 - (1 - x) ** 5, 14);
      expect(betaCdf(betaShape(4, 1), x)).toBeCloseTo(x ** 4, 14);
      expect(betaCdf(betaShape(2, 2), x)).toBeCloseTo(3 * x * x - 2 * x ** 3, 14);
    }
  });

  it.each(SHAPES)('a %d, b %d runs both ways into the tails', (a, b) => {
    const shape = betaShape(a, b);
    for (const p of [1e-15, 1e-9, 1e-4, 0.01, 0.1, 0.25, 0.4999, 0.5, 0.5001, 0.75, 0.9, 0.99, 0.9999]) {
      expect(Math.abs(betaCdf(shape, betaQuantile(shape, p)) - p)).toBeLessThan(2e-13);
    }
    let before = 0;
    for (let i = 1; i < 2000; i++) {
      const x = betaQuantile(shape, i / 2000);
      expect(x).toBeGreaterThan(before);
      before = x;
    }
  });

  it('has ends 0 and 1', () => {
    expect(betaQuantile(betaShape(2, 3), 0)).toBe(0);
    expect(betaQuantile(betaShape(2, 3), 1)).toBe(1);
    for (const p of [-0.1, 1.1, NaN]) expect(() => betaQuantile(betaShape(2, 3), p)).toThrow(CalcError);
    for (const a of [0, -1, NaN, Infinity]) expect(() => betaShape(a, 1)).toThrow(CalcError);
  });

  it('has the gamma function of whole and half numbers', () => {
    // G(n + 1) = n!, G(1/2) = sqrt(pi).
    expect(logGamma(1)).toBeCloseTo(0, 14);
    expect(logGamma(11)).toBeCloseTo(Math.log(3628800), 13);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 14);
    for (let x = 0.1; x < 40; x += 0.3) expect(logGamma(x)).toBeCloseTo(jstat.jStat.gammaln(x), 9);
  });
});
