import { describe, expect, it } from 'vitest';
import { sobolIndices } from '../../../src/core/spread/sobol-indices.ts';
import { sobolColumn } from '../../../src/core/spread/sobol.ts';

const COUNT = 1024;
type Columns = readonly [Float64Array, Float64Array, Float64Array];
const columns = (from: number): Columns =>
  [0, 1, 2].map((k) => sobolColumn(from + k, COUNT, 12).map((u) => Math.PI * (2 * u - 1))) as unknown as Columns;
const ishigami = ([x1, x2, x3]: Columns): Float64Array =>
  x1.map((x, i) => Math.sin(x) + 7 * Math.sin(x2[i]!) ** 2 + 0.1 * x3[i]! ** 4 * Math.sin(x));

describe('Sobol indices', () => {
  it('are those of the function of Ishigami and Homma', () => {
    // Closed form with a = 7, b = 0.1, as in Saltelli and others, Global Sensitivity Analysis: The Primer (2008), of memory.
    const [a, b] = [columns(0), columns(3)];
    const found = [0, 1, 2].map((k) =>
      sobolIndices(ishigami(a), ishigami(b), ishigami(a.map((x, i) => (i === k ? b[k]! : x)) as unknown as Columns)),
    );
    [
      [0.314, 0.558],
      [0.442, 0.442],
      [0, 0.244],
    ].forEach(([first = NaN, total = NaN], k) => {
      expect(Math.abs(found[k]!.first - first)).toBeLessThan(0.02);
      expect(Math.abs(found[k]!.total - total)).toBeLessThan(0.02);
    });
  });

  it('are none where nothing varies, and leave out what has no solution', () => {
    const flat = new Float64Array(8).fill(3);
    expect(sobolIndices(flat, flat, flat)).toBeUndefined();
    const one = Float64Array.from([1, 2, 3, Infinity]);
    const other = Float64Array.from([3, 1, 2, 5]);
    expect(sobolIndices(one, other, other)).toEqual({ first: 1, total: expect.any(Number) as number });
  });
});
