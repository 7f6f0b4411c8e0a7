import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { drawPercentile, drawPercentiles, percentilesWithin } from '../../../src/core/spread/draw-percentile.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { sobolColumn } from '../../../src/core/spread/sobol.ts';

const sortedAt = (values: Float64Array, p: number): number => {
  const s = Float64Array.from(values).sort();
  const h = Math.min(Math.max(s.length * p - 0.5, 0), s.length - 1);
  const low = s[Math.floor(h)] ?? NaN;
  return h === Math.floor(h) ? low : low + (h - Math.floor(h)) * ((s[Math.floor(h) + 1] ?? NaN) - low);
};

describe('percentiles of draws', () => {
  it('are those of definition 5 of Hyndman and Fan', () => {
    // R: quantile(c(1, 7, 9, 12), c(.25, .5, .9), type = 5), by hand: h + 1/2 = 4 p + 1/2.
    const draws = Float64Array.of(7, 12, 9, 1);
    expect(drawPercentiles(draws, [0.25, 0.5, 0.9])).toEqual([4, 8, 12]);
    expect([...draws]).toEqual([7, 12, 9, 1]);
  });

  it('agree with a sort for any number, with ties and with infinity', () => {
    const { bits, uniform } = seeded(1);
    for (let t = 0; t < 3000; t++) {
      const n = 1 + (bits() % 1500);
      const draws = Float64Array.from({ length: n }, () => (t % 3 === 0 ? Math.floor(uniform() * 8) : uniform()));
      if (t % 7 === 0) draws.fill(Infinity, 0, Math.floor(n / 5));
      const shares = [uniform() / 2, 0.5 + uniform() / 2];
      const expected = shares.map((p) => sortedAt(draws, p));
      drawPercentiles(draws, shares).forEach((value, i) => {
        const right = expected[i] ?? NaN;
        if (Number.isFinite(right)) expect(Math.abs(value - right)).toBeLessThanOrEqual(1e-12);
        else expect(value).toBe(Infinity);
      });
    }
  });

  it('stay right where the first draws say nothing of the rest', () => {
    const rising = Float64Array.from({ length: 1000 }, (_, i) => i);
    expect(drawPercentiles(rising, [0.1, 0.9])).toEqual([99.5, 899.5]);
  });

  it('are exact for evenly spread draws of a uniform number, and close for a normal one', () => {
    const points = sobolColumn(3, 1024, 438);
    for (const p of [0.05, 0.1, 0.5, 0.9, 0.95]) {
      expect(Math.abs(drawPercentile(points, p) - p)).toBeLessThan(1 / 1024);
      const normal = points.map((u) => jstat.jStat.normal.inv(u, 0, 1));
      expect(Math.abs(drawPercentile(normal, p) - jstat.jStat.normal.inv(p, 0, 1))).toBeLessThan(0.01);
    }
  });
});

describe('the interval of a percentile', () => {
  it('holds that of all possible draws in 95 cases of 100', () => {
    const { uniform } = seeded(5);
    for (const p of [0.1, 0.5, 0.9]) {
      let held = 0;
      for (let t = 0; t < 3000; t++) {
        const { value, within } = percentilesWithin(
          Float64Array.from({ length: 1024 }, () => uniform()),
          [p],
        )[0]!;
        // Of numbers between 0 and 1 the percentile is the share itself.
        if (Math.abs(value - p) <= within) held++;
      }
      expect(held / 3000, String(p)).toBeGreaterThan(0.93);
      expect(held / 3000, String(p)).toBeLessThan(0.97);
    }
  });

  it('is open where the draws above are without end', () => {
    const draws = Float64Array.from({ length: 100 }, (_, i) => (i < 89 ? i : Infinity));
    expect(percentilesWithin(draws, [0.85, 0.95])).toEqual([
      { value: 84.5, within: Infinity, close: false },
      { value: Infinity, within: Infinity, close: true },
    ]);
  });
});
