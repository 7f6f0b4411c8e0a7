/** Points of a lattice that a value between two of them is read from. */
const ROUND = 6;

/**
 * A smooth function of a positive number, solved on a lattice in the number's logarithm and read between its points: the
 * polynomial of degree 5 through the six points round the place, by Lagrange.
 *
 * The points lie at fixed places, so that a value depends on nothing else that was asked for. NaN where one of the six points is
 * none. The error goes with the sixth power of the step.
 *
 * @param step of the lattice, in ln x
 * @example smoothLattice(0.02, Math.sqrt)(2) // 1.41421356
 */
export function smoothLattice(step: number, solve: (x: number) => number): (x: number) => number {
  const points = new Map<number, number>();
  const pieces = new Map<number, Float64Array>();
  const point = (k: number): number => {
    let value = points.get(k);
    if (value === undefined) {
      value = solve(Math.exp(k * step));
      points.set(k, value);
    }
    return value;
  };
  return (x) => {
    const at = Math.log(x) / step;
    const k = Math.floor(at);
    let piece = pieces.get(k);
    if (!piece) {
      piece = Float64Array.from({ length: ROUND }, (_, i) => point(k + i - 2));
      pieces.set(k, piece);
    }
    // Neville's scheme written out would round more: the six weights of Lagrange.
    const t = at - k;
    const [a, b, c, d, e, f] = [t + 2, t + 1, t, t - 1, t - 2, t - 3] as const;
    const [ab, cd, ef] = [a * b, c * d, e * f] as const;
    return (
      (piece[0]! * b * cd * ef) / -120 +
      (piece[1]! * a * cd * ef) / 24 +
      (piece[2]! * ab * d * ef) / -12 +
      (piece[3]! * ab * c * ef) / 12 +
      (piece[4]! * ab * cd * f) / -24 +
      (piece[5]! * ab * cd * e) / 120
    );
  };
}
