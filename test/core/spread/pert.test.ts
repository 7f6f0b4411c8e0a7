import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { betaCdf, betaQuantile, betaShape, logGamma } from '../../../src/core/spread/beta-distribution.ts';
import { pert, pertCdf, pertDeviation, pertMean, pertQuantile } from '../../../src/core/spread/pert.ts';

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

describe('PERT distribution', () => {
  const cases = [
    [10, 20, 40],
    [-3, -1, 0],
    [0, 0, 8],
    [1, 5, 5],
    [0.2, 0.3, 0.4],
  ] as const;

  it.each(cases)('from %d over %d to %d has the mean and deviation in closed form', (low, likely, high) => {
    const d = pert(low, likely, high);
    const mean = (low + 4 * likely + high) / 6;
    expect(pertMean(d)).toBeCloseTo(mean, 12);
    expect(pertDeviation(d)).toBeCloseTo(Math.sqrt(((mean - low) * (high - mean)) / 7), 12);
    const a = 1 + (4 * (likely - low)) / (high - low);
    expect(pertMean(d)).toBeCloseTo(low + (high - low) * jstat.jStat.beta.mean(a, 6 - a), 12);
    expect(pertDeviation(d)).toBeCloseTo((high - low) * Math.sqrt(jstat.jStat.beta.variance(a, 6 - a)), 12);
  });

  it.each(cases)('from %d over %d to %d has the mean of its own quantiles', (low, likely, high) => {
    const d = pert(low, likely, high);
    const n = 20_000;
    let sum = 0;
    let square = 0;
    for (let i = 0; i < n; i++) {
      const x = pertQuantile(d, (i + 0.5) / n);
      sum += x / n;
      square += (x - pertMean(d)) ** 2 / n;
    }
    expect(Math.abs(sum - pertMean(d))).toBeLessThan(1e-5 * (high - low));
    expect(Math.abs(Math.sqrt(square) / pertDeviation(d) - 1)).toBeLessThan(2e-4);
  });

  it('is the polynomial of degree 5 for a symmetric range', () => {
    // a = b = 3: F(u) = 10 u^3 - 15 u^4 + 6 u^5.
    const d = pert(2, 5, 8);
    for (let x = 2; x <= 8; x += 0.125) {
      const u = (x - 2) / 6;
      expect(pertCdf(d, x)).toBeCloseTo(10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5, 14);
    }
    expect(pertQuantile(d, 0.5)).toBeCloseTo(5, 13);
  });

  it('is even between its ends for a weight of 0', () => {
    const d = pert(10, 12, 30, 0);
    expect(pertQuantile(d, 0.25)).toBeCloseTo(15, 12);
    expect(pertMean(d)).toBeCloseTo(20, 12);
  });

  it('scales and shifts with its range', () => {
    for (const p of [0, 0.1, 0.5, 0.9, 1]) {
      expect(pertQuantile(pert(10, 20, 40), p)).toBeCloseTo(10 + 10 * pertQuantile(pert(0, 1, 3), p), 11);
      expect(pertQuantile(pert(-40, -20, -10), p)).toBeCloseTo(-pertQuantile(pert(10, 20, 40), 1 - p), 11);
    }
  });

  it('is certain where low equals high', () => {
    const d = pert(3, 3, 3);
    expect([pertMean(d), pertDeviation(d), pertQuantile(d, 0.1), pertCdf(d, 2.9), pertCdf(d, 3)]).toEqual([
      3, 0, 3, 0, 1,
    ]);
  });

  it('refuses a likely value outside its ends', () => {
    expect(() => pert(10, 9, 12)).toThrow('likely is 9; must be at least low, 10');
    expect(() => pert(10, 13, 12)).toThrow('likely is 13; must be at most high, 12');
    expect(() => pert(12, 11, 10)).toThrow(CalcError);
    for (const bad of [NaN, Infinity]) {
      expect(() => pert(bad, 11, 12)).toThrow(CalcError);
      expect(() => pert(10, bad, 12)).toThrow(CalcError);
      expect(() => pert(10, 11, bad)).toThrow(CalcError);
    }
    expect(() => pert(10, 11, 12, -1)).toThrow(CalcError);
    for (const p of [-0.1, 1.1, NaN]) expect(() => pertQuantile(pert(3, 3, 3), p)).toThrow(CalcError);
  });
});
