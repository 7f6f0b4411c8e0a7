/**
 * A power as it is found quickest: squares, cubes and cube roots by themselves, whole powers as they are, others through
 * logarithms, within 1e-15 of themselves for each unit of theirs. Draws and lists of pierces spend their time in powers otherwise.
 *
 * @example power(8, 1 / 3) // 2
 */
export function power(a: number, b: number): number {
  if (a > 0 && !Number.isInteger(b)) return b === 1 / 3 ? Math.cbrt(a) : Math.exp(b * Math.log(a));
  if (b === 2) return a * a;
  return b === 3 ? a * a * a : a ** b;
}

/** `power` of columns. Through logarithms at once, as draws mostly go: a first cell would wait for a small function to be compiled. */
export function powers(a: Float64Array, b: Float64Array, into: Float64Array): void {
  for (let i = 0; i < into.length; i++) {
    const x = a[i]!;
    const y = b[i]!;
    into[i] = x > 0 && y % 1 !== 0 && y !== 1 / 3 ? Math.exp(y * Math.log(x)) : power(x, y);
  }
}
