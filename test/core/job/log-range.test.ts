import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { carriedRange, logMoments, logMomentsOfQuantiles, type Range } from '../../../src/core/job/log-range.ts';
import { johnson, johnsonCdf, johnsonQuantile } from '../../../src/core/spread/johnson.ts';
import { normalCdf } from '../../../src/core/spread/normal.ts';

const limited = (range: Range) => ({ ...range, min: 0, max: 1e6 });

describe('moments of the logarithm', () => {
  it('of a range with one ratio to either side are those of its lognormal', () => {
    const { mean, deviation } = logMoments(limited({ low: 10, value: 20, high: 40 }));
    expect(mean).toBeCloseTo(Math.log(20), 4);
    // 1.2816 is the normal quantile of 0.9.
    expect(deviation / (Math.log(2) / 1.2816)).toBeCloseTo(1, 2);
  });

  it('of a skewed range agree with direct integration of the probability', () => {
    const range = { low: 0.5, value: 1, high: 4, min: 0, max: 10 };
    const d = johnson(range);
    const n = 20_000;
    let [first, second, before] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      // Even steps of ln x from ln 0.005 to ln 10.
      const l = Math.log(0.005) + ((i + 0.5) / n) * Math.log(2000);
      const p = johnsonCdf(d, Math.exp(l + Math.log(2000) / n / 2));
      first += (p - before) * l;
      second += (p - before) * l * l;
      before = p;
    }
    const { mean, deviation } = logMoments(range);
    expect(mean).toBeCloseTo(first, 2);
    expect(deviation / Math.sqrt(second - first ** 2)).toBeCloseTo(1, 2);
  });

  it('of a lognormal range put the stated probability between its ends', () => {
    const { mean, deviation } = logMomentsOfQuantiles(2, 8, 0.8);
    expect(Math.exp(mean)).toBeCloseTo(4, 12);
    expect(normalCdf((Math.log(8) - mean) / deviation) - normalCdf((Math.log(2) - mean) / deviation)).toBeCloseTo(
      0.8,
      12,
    );
  });

  it('need positive ends in order', () => {
    expect(() => logMoments(limited({ low: 0, value: 1, high: 2 }))).toThrow(CalcError);
    expect(() => logMomentsOfQuantiles(0, 1, 0.8)).toThrow(CalcError);
    expect(() => logMomentsOfQuantiles(2, 2, 0.8)).toThrow(CalcError);
    for (const p of [0, 1, -1, NaN]) expect(() => logMomentsOfQuantiles(1, 2, p)).toThrow(CalcError);
  });
});

describe('a carried range', () => {
  const range = { low: 0.15, value: 0.25, high: 0.4 };
  const from = logMoments(limited(range));

  it('is the same for the same moments', () => {
    expect(carriedRange(range, from, { ...from })).toEqual(range);
  });

  it('has the moments it was carried to within a tenth of the deviation', () => {
    const to = { mean: from.mean + 0.2, deviation: from.deviation / 2 };
    const moments = logMoments(limited(carriedRange(range, from, to)));
    expect(Math.abs(moments.mean - to.mean)).toBeLessThan(0.1 * to.deviation);
    expect(Math.abs(moments.deviation / to.deviation - 1)).toBeLessThan(0.1);
  });

  it('stands where a near normal log leaves its median, by integration of prior and likelihood', () => {
    const skewed = { low: 450, value: 720, high: 1020, min: 0, max: 7200 };
    const before = logMoments(skewed);
    const distribution = johnson(skewed);
    const cells = Array.from({ length: 20_000 }, (_, i) => Math.log(johnsonQuantile(distribution, (i + 0.5) / 20_000)));
    for (const [at, deviation] of [
      [Math.log(720), 0.3],
      [Math.log(500), 0.15],
      [Math.log(950), 0.1],
      [Math.log(720), 0.04],
    ] as const) {
      const weights = cells.map((l) => Math.exp(-(((l - at) / deviation) ** 2) / 2));
      const all = weights.reduce((sum, w) => sum + w, 0);
      const over = (of: (l: number) => number): number =>
        cells.reduce((sum, l, i) => sum + (weights[i]! / all) * of(l), 0);
      const mean = over((l) => l);
      const to = { mean, deviation: Math.sqrt(over((l) => (l - mean) ** 2)) };
      let left = all / 2;
      const median = cells.find((_, i) => (left -= weights[i]!) <= 0)!;
      const off = Math.log(carriedRange(skewed, before, to).value) - median;
      expect(Math.abs(off), String(deviation)).toBeLessThan(0.06 * to.deviation);
    }
  });

  it('keeps its order and narrows with the deviation', () => {
    const narrow = carriedRange(range, from, { mean: from.mean, deviation: from.deviation / 4 });
    expect(narrow.low).toBeGreaterThan(range.low);
    expect(narrow.high).toBeLessThan(range.high);
    expect(narrow.low < narrow.value && narrow.value < narrow.high).toBe(true);
  });
});
