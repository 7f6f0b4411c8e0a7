import { describe, expect, it } from 'vitest';
import { circles } from '../../src/engine/circular.ts';

const of = (edges: Readonly<Record<number, readonly number[]>>): number[][] =>
  circles(Object.keys(edges).map(Number), (node) => edges[node] ?? []).map((circle) =>
    [...circle].sort((a, b) => a - b),
  );

describe('circles', () => {
  it('finds none in a tree, nor where two ways lead to one node', () => {
    expect(of({ 1: [2, 3], 2: [4], 3: [4], 4: [] })).toEqual([]);
  });
  it('finds a node that uses itself', () => {
    expect(of({ 1: [1], 2: [] })).toEqual([[1]]);
  });
  it('finds two separate circles and leaves out what only leads to or from them', () => {
    expect(of({ 1: [2], 2: [3], 3: [2, 4], 4: [5], 5: [6], 6: [4, 7], 7: [] })).toEqual([
      [4, 5, 6],
      [2, 3],
    ]);
  });
  it('takes a chain of 100,000 without running out of stack', () => {
    const n = 100_000;
    expect(
      circles(
        Array.from({ length: n }, (_, i) => i),
        (node) => (node + 1 < n ? [node + 1] : []),
      ),
    ).toEqual([]);
    expect(
      circles(
        Array.from({ length: n }, (_, i) => i),
        (node) => [(node + 1) % n],
      )[0],
    ).toHaveLength(n);
  });
});
