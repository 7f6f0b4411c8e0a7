import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { carriedRange, logMomentsOfPert, logMomentsOfQuantiles } from '../../../src/core/job/log-range.ts';
import { normalCdf } from '../../../src/core/spread/normal.ts';
import { pert, pertDeviation, pertMean } from '../../../src/core/spread/pert.ts';

describe('moments of the logarithm', () => {
  it('of a narrow range are those of the range over its mean', () => {
    const range = { low: 98, likely: 100, high: 103 };
    const d = pert(range.low, range.likely, range.high);
    const { mean, deviation } = logMomentsOfPert(range);
    expect(mean).toBeCloseTo(Math.log(pertMean(d)), 4);
    expect(deviation / (pertDeviation(d) / pertMean(d))).toBeCloseTo(1, 2);
  });

  it('of a uniform-like wide range agree with direct integration of the density', () => {
    // Density of PERT 0.1, 1, 4 integrated by the midpoint rule in x.
    const [low, likely, high] = [0.1, 1, 4];
    const a = 1 + (4 * (likely - low)) / (high - low);
    const n = 200_000;
    let [total, first, second] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const u = (i + 0.5) / n;
      const f = u ** (a - 1) * (1 - u) ** (5 - a);
      const l = Math.log(low + (high - low) * u);
      total += f;
      first += f * l;
      second += f * l * l;
    }
    const { mean, deviation } = logMomentsOfPert({ low, likely, high });
    expect(mean).toBeCloseTo(first / total, 3);
    expect(deviation / Math.sqrt(second / total - (first / total) ** 2)).toBeCloseTo(1, 2);
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
    expect(() => logMomentsOfPert({ low: 0, likely: 1, high: 2 })).toThrow(CalcError);
    expect(() => logMomentsOfQuantiles(0, 1, 0.8)).toThrow(CalcError);
    expect(() => logMomentsOfQuantiles(2, 2, 0.8)).toThrow(CalcError);
    for (const p of [0, 1, -1, NaN]) expect(() => logMomentsOfQuantiles(1, 2, p)).toThrow(CalcError);
  });
});

describe('a carried range', () => {
  const range = { low: 0.15, likely: 0.25, high: 0.4 };
  const from = logMomentsOfPert(range);

  it('is the same for the same moments', () => {
    expect(carriedRange(range, from, { ...from })).toEqual(range);
  });

  it('has, as PERT, the moments it was carried to within a tenth of the deviation', () => {
    const to = { mean: from.mean + 0.2, deviation: from.deviation / 2 };
    const moments = logMomentsOfPert(carriedRange(range, from, to));
    expect(Math.abs(moments.mean - to.mean)).toBeLessThan(0.1 * to.deviation);
    expect(Math.abs(moments.deviation / to.deviation - 1)).toBeLessThan(0.1);
  });

  it('keeps its order and narrows with the deviation', () => {
    const narrow = carriedRange(range, from, { mean: from.mean, deviation: from.deviation / 4 });
    expect(narrow.low).toBeGreaterThan(range.low);
    expect(narrow.high).toBeLessThan(range.high);
    expect(narrow.low < narrow.likely && narrow.likely < narrow.high).toBe(true);
  });
});
