import { describe, expect, it } from 'vitest';
import { harmonicMean } from '../../../src/core/oxygen/harmonic-mean.ts';

describe('harmonicMean', () => {
  it('is the constant of a constant', () => {
    expect(harmonicMean(() => 7, 1, 4)).toBeCloseTo(7, 12);
  });

  it('is exact where the inverse is a polynomial', () => {
    // 1 / f = x^3 from 1 to 2: integral 15 / 4.
    expect(harmonicMean((x) => 1 / x ** 3, 1, 2)).toBeCloseTo(4 / 15, 12);
  });
});
