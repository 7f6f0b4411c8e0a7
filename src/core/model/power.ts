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
