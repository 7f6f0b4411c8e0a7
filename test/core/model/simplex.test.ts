import { describe, expect, it } from 'vitest';
import { overSimplex } from '../../../src/core/model/simplex.ts';

const corners = (at: readonly number[]): readonly (readonly [readonly number[], number])[] => {
  const all: (readonly [readonly number[], number])[] = [];
  overSimplex(at, (corner, weight) => {
    all.push([[...corner], weight]);
    return true;
  });
  return all;
};

describe('the simplex that holds a place', () => {
  it('has corners whose weighted mean is the place', () => {
    for (const at of [[0.25, 0.75], [-1.5, 2.25, 0.125], [3.5], [0.5, 0.5, 0.5, 0.5]]) {
      const all = corners(at);
      expect(all.reduce((sum, [, weight]) => sum + weight, 0)).toBeCloseTo(1, 14);
      at.forEach((x, axis) =>
        expect(all.reduce((sum, [corner, weight]) => sum + weight * corner[axis]!, 0)).toBeCloseTo(x, 14),
      );
    }
  });

  it('is one corner where the place is a point of the lattice', () => {
    expect(corners([2, -3])).toEqual([[[2, -3], 1]]);
    expect(corners([])).toEqual([[[], 1]]);
  });

  it('is left where a corner is refused', () => {
    let seen = 0;
    expect(overSimplex([0.5, 0.25], () => ++seen < 2)).toBe(false);
    expect(seen).toBe(2);
  });
});
