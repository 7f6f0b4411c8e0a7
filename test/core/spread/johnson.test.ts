import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { isChoice } from '../../../src/core/assumptions/assumption.ts';
import { Assumptions, type Uncertain } from '../../../src/core/assumptions/assumptions.ts';
import { REGISTRY } from '../../../src/core/assumptions/registry.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { johnson, johnsonCdf, johnsonColumn, johnsonQuantile } from '../../../src/core/spread/johnson.ts';
import { normalQuantile } from '../../../src/core/spread/normal.ts';

const C = normalQuantile(0.9);
const of = (low: number, value: number, high: number, min = 0, max = 1e12): Uncertain => ({
  low,
  value,
  high,
  min,
  max,
});

// Invented ranges: even, skewed to either side, one-sided, at a limit, far from the limits.
const RANGES: readonly Uncertain[] = [
  of(0.15, 0.25, 0.4, 0.02, 1),
  of(0.6, 0.75, 0.85, 0, 1),
  of(42, 43, 50, 0.5, 1000),
  of(10, 24, 30, 0.5, 200),
  of(1, 2, 3, 0, 4),
  of(2, 5, 20, -500, 500),
  of(500, 2000, 10000, 1, 1e6),
  of(5, 5, 9, 0, 100),
  of(5, 9, 9, 0, 100),
  of(0, 0.03, 0.08, 0, 1),
  of(0.75, 0.9, 1, 0.2, 1),
  of(0, 0.25, 1, 0, 1),
  of(0, 0, 10, 0, 40),
  of(-3, 0, 3, -Infinity, Infinity),
];
const PS = [1e-9, 1e-6, 0.001, 0.01, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.95, 0.99, 0.999, 1 - 1e-6, 1 - 1e-9];
const name = ({ low, value, high, min, max }: Uncertain): string => `${low}, ${value}, ${high} in ${min} to ${max}`;

