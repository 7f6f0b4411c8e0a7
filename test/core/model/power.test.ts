import { describe, expect, it } from 'vitest';
import { power, powers } from '../../../src/core/model/power.ts';

describe('a power', () => {
  it('is itself to the last bits, for each unit of its logarithm', () => {
    for (const b of [-3, -0.7, 1 / 3, 0.5, 1, 1.7, 2, 2.4, 3, 4, 5.9])
      for (let a = 1e-6; a < 1e6; a *= 1.37) {
        const off = Math.abs(power(a, b) / a ** b - 1);
        expect(off, `${a} ^ ${b}`).toBeLessThan(1e-15 * (1 + Math.abs(b * Math.log(a))));
      }
  });

  it('of nothing, of a negative number and of none is what it is', () => {
    for (const a of [0, -8, NaN, Infinity, -Infinity])
      for (const b of [0, 1 / 3, 2, 2.5, 3, -1]) expect(power(a, b), `${a} ^ ${b}`).toBe(a ** b);
  });

  it('is the same in columns', () => {
    const bases = [0, -8, 1e-6, 0.3, 1, 8, 1e6, NaN, Infinity, -Infinity];
    for (const b of [-3, -0.7, 0, 1 / 3, 0.5, 1, 2, 2.4, 3, 1e300, NaN, Infinity, -Infinity]) {
      const into = new Float64Array(bases.length);
      powers(Float64Array.from(bases), new Float64Array(bases.length).fill(b), into);
      expect([...into], `^ ${b}`).toEqual(bases.map((a) => power(a, b)));
    }
  });
});
