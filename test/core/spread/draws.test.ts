import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { drawsOf, pertDraws, type DrawnFactor } from '../../../src/core/spread/draws.ts';
import { percentile } from '../../../src/core/spread/percentile.ts';
import { pert, pertDeviation, pertMean, pertQuantile } from '../../../src/core/spread/pert.ts';

// Invented ranges.
const FACTORS: readonly DrawnFactor[] = [
  { name: 'share', low: 0.15, likely: 0.25, high: 0.4 },
  { name: 'temperature', low: 1900, likely: 2100, high: 2400 },
  { name: 'known', low: 3, likely: 3, high: 3 },
  { name: 'waste', low: 1, likely: 1, high: 1.5 },
];

describe('draws of factors', () => {
  const draws = pertDraws(FACTORS, 1024, 1);

  it('have the mean, deviation and percentiles of each distribution', () => {
    for (const { name, low, likely, high } of FACTORS) {
      const d = pert(low, likely, high);
      const column = drawsOf(draws, name);
      const mean = column.reduce((a, b) => a + b, 0) / column.length;
      const deviation = Math.sqrt(column.reduce((a, b) => a + (b - mean) ** 2, 0) / column.length);
      expect(Math.abs(mean - pertMean(d))).toBeLessThanOrEqual(5e-4 * (high - low));
      expect(Math.abs(deviation - pertDeviation(d))).toBeLessThanOrEqual(5e-4 * (high - low));
      for (const p of [0.1, 0.5, 0.9])
        expect(Math.abs(percentile(column, p) - pertQuantile(d, p))).toBeLessThanOrEqual(2e-3 * (high - low));
    }
  });

  it('stay within low and high', () => {
    for (const { name, low, high } of FACTORS)
      expect(drawsOf(draws, name).every((x) => x >= low && x <= high)).toBe(true);
  });

  it('repeat with the seed', () => {
    expect(pertDraws(FACTORS, 64, 5)).toEqual(pertDraws(FACTORS, 64, 5));
    expect(pertDraws(FACTORS, 64, 5)).not.toEqual(pertDraws(FACTORS, 64, 6));
  });

  it('settle to 1 % with 1024 draws at the tenth and ninetieth percentile of a product', () => {
    const at = (count: number, p: number, seed: number): number => {
      const d = pertDraws(FACTORS, count, seed);
      const product = Array.from({ length: count }, (_, i) =>
        FACTORS.reduce((x, { name }) => x * (drawsOf(d, name)[i] ?? NaN), 1),
      );
      return percentile(product, p);
    };
    for (const p of [0.1, 0.9]) {
      const truth = at(2 ** 15, p, 99);
      for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) expect(Math.abs(at(1024, p, seed) / truth - 1)).toBeLessThan(0.01);
    }
  });

  it('refuse a wrong range, an unknown name and too many factors', () => {
    expect(() => pertDraws([{ name: 'x', low: 2, likely: 1, high: 3 }], 8, 1)).toThrow(CalcError);
    expect(() => drawsOf(draws, 'shaer')).toThrow('factor "shaer" is not in the register');
    expect(() =>
      pertDraws(
        Array.from({ length: 65 }, (_, k) => ({ name: String(k), low: 1, likely: 1, high: 2 })),
        8,
        1,
      ),
    ).toThrow(CalcError);
  });
});
