/** What is left of draws once what goes along with some normal scores is taken out of them. */
import { cholesky, choleskySolve } from './cholesky.ts';

/** Hermite polynomials of a normal score, which do not go along with each other: degree 1, 2, 3. */
const POWERS: readonly ((z: number) => number)[] = [
  (z) => z,
  (z) => (z * z - 1) / Math.SQRT2,
  (z) => (z * z * z - 3 * z) / Math.sqrt(6),
];

/** Sum of the products of two columns. */
function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!;
  return sum;
}

/**
 * Residuals of the least squares of `values` on a cubic of each column of scores, made larger by what so many coefficients take out of draws
 * that have nothing to do with the scores.
 *
 * @param scores columns of normal scores, each as long as `values`; fewer than a tenth as many as there are values
 * @returns undefined where the scores say the same thing twice
 * Example: of y = 2 z nothing is left; of values that do not depend on z, the values less their mean.
 */
export function residuals(values: Float64Array, scores: readonly Float64Array[]): Float64Array | undefined {
  const n = values.length;
  const columns = [
    new Float64Array(n).fill(1),
    ...scores.flatMap((z) => POWERS.map((power) => Float64Array.from(z, power))),
  ];
  const p = columns.length;
  const square = Float64Array.from({ length: p * p }, (_, k) => dot(columns[Math.floor(k / p)]!, columns[k % p]!));
  const lower = cholesky(square, p);
  if (!lower) return undefined;
  const weights = choleskySolve(
    lower,
    Float64Array.from(columns, (column) => dot(column, values)),
  );
  const left = Float64Array.from(values);
  columns.forEach((column, k) => {
    for (let i = 0; i < n; i++) left[i] = left[i]! - weights[k]! * column[i]!;
  });
  const larger = Math.sqrt((n - 1) / (n - p));
  return left.map((x) => larger * x);
}
