import { describe, expect, it } from 'vitest';
import { findRoot } from '../../../src/core/oxygen/find-root.ts';

describe('findRoot', () => {
  it('finds smooth, steep, flat and stepped crossings', () => {
    expect(findRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 11);
    expect(findRoot((x) => Math.exp(20 * x) - 5, -1, 3)).toBeCloseTo(Math.log(5) / 20, 11);
    expect(findRoot((x) => (x - 1) ** 9, 0, 3)).toBeCloseTo(1, 1);
    expect(findRoot((x) => (x < 0.3 ? -1 : 1), 0, 1)).toBeCloseTo(0.3, 11);
  });

  it('takes a root at an end and either order of signs', () => {
    expect(findRoot((x) => x, 0, 1)).toBe(0);
    expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
    expect(findRoot((x) => 0.25 - x, 0, 1)).toBeCloseTo(0.25, 11);
  });

  it('needs few looks at a smooth function', () => {
    let looks = 0;
    findRoot((x) => (looks++, Math.cos(x) - x), 0, 2);
    expect(looks).toBeLessThan(14);
  });
});
