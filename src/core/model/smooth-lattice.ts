/** Points of a lattice that a value between two of them is read from: the two, and two to either side. */
export const ROUND = 6;

/** Weights of the six points for a place t of the way from the third to the fourth, by Lagrange. */
export function weightsAt(t: number, into: Float64Array, from = 0): void {
  // Neville's scheme written out would round more.
  const a = t + 2;
  const b = t + 1;
  const d = t - 1;
  const e = t - 2;
  const f = t - 3;
  const ab = a * b;
  const cd = t * d;
  const ef = e * f;
  into[from] = (b * cd * ef) / -120;
  into[from + 1] = (a * cd * ef) / 24;
  into[from + 2] = (ab * d * ef) / -12;
  into[from + 3] = (ab * t * ef) / 12;
  into[from + 4] = (ab * cd * f) / -24;
  into[from + 5] = (ab * cd * e) / 120;
}

/** Where positive numbers lie on lattices of one step in the logarithm: between which points, and the weights of the six round each. */
export class LatticePlaces {
  readonly stretches: Int32Array;
  readonly weights: Float64Array;

  constructor(step: number, numbers: ArrayLike<number>) {
    this.stretches = new Int32Array(numbers.length);
    this.weights = new Float64Array(ROUND * numbers.length);
    for (let i = 0; i < numbers.length; i++) {
      const at = Math.log(numbers[i]!) / step;
      this.stretches[i] = Math.floor(at);
      weightsAt(at - this.stretches[i]!, this.weights, ROUND * i);
    }
  }
}

/** The sum of six values from one place on, each by its weight. */
export function weighed(values: Float64Array, at: number, weights: Float64Array, from = 0): number {
  let sum = 0;
  for (let i = 0; i < ROUND; i++) sum += weights[from + i]! * values[at + i]!;
  return sum;
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
  private readonly weights = new Float64Array(ROUND);

  /** @param step of the lattice, in ln x */
  constructor(
    private readonly step: number,
    private readonly solve: (x: number) => number,
  ) {}

  at(x: number): number {
    const at = Math.log(x) / this.step;
    const k = Math.floor(at);
    weightsAt(at - k, this.weights);
    return this.read(k, this.weights, 0);
  }

  /** At each place of a column. */
  over({ stretches, weights }: LatticePlaces): Float64Array {
    const values = new Float64Array(stretches.length);
    for (let i = 0; i < values.length; i++) values[i] = this.read(stretches[i]!, weights, ROUND * i);
    return values;
  }

  private read(k: number, weights: Float64Array, from: number): number {
    return weighed(this.pieces.get(k) ?? this.piece(k), 0, weights, from);
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
