/** Points of a lattice that a value between two of them is read from: the two, and two to either side. */
export const ROUND = 6;

/** Weights of the six points for a place t of the way from the third to the fourth, by Lagrange. */
export function weightsAt(t: number, into: Float64Array): void {
  // Neville's scheme written out would round more.
  const [a, b, c, d, e, f] = [t + 2, t + 1, t, t - 1, t - 2, t - 3] as const;
  const [ab, cd, ef] = [a * b, c * d, e * f] as const;
  into[0] = (b * cd * ef) / -120;
  into[1] = (a * cd * ef) / 24;
  into[2] = (ab * d * ef) / -12;
  into[3] = (ab * c * ef) / 12;
  into[4] = (ab * cd * f) / -24;
  into[5] = (ab * cd * e) / 120;
}

/**
 * A smooth function of a positive number, solved on a lattice in the number's logarithm and read between its points: the
 * polynomial of degree 5 through the six points round the place, by Lagrange.
 *
 * The points lie at fixed places, so that a value depends on nothing else that was asked for. NaN where one of the six points is
 * none. The error goes with the sixth power of the step.
 *
 * @example new SmoothLattice(0.02, Math.sqrt).at(2) // 1.41421356
 */
export class SmoothLattice {
  private readonly points = new Map<number, number>();
  private readonly pieces = new Map<number, Float64Array>();

  /** @param step of the lattice, in ln x */
  constructor(
    private readonly step: number,
    private readonly solve: (x: number) => number,
  ) {}

  at(x: number): number {
    const at = Math.log(x) / this.step;
    const k = Math.floor(at);
    const piece = this.pieces.get(k) ?? this.piece(k);
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
  }

  /** At each place of a column. */
  over(column: Float64Array): Float64Array {
    const values = new Float64Array(column.length);
    for (let i = 0; i < values.length; i++) values[i] = this.at(column[i]!);
    return values;
  }

  private piece(k: number): Float64Array {
    const piece = Float64Array.from({ length: ROUND }, (_, i) => this.point(k + i - 2));
    this.pieces.set(k, piece);
    return piece;
  }

  private point(k: number): number {
    let value = this.points.get(k);
    if (value === undefined) {
      value = this.solve(Math.exp(k * this.step));
      this.points.set(k, value);
    }
    return value;
  }
}
