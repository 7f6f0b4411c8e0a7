import { describe, expect, it } from 'vitest';
import { wholeTowards } from '../../../src/core/operations/spread-item.ts';

describe('whole rods of a percentile', () => {
  it('go down below the middle and up above it, so that the true one lies between', () => {
    expect([0.1, 0.49, 0.5, 0.9].map((p) => wholeTowards(3.5, p))).toEqual([3, 3, 4, 4]);
  });

  it('stay where they are whole but for the last bits', () => {
    for (const p of [0.1, 0.9]) for (const off of [0, 1e-12, -1e-12]) expect(wholeTowards(4 + off, p)).toBe(4);
  });

  it('stay without end where the heat does not suffice', () => {
    expect([0.1, 0.9].map((p) => wholeTowards(Infinity, p))).toEqual([Infinity, Infinity]);
  });
});
