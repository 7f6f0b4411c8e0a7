/**
 * Lower triangle L of a symmetric positive definite matrix, A = L L^T, row by row in one array.
 *
 * @returns undefined where the matrix is not positive definite
 * Source: Golub and Van Loan, Matrix Computations, 4th edition, algorithm 4.2.1.
 */
export function cholesky(a: Float64Array, size: number): Float64Array | undefined {
  const l = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * size + j] ?? NaN;
      for (let k = 0; k < j; k++) sum -= (l[i * size + k] ?? NaN) * (l[j * size + k] ?? NaN);
      if (i === j && !(sum > 0)) return undefined;
      l[i * size + j] = i === j ? Math.sqrt(sum) : sum / (l[j * size + j] ?? NaN);
    }
  }
  return l;
}

/** Solution x of L L^T x = b. */
export function choleskySolve(l: Float64Array, b: Float64Array): Float64Array {
  const n = b.length;
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    let sum = x[i] ?? NaN;
    for (let k = 0; k < i; k++) sum -= (l[i * n + k] ?? NaN) * (x[k] ?? NaN);
    x[i] = sum / (l[i * n + i] ?? NaN);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i] ?? NaN;
    for (let k = i + 1; k < n; k++) sum -= (l[k * n + i] ?? NaN) * (x[k] ?? NaN);
    x[i] = sum / (l[i * n + i] ?? NaN);
  }
  return x;
}

/** Inverse of L L^T, row by row. */
export function choleskyInverse(l: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const unit = new Float64Array(size);
    unit[j] = 1;
    const column = choleskySolve(l, unit);
    for (let i = 0; i < size; i++) inverse[i * size + j] = column[i] ?? NaN;
  }
  return inverse;
}
