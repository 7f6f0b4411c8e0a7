import { describe, expect, it } from 'vitest';
import { normalColumn } from '../../../src/core/spread/draws.ts';
import { normalQuantile } from '../../../src/core/spread/normal.ts';
import { sobolColumn } from '../../../src/core/spread/sobol.ts';

describe('standard normal draws', () => {
  it('have mean 0 and deviation 1, and no two alike', () => {
    for (const dimension of [0, 7, 40]) {
      const z = normalColumn(dimension, 1024, 1);
      const mean = z.reduce((a, b) => a + b, 0) / z.length;
      expect(Math.abs(mean)).toBeLessThan(1e-3);
      expect(Math.sqrt(z.reduce((a, b) => a + (b - mean) ** 2, 0) / z.length)).toBeCloseTo(1, 2);
      expect(new Set(z).size).toBe(1024);
    }
  });

  it('repeat with the seed', () => {
    expect(normalColumn(3, 64, 5)).toEqual(normalColumn(3, 64, 5));
    expect(normalColumn(3, 64, 5)).not.toEqual(normalColumn(3, 64, 6));
  });

  it('stand in the middle of the cells of the scrambled points, however many', () => {
    for (const [dimension, count] of [
      [0, 1024],
      [1, 1000],
      [9, 5],
      [40, 1],
    ] as const) {
      const points = sobolColumn(dimension, count, 7);
      normalColumn(dimension, count, 7).forEach((z, i) =>
        expect(z).toBeCloseTo(normalQuantile((Math.floor(1024 * points[i]!) + 0.5) / 1024), 12),
      );
    }
  });
});
