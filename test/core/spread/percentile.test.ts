import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { percentile, percentileOfSorted } from '../../../src/core/spread/percentile.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';

const AT = [0, 0.25, 0.5, 0.75, 1];

describe('percentile', () => {
  it.each([
    // Printed by R (quantile, type 7): a question on five-number summaries, Mathematics Stack Exchange.
    [
      [7, 12, 9, 1],
      [1, 5.5, 8, 9.75, 12],
    ],
    [
      [2, 5, 8, 12, 15, 18],
      [2, 5.75, 10, 14.25, 18],
    ],
    // Printed by R for the miles per gallon of its data set mtcars (de Vries and Meys, R for Dummies).
    [
      [
        21, 21, 22.8, 21.4, 18.7, 18.1, 14.3, 24.4, 22.8, 19.2, 17.8, 16.4, 17.3, 15.2, 10.4, 10.4, 14.7, 32.4, 30.4,
        33.9, 21.5, 15.5, 15.2, 13.3, 19.2, 27.3, 26, 30.4, 15.8, 19.7, 15, 21.4,
      ],
      [10.4, 15.425, 19.2, 22.8, 33.9],
    ],
  ] as const)('of %j has the quartiles printed by R', (values, quartiles) => {
    AT.forEach((p, i) => expect(percentile(values, p)).toBeCloseTo(quartiles[i] ?? NaN, 12));
  });

  it('agrees with the statistics library', () => {
    const random = seeded(11);
    for (let n = 2; n < 40; n++) {
      const values = Array.from({ length: n }, random.normal);
      // alpha = beta = 1 is definition 7. (The library's `percentile` is not used: it drops the topmost interval.)
      for (let p = 0; p <= 1; p += 0.05)
        expect(percentile(values, p)).toBeCloseTo(jstat.jStat.quantiles(values, [p], 1, 1)[0] ?? NaN, 12);
    }
  });

  it('rises with p, ends at least and greatest, and leaves the list alone', () => {
    const values = [5, -2, 9, 9, 0.5];
    for (let p = 0.01; p <= 1; p += 0.01)
      expect(percentile(values, p)).toBeGreaterThanOrEqual(percentile(values, p - 0.01));
    expect(percentile(values, 0)).toBe(-2);
    expect(percentile(values, 1)).toBe(9);
    expect(values).toEqual([5, -2, 9, 9, 0.5]);
    expect(percentileOfSorted([-2, 0.5, 5, 9, 9], 0.3)).toBe(percentile(values, 0.3));
  });

  it('of one value is that value', () => {
    for (const p of AT) expect(percentile([4.2], p)).toBe(4.2);
  });

  it('refuses an empty list, a value that is no number, and p outside 0 to 1', () => {
    expect(() => percentile([], 0.5)).toThrow(CalcError);
    expect(() => percentile([1, NaN, 2], 0.5)).toThrow(CalcError);
    for (const p of [-0.1, 1.1, NaN]) expect(() => percentile([1, 2], p)).toThrow(CalcError);
  });
});
