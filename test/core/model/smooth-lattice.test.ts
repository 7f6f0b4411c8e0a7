import { describe, expect, it } from 'vitest';
import { LatticePlaces, SmoothLattice } from '../../../src/core/model/smooth-lattice.ts';

describe('a smooth function on a lattice', () => {
  it('is itself to ten figures between the points of a fine one', () => {
    const lattice = new SmoothLattice(1 / 64, (x) => Math.sqrt(x) + 1 / (1 + x));
    for (let x = 0.1; x < 100; x *= 1.013) expect(lattice.at(x) / (Math.sqrt(x) + 1 / (1 + x))).toBeCloseTo(1, 11);
  });

  it('is exact for a polynomial of degree 5 in the logarithm', () => {
    const of = (x: number): number => 1 + 2 * Math.log(x) - Math.log(x) ** 5;
    const lattice = new SmoothLattice(0.5, of);
    for (const x of [0.3, 1.1, 2.7, 9])
      expect(Math.abs(lattice.at(x) - of(x))).toBeLessThan(1e-11 * (1 + Math.abs(of(x))));
  });

  it('goes by the sixth power of its step', () => {
    const off = (step: number): number => Math.abs(new SmoothLattice(step, Math.sin).at(2.3) - Math.sin(2.3));
    expect(off(0.2) / off(0.1)).toBeGreaterThan(20);
  });

  it('solves each point once, and has no value where one of the six round it has none', () => {
    let solved = 0;
    const lattice = new SmoothLattice(0.1, (x) => {
      solved++;
      return x > 2 ? NaN : x;
    });
    expect(lattice.at(1)).toBeCloseTo(1, 8);
    expect(solved).toBe(6);
    expect(lattice.at(1.01)).toBeCloseTo(1.01, 8);
    expect(solved).toBe(6);
    expect(lattice.at(1.95)).toBeNaN();
  });

  it('has the same values in a column', () => {
    const lattice = new SmoothLattice(0.1, Math.sqrt);
    expect(lattice.over(new LatticePlaces(0.1, [0.3, 2, 7]))).toEqual(
      Float64Array.of(lattice.at(0.3), lattice.at(2), lattice.at(7)),
    );
  });
});
