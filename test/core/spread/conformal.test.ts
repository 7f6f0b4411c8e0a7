import { describe, expect, it } from 'vitest';
import { conformalRange, conformalSize } from '../../../src/core/spread/conformal.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';

describe('a range that rests on no model', () => {
  it('needs nine figures for eight cases of ten', () => {
    expect(conformalRange([3, 1, 2, 4, 8, 7, 6, 5], 0.8)).toBeUndefined();
    expect(conformalRange([3, 1, 2, 4, 9, 8, 7, 6, 5], 0.8)).toEqual([1, 9]);
    expect(
      conformalRange(
        Array.from({ length: 20 }, (_, i) => i + 1),
        0.8,
      ),
    ).toEqual([2, 19]);
  });

  it.each([9, 20, 50])('holds the next figure as often as it says, after %i, whatever they come from', (count) => {
    const { uniform } = seeded(7 + count);
    // Far from normal: two kinds of jobs, and a long tail.
    const figure = (): number => (uniform() < 0.3 ? 3 : 1) / (0.02 + uniform()) ** 0.7;
    const logs = 4000;
    let held = 0;
    for (let i = 0; i < logs; i++) {
      const [low, high] = conformalRange(Array.from({ length: count }, figure), 0.8)!;
      const next = figure();
      if (next >= low && next <= high) held++;
    }
    const claimed = 1 - (2 * Math.floor((count + 1) / 10)) / (count + 1);
    expect(Math.abs(held / logs - claimed)).toBeLessThan(0.02);
    expect(held / logs).toBeGreaterThan(0.77);
    expect(held / logs).toBeLessThan(0.83);
  });

  it.each([9, 11, 12, 17, 20])('stays over the next size as often as it says, after %i', (count) => {
    const { uniform } = seeded(100 + count);
    const size = (): number => (uniform() < 0.3 ? 3 : 1) / (0.02 + uniform()) ** 0.7;
    const logs = 6000;
    let held = 0;
    for (let i = 0; i < logs; i++) if (size() <= conformalSize(Array.from({ length: count }, size), 0.8)!) held++;
    expect(Math.abs(held / logs - 0.8)).toBeLessThan(0.02);
  });

  it('has no size for fewer than nine, and reads between two where its place is not whole', () => {
    const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, i) => n - i);
    expect(conformalSize(upTo(8), 0.8)).toBeUndefined();
    expect(conformalSize(upTo(9), 0.8)).toBeCloseTo(8, 6);
    expect(conformalSize(upTo(10), 0.8)).toBeCloseTo(8.8, 6);
    expect(conformalSize(upTo(14), 0.8)).toBeCloseTo(12, 6);
    expect(conformalSize([...upTo(8), Infinity], 0.8)).toBeCloseTo(8, 6);
    expect(conformalSize([...upTo(7), Infinity, Infinity], 0.8)).toBe(Infinity);
  });
});
