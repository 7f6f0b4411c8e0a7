import { describe, expect, it } from 'vitest';
import { conformalRange } from '../../../src/core/spread/conformal.ts';
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
});
