import { describe, expect, it } from 'vitest';
import { integrate } from '../../../src/core/oxygen/integrate.ts';

const never = (): number => 1;

describe('integrate', () => {
  it('follows a decay and an oscillation within what was asked', () => {
    const end = integrate((_, [y]) => [-y!], [1], 3, [1e-8], never);
    expect(end.y[0]).toBeCloseTo(Math.exp(-3), 6);
    expect(end.stopped).toBe(false);
    const swing = integrate((_, [x, v]) => [v!, -x!], [1, 0], 2 * Math.PI, [1e-8, 1e-8], never);
    expect(swing.y[0]).toBeCloseTo(1, 5);
    expect(swing.y[1]).toBeCloseTo(0, 5);
  });

  it('errs less for a finer tolerance', () => {
    const miss = (tolerance: number): number =>
      Math.abs(integrate((t, [y]) => [Math.cos(t) * y!], [1], 5, [tolerance], never).y[0]! - Math.exp(Math.sin(5)));
    expect(miss(1e-8)).toBeLessThan(miss(1e-5));
  });

  it('stops where the stopping function reaches zero', () => {
    const end = integrate(
      (_, [y]) => [-y!],
      [1],
      10,
      [1e-9],
      ([y]) => y! - 0.5,
    );
    expect(end.stopped).toBe(true);
    expect(end.time).toBeCloseTo(Math.LN2, 6);
    expect(end.y[0]).toBeCloseTo(0.5, 8);
    expect(
      integrate(
        (_, [y]) => [-y!],
        [1],
        10,
        [1e-9],
        () => 0,
      ),
    ).toEqual({ time: 0, y: [1], stopped: true });
  });

  it('shortens a step whose trial leaves the equation', () => {
    const end = integrate((_, [y]) => (y! < 0 ? [NaN] : [-Math.sqrt(y!)]), [1], 1.9, [1e-7], never);
    expect(end.y[0]).toBeCloseTo((1 - 0.95) ** 2, 5);
  });
});
