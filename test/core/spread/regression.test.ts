import { describe, expect, it } from 'vitest';
import { normalColumn } from '../../../src/core/spread/draws.ts';
import { residuals } from '../../../src/core/spread/regression.ts';

const COUNT = 1024;
const z = [0, 1, 2].map((k) => normalColumn(k, COUNT, 5)) as [Float64Array, Float64Array, Float64Array];
const deviation = (x: Float64Array): number => Math.sqrt(x.reduce((sum, v) => sum + v * v, 0) / x.length);

describe('what is left of draws', () => {
  it('is nothing of a cubic of the score', () => {
    const y = z[0].map((x) => 4 - 2 * x + 0.5 * x * x + 0.3 * x * x * x);
    expect(deviation(residuals(y, [z[0]])!)).toBeLessThan(1e-10);
  });

  it('is what the other scores bring in', () => {
    const y = z[0].map((x, i) => 10 + 3 * x + 2 * z[1][i]! + z[2][i]!);
    expect(deviation(residuals(y, [z[0]])!)).toBeCloseTo(Math.sqrt(5), 1);
    expect(deviation(residuals(y, [z[0], z[1]])!)).toBeCloseTo(1, 1);
  });

  it('is not made out of scores that say the same twice', () => {
    expect(residuals(z[1], [z[0], z[0]])).toBeUndefined();
  });
});
