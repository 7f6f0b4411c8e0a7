import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundTicks } from '../../../src/pane/charts/scale.ts';

describe('the marks of an axis', () => {
  it.each([
    [0, 40, 4, [0, 10, 20, 30, 40]],
    [0, 0.3, 4, [0, 0.1, 0.2, 0.3]],
    [-20, 1510, 4, [0, 500, 1000, 1500]],
    [0.15, 0.4, 5, [0.15, 0.2, 0.25, 0.3, 0.35, 0.4]],
    [1900, 2400, 5, [1900, 2000, 2100, 2200, 2300, 2400]],
    [3, 3, 4, []],
    [5, 2, 4, []],
  ] as const)('from %d to %d in at most %i steps', (low, high, most, marks) => {
    expect(roundTicks(low, high, most)).toEqual(marks);
  });

  it('are round, evenly apart, inside, as many as asked at most, and never crowd out', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fc.integer({ min: 2, max: 10 }),
        (low, span, most) => {
          const high = low + span;
          const ticks = roundTicks(low, high, most);
          expect(ticks.length).toBeLessThanOrEqual(most + 1);
          const slack = 1e-8 * Math.max(Math.abs(low), Math.abs(high));
          for (const t of ticks) expect(t >= low - slack && t <= high + slack).toBe(true);
          const [first, second] = ticks;
          if (first === undefined || second === undefined) return;
          const step = second - first;
          const mantissa = step / 10 ** Math.floor(Math.log10(step) + 1e-6);
          expect([1, 2, 5].some((m) => Math.abs(mantissa / m - 1) < 1e-4)).toBe(true);
          // The first mark lies less than a step from the low end, the last less than a step from the high end.
          expect(first - low).toBeLessThan(step + slack);
          expect(high - ticks.at(-1)!).toBeLessThan(step + slack);
        },
      ),
    );
  });
});