describe('a distribution by its median, P10, P90 and limits', () => {
  it.each(RANGES.map((range) => [name(range), range] as const))('of %s has all three', (_, range) => {
    const d = johnson(range);
    const near = (p: number, x: number): void =>
      expect(Math.abs(johnsonQuantile(d, p) - x)).toBeLessThan(1e-12 * Math.max(Math.abs(x), range.high - range.low));
    near(0.1, range.low);
    near(0.5, range.value);
    near(0.9, range.high);
  });

  it.each(RANGES.map((range) => [name(range), range] as const))('of %s rises within its limits', (_, range) => {
    const d = johnson(range);
    let before = -Infinity;
    for (const p of PS) {
      const x = johnsonQuantile(d, p);
      expect(x).toBeGreaterThanOrEqual(before);
      expect(x >= range.min && x <= range.max).toBe(true);
      before = x;
    }
  });

  it.each(RANGES.map((range) => [name(range), range] as const))('of %s runs both ways', (_, range) => {
    const d = johnson(range);
    for (const p of PS) {
      const x = johnsonQuantile(d, p);
      const [here, just] = [johnsonCdf(d, x), johnsonCdf(d, x - 1e-9 * (range.high - range.low))];
      // Where many cases stand on one value, all of them are at most that.
      expect(here).toBeGreaterThan(p - 1e-12);
      expect(just).toBeLessThan(p + 1e-12);
    }
    expect(johnsonCdf(d, range.min - 1)).toBe(0);
    if (range.max < Infinity) expect(johnsonCdf(d, range.max)).toBe(1);
  });

  // Hadlock and Bickel 2017, J-QPD-S as the package rjqpd 0.2.3 for R states it: l + theta exp(lambda sinh(arsinh(delta z) +
  // arsinh(n c delta))), n the sign of L + H - 2 B; their limits are 0 and infinity.
  it.each([
    [2, 4, 6],
    [10, 20, 40],
    [10, 24, 30],
    [500, 2000, 10000],
    [1, 1.2, 9],
  ])('of %d, %d, %d above 0 is J-QPD-S', (low, value, high) => {
    const [L, B, H] = [Math.log(low), Math.log(value), Math.log(high)];
    const n = Math.abs(L + H - 2 * B) < 1e-12 ? 0 : Math.sign(L + H - 2 * B);
    const least = Math.min(B - L, H - B);
    const delta = Math.sinh(Math.acosh(Math.max(1, (H - L) / (2 * least)))) / C;
    const theta = n === 0 ? value : n > 0 ? low : high;
    for (const p of PS) {
      const z = normalQuantile(p);
      const published =
        n === 0
          ? value * Math.exp(((H - L) / (2 * C)) * z)
          : theta * Math.exp((least / (delta * C)) * Math.sinh(Math.asinh(delta * z) + Math.asinh(n * C * delta)));
      expect(johnsonQuantile(johnson(of(low, value, high, 0, Infinity)), p) / published).toBeCloseTo(1, 9);
      // A far limit is as good as none.
      if (p > 1e-7 && p < 1 - 1e-7)
        expect(johnsonQuantile(johnson(of(low, value, high, 0, 1e6 * high)), p) / published).toBeCloseTo(1, 2);
    }
  });

  it('is lognormal between 0 and a far limit where both halves have one ratio', () => {
    const d = johnson(of(10, 20, 40));
    // jStat's own inverse normal is good to about 1e-9.
    for (const p of PS.filter((x) => x >= 0.001 && x <= 0.999))
      expect(johnsonQuantile(d, p) / (20 * Math.exp((Math.log(2) / C) * jstat.jStat.normal.inv(p, 0, 1)))).toBeCloseTo(
        1,
        5,
      );
  });

  it('is even about the middle of its limits where all is', () => {
    const d = johnson(of(1, 2, 3, 0, 4));
    for (const p of PS) expect(johnsonQuantile(d, p) + johnsonQuantile(d, 1 - p)).toBeCloseTo(4, 6);
  });

  it('turns round with its range', () => {
    const [one, other] = [johnson(of(42, 43, 50, 0, 200)), johnson(of(-50, -43, -42, -200, 0))];
    for (const p of PS.slice(1, -1)) expect(johnsonQuantile(one, p)).toBeCloseTo(-johnsonQuantile(other, 1 - p), 6);
  });

  it('scales with its unit', () => {
    const [inches, metres] = [
      johnson(of(6, 10, 30, 1, 90)),
      johnson(of(6 * 0.0254, 0.254, 30 * 0.0254, 0.0254, 90 * 0.0254)),
    ];
    for (const p of PS) expect(johnsonQuantile(metres, p) / johnsonQuantile(inches, p)).toBeCloseTo(0.0254, 12);
  });

  it('is certain where low, value and high are one', () => {
    const d = johnson(of(3, 3, 3));
    expect([johnsonQuantile(d, 0.01), johnsonQuantile(d, 0.99), johnsonCdf(d, 2.9), johnsonCdf(d, 3)]).toEqual([
      3, 3, 0, 1,
    ]);
  });

  it('has half of its cases at the value where low or high is the value', () => {
    for (const p of [0.001, 0.1, 0.3, 0.5]) expect(johnsonQuantile(johnson(of(5, 5, 9, 0, 100)), p)).toBe(5);
    for (const p of [0.5, 0.7, 0.9, 0.999]) expect(johnsonQuantile(johnson(of(5, 9, 9, 0, 100)), p)).toBe(9);
    expect(johnsonCdf(johnson(of(5, 5, 9, 0, 100)), 5)).toBe(0.5);
  });

  it('comes near a one-sided range as its low comes near the value', () => {
    const [near, at] = [johnson(of(5 - 1e-9, 5, 9, 0, 100)), johnson(of(5, 5, 9, 0, 100))];
    for (const p of PS.slice(3, -3))
      expect(Math.abs(johnsonQuantile(near, p) - johnsonQuantile(at, p))).toBeLessThan(1e-3);
  });

  it('puts what would pass a limit that low or high touches on it', () => {
    for (const p of [1e-6, 0.05, 0.1]) expect(johnsonQuantile(johnson(of(0, 0.03, 0.08, 0, 1)), p)).toBeCloseTo(0, 15);
    for (const p of [0.9, 0.99]) expect(johnsonQuantile(johnson(of(0.75, 0.9, 1, 0.2, 1)), p)).toBeCloseTo(1, 15);
  });

  it('does not run to its limits in a long tail', () => {
    // J-QPD-B of the same triplet, out of the same paper, has its P99 at 104 here.
    expect(johnsonQuantile(johnson(of(42, 43, 50, 0.5, 1000)), 0.99)).toBeLessThan(60);
  });

  it('of a column is that of each number', () => {
    const z = Float64Array.from(PS, normalQuantile);
    for (const range of RANGES)
      expect([...johnsonColumn(johnson(range), z)]).toEqual(PS.map((p) => johnsonQuantile(johnson(range), p)));
  });

  it('takes every assumption of the register', () => {
    const a = Assumptions.defaults();
    for (const entry of REGISTRY) {
      if (isChoice(entry)) continue;
      const range = a.inForce(entry.name);
      expect(Math.abs(johnsonQuantile(johnson(range), 0.9) - range.high), entry.name).toBeLessThanOrEqual(
        1e-12 * Math.max(Math.abs(range.high), range.high - range.low),
      );
    }
  });

  it('refuses what is out of order or no number', () => {
    expect(() => johnson(of(10, 9, 12))).toThrow('value is 9; must be at least low, 10');
    expect(() => johnson(of(10, 13, 12))).toThrow('value is 13; must be at most high, 12');
    expect(() => johnson(of(-1, 1, 2))).toThrow(CalcError);
    expect(() => johnson(of(1, 2, 9, 0, 8))).toThrow(CalcError);
    for (const bad of [NaN, Infinity]) {
      expect(() => johnson(of(bad, 11, 12))).toThrow(CalcError);
      expect(() => johnson(of(10, bad, 12))).toThrow(CalcError);
      expect(() => johnson(of(10, 11, bad))).toThrow(CalcError);
    }
    for (const p of [-0.1, 0, 1, NaN]) expect(() => johnsonQuantile(johnson(of(1, 2, 3)), p)).toThrow(CalcError);
  });
});
