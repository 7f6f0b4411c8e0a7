import { describe, expect, it } from 'vitest';
import { cholesky, choleskyInverse, choleskySolve } from '../../../src/core/spread/cholesky.ts';

describe('Cholesky triangle', () => {
  // 4 12 -16; 12 37 -43; -16 -43 98 has the triangle 2; 6 1; -8 5 3, worked by hand.
  const a = Float64Array.from([4, 12, -16, 12, 37, -43, -16, -43, 98]);
  const l = cholesky(a, 3) ?? new Float64Array(9);

  it('is the one worked by hand', () => {
    expect([...l]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
  });

  it('solves the system', () => {
    // a (1, -2, 3) = (-68, -191, 364).
    const x = choleskySolve(l, Float64Array.from([-68, -191, 364]));
    [1, -2, 3].forEach((v, i) => expect(x[i]).toBeCloseTo(v, 10));
  });

  it('gives the inverse', () => {
    const inverse = choleskyInverse(l, 3);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        let sum = 0;
        for (let k = 0; k < 3; k++) sum += (a[i * 3 + k] ?? NaN) * (inverse[k * 3 + j] ?? NaN);
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 9);
      }
    }
  });

  it('does not exist for a matrix that is not positive definite', () => {
    expect(cholesky(Float64Array.from([1, 2, 2, 1]), 2)).toBeUndefined();
  });
});
