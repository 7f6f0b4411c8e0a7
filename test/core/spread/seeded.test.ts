import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../../src/core/spread/normal.ts';
import { seeded, xoshiro128 } from '../../../src/core/spread/seeded.ts';

describe('seeded numbers', () => {
  it('follow the reference sequence of xoshiro128**', () => {
    // From the authors' xoshiro128starstar.c, version 1.1, state 1, 2, 3, 4 (test vector of the Rust crate rand_xoshiro).
    const { bits } = xoshiro128([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, bits)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('repeat with the seed and differ without it', () => {
    const take = (seed: number): number[] => Array.from({ length: 20 }, seeded(seed).uniform);
    expect(take(5)).toEqual(take(5));
    expect(take(5)).not.toEqual(take(6));
    expect(new Set([...take(0), ...take(1), ...take(-1)]).size).toBe(60);
  });

  it('are uniform in 0 to 1 (chi-squared, 100 cells)', () => {
    const { uniform } = seeded(2024);
    const cells = new Array<number>(100).fill(0);
    const n = 100_000;
    for (let i = 0; i < n; i++) {
      const u = uniform();
      expect(u >= 0 && u < 1).toBe(true);
      const cell = Math.floor(u * 100);
      cells[cell] = (cells[cell] ?? 0) + 1;
    }
    const chi = cells.reduce((sum, c) => sum + (c - n / 100) ** 2 / (n / 100), 0);
    // 99 degrees of freedom: 0.1 % and 99.9 % points 61.1 and 148.2.
    expect(chi).toBeGreaterThan(61.1);
    expect(chi).toBeLessThan(148.2);
  });

  it('are normal where asked (Kolmogorov-Smirnov)', () => {
    const n = 10_000;
    const { normal } = seeded(7);
    const sorted = Array.from({ length: n }, normal).sort((a, b) => a - b);
    const distance = Math.max(...sorted.map((x, i) => Math.abs(normalCdf(x) - (i + 0.5) / n)));
    expect(distance * Math.sqrt(n)).toBeLessThan(1.95); // 0.1 % point
  });

  it('of neighbouring seeds are unrelated', () => {
    const n = 4000;
    const a = seeded(100);
    const b = seeded(101);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += a.normal() * b.normal();
    expect(Math.abs(sum / Math.sqrt(n))).toBeLessThan(3.5);
  });
});
