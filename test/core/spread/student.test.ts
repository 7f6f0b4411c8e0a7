import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { normalQuantile } from '../../../src/core/spread/normal.ts';
import { studentQuantile } from '../../../src/core/spread/student.ts';

describe('Student t quantile', () => {
  // SciPy 1.17.1, scipy.stats.t: probability, degrees of freedom, value.
  it.each([
    [0.975, 1, 12.706204736174694],
    [0.975, 10, 2.228138851986274],
    [0.9, 2.5, 1.7302509288071766],
    [0.9, 22, 1.321236741613362],
    [0.999, 5, 5.893429531356009],
    [0.1, 30, -1.3104150253913955],
    [0.500001, 7, 2.5974602756555918e-6],
    [0.9, 1e5, 1.2815600314493614],
  ])('at probability %d with %d degrees agrees with an independent program', (p, degrees, t) => {
    expect(Math.abs(studentQuantile(p, degrees) / t - 1)).toBeLessThan(1e-9);
  });

  it('is the closed form for one and two degrees', () => {
    // n = 1: tan(pi (p - 1/2)); n = 2: (2 p - 1)/sqrt(2 p (1 - p)).
    for (let p = 0.02; p < 1; p += 0.02) {
      expect(studentQuantile(p, 1)).toBeCloseTo(Math.tan(Math.PI * (p - 0.5)), 10);
      expect(studentQuantile(p, 2)).toBeCloseTo((2 * p - 1) / Math.sqrt(2 * p * (1 - p)), 10);
    }
  });

  it('tends to the normal distribution', () => {
    for (const p of [0.01, 0.1, 0.5, 0.9]) {
      expect(studentQuantile(p, 1e6)).toBeCloseTo(normalQuantile(p), 5);
      expect(studentQuantile(p, Infinity)).toBe(normalQuantile(p));
    }
  });

  it('refuses a probability of 0 or 1 and less than one degree', () => {
    for (const p of [0, 1, NaN]) expect(() => studentQuantile(p, 3)).toThrow(CalcError);
    for (const n of [0, 0.5, -1, NaN]) expect(() => studentQuantile(0.9, n)).toThrow(CalcError);
  });
});
