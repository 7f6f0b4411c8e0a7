/** Bayesian update of positive factors from a log of finished jobs, on the logarithmic scale. */
import { isMissing, mustBeLess, notAbove } from '../messages.ts';
import { cholesky, choleskyInverse, choleskySolve } from '../spread/cholesky.ts';
import type { LogMoments } from './log-range.ts';
import { normalQuantile } from '../spread/normal.ts';

export interface BayesLog {
  /** What is believed of ln of each factor before the log is read. */
  readonly prior: readonly LogMoments[];
  /** How these go along with each other: their covariance, row by row, positive definite; each by itself where left out. */
  readonly covariance?: Float64Array | undefined;
  /** ln of what was noted, `channels` values a row; NaN where nothing was noted. */
  readonly observed: Float64Array;
  /** Kinds of observation in a row, such as rods, oxygen, minutes. */
  readonly channels: number;
  /** Where to begin, such as the mean of a like fit, which takes fewer rounds; at the mean of the prior where left out. */
  readonly start?: Float64Array | undefined;
  /** Writes ln of what the factors predict for every place of `observed`; NaN where they have no solution. */
  readonly predict: (logFactors: Float64Array, predicted: Float64Array) => void;
  /** Standard deviation of ln observed about ln predicted, one for each channel, more than 0. */
  readonly scatter: readonly number[];
  /**
   * How far one deviation of a further scatter, which all channels of a row share, moves each place of `observed`: the job was
   * harder or easier.
   */
  readonly shared: Float64Array;
  /** How many observations the scatter stated here is worth; Infinity takes it as known. */
  readonly scatterWorth: number;
  /** Share of sound rows that are taken at full weight [-], 0 to 1; 1 trusts every row fully. */
  readonly trust: number;
}

export interface RowFit {
  /** 1 at full weight; small for a row that contradicts the others. */
  readonly weight: number;
  /** Size of the row's misfit in standard deviations; about the square root of its observations when sound. */
  readonly distance: number;
  /** Values of the row that were used. */
  readonly observations: number;
}

export interface BayesFit {
  readonly mean: Float64Array;
  /** Covariance of the logarithms, row by row. */
  readonly covariance: Float64Array;
  readonly rows: readonly RowFit[];
  /** Scatter found over scatter stated. */
  readonly scatterScale: number;
  /** Degrees of freedom that scatter rests on, for Student's t in ranges of the factors; Infinity where it was taken as known. */
  readonly degrees: number;
  readonly converged: boolean;
  /** ln of how likely the log is under this prior and these predictions, less what both have no part in; for the same log, scatters and trust. */
  readonly evidence: number;
}

/** Difference in ln of a factor for the numerical derivative: small against any prior, large against rounding. */
const STEP = 1e-4;
const ROUNDS = 50;
/** Squared length of a step, in posterior standard deviations, under which the derivatives stay those of before. */
const NEAR = 1e-4;
const CELLS = 1000;

/** Chi-squared quantile by the cube-root approximation of Wilson and Hilferty (1931), good to 1 % here. */
function chiSquared(p: number, degrees: number): number {
  const v = 2 / (9 * degrees);
  return degrees * Math.max(0, 1 - v + normalQuantile(p) * Math.sqrt(v)) ** 3;
}

/**
 * Mean of w d^2 over that of w k for sound rows of k observations: below 1, as the weights fall on the largest squares.
 * Without it the scatter found would come out too small.
 */
function weightedSquare(limit: number, degrees: number): number {
  if (limit === Infinity || degrees === 0) return 1;
  let [weights, squares, weighted] = [0, 0, 0];
  for (let i = 0; i < CELLS; i++) {
    const square = chiSquared((i + 0.5) / CELLS, degrees);
    const weight = square > limit ? limit / square : 1;
    weights += weight;
    squares += square;
    weighted += weight * square;
  }
  return (weighted * CELLS) / (weights * squares);
}

/** Inverse of the covariance of what is believed before. */
function priorPrecision(prior: readonly LogMoments[], covariance?: Float64Array): Float64Array {
  const size = prior.length;
  const triangle = covariance && cholesky(covariance, size);
  return triangle
    ? choleskyInverse(triangle, size)
    : Float64Array.from({ length: size * size }, (_, i) =>
        i % (size + 1) === 0 ? 1 / prior[i % size]!.deviation ** 2 : 0,
      );
}

interface State {
  readonly at: Float64Array;
  readonly predicted: Float64Array;
}

interface System {
  /** What the log adds to the precision: sum of w J^T V^-1 J. */
  readonly told: Float64Array;
  /** Cholesky triangle of the inverse covariance. */
  readonly triangle: Float64Array;
  readonly gradient: Float64Array;
  readonly weights: Float64Array;
  /** d^2 of each row. */
  readonly squares: Float64Array;
}

/**
 * Posterior of the factors given a log, by iterated linearisation (Laplace approximation).
 *
 * Minimises sum over rows of rho(d^2) + (u - m)^T P (u - m), u = ln factors, m and P^-1 the prior mean and covariance,
 * d^2 = r^T V^-1 r, r = observed - predicted, V = s^2 (diag(scatter^2) + shared shared^T). rho is d^2 up to c^2 and
 * c^2 (1 + ln(d^2/c^2)) beyond, so that a sound row counts fully and a wild one less the wilder it is: weight
 * min(1, c^2/d^2), c^2 the chi-squared quantile `trust` of the row's observations. s^2 is found along with the factors
 * as (k0 + sum w (r^T r + tr J C J^T in units of V at s = 1))/(k0 + sum w k b), k0 = scatterWorth, C the covariance, b the
 * part of the squares that sound rows keep under their weights. All rows enter together, so
 * their order does not matter. The covariance is the inverse of P + sum w J^T V^-1 J at the end. The evidence is that of the linearised
 * problem, with s^2 taken over its inverse gamma distribution of k0 degrees.
 *
 * Range of validity: a posterior with one peak, near normal in ln factor; the covariance is that of the linearised model.
 * Source: Gelman et al., Bayesian Data Analysis, 3rd edition, chapters 4 and 13 (normal approximation, expectation
 * maximisation); Huber and Ronchetti, Robust Statistics, 2nd edition, chapter 7 (iterated weights).
 */
export function bayesUpdate(log: BayesLog): BayesFit {
  const { prior, observed, channels, predict, scatter, shared, scatterWorth, trust } = log;
  const size = prior.length;
  if (size === 0) throw isMissing('list of factors');
  for (const { deviation } of prior)
    if (!(deviation > 0)) throw notAbove('deviation of a factor', String(deviation), '0');
  if (scatter.length !== channels) throw isMissing('scatter of a channel');
  for (const s of scatter) if (!(s > 0)) throw notAbove('scatter', String(s), '0');
  if (!(scatterWorth > 0)) throw notAbove('worth of the scatter', String(scatterWorth), '0');
  if (!(trust > 0)) throw notAbove('trust', String(trust), '0');
  if (!(trust <= 1)) throw mustBeLess('trust', String(trust), '1');

  const rows = Math.floor(observed.length / channels);
  /** P, row by row. */
  const known = priorPrecision(prior, log.covariance);
  const precision = scatter.map((s) => 1 / (s * s));
  const thresholds = Array.from({ length: channels + 1 }, (_, k) =>
    trust < 1 && k > 0 ? chiSquared(trust, k) : Infinity,
  );
  const soundSquare = thresholds.map(weightedSquare);
  const state = (at: Float64Array): State => {
    const predicted = new Float64Array(observed.length).fill(NaN);
    predict(at, predicted);
    return { at, predicted };
  };

  const centre = Float64Array.from(prior, (m) => m.mean);
  let now = state(centre);
  const usable = observed.map((y, i) => (Number.isFinite(y) && Number.isFinite(now.predicted[i] ?? NaN) ? 1 : 0));
  /** Places of what is used, row by row; row r has those from `first[r]` up to `first[r + 1]`. */
  const places = Uint32Array.from(usable.keys()).filter((i) => usable[i] === 1);
  const first = new Uint32Array(rows + 1);
  const worth = Float64Array.from(places, (i) => precision[i % channels] ?? NaN);
  const count = new Uint32Array(rows);
  /** Part taken off by the shared scatter h (Sherman and Morrison): V^-1 = Q - kappa Q h h^T Q for s = 1. */
  const kappa = new Float64Array(rows);
  for (let row = 0; row < rows; row++) {
    let total = 0;
    for (let c = 0; c < channels; c++) {
      if (!usable[row * channels + c]) continue;
      count[row] = (count[row] ?? 0) + 1;
      total += (precision[c] ?? NaN) * shared[row * channels + c]! ** 2;
    }
    kappa[row] = 1 / (1 + total);
    first[row + 1] = (first[row] ?? 0) + (count[row] ?? 0);
  }

  /** x^T V^-1 y of one row for s = 1. */
  const product = (x: Float64Array, y: Float64Array, row: number): number => {
    let both = 0;
    let left = 0;
    let right = 0;
    for (let k = first[row] ?? 0; k < (first[row + 1] ?? 0); k++) {
      const i = places[k] ?? 0;
      const q = worth[k] ?? NaN;
      const qx = q * (x[i] ?? NaN);
      const h = shared[i]!;
      both += qx * (y[i] ?? NaN);
      left += qx * h;
      right += q * (y[i] ?? NaN) * h;
    }
    return both - (kappa[row] ?? 0) * left * right;
  };
  const residual = ({ predicted }: State): Float64Array => observed.map((y, i) => y - (predicted[i] ?? NaN));
  const threshold = (row: number, robust: boolean): number =>
    robust ? (thresholds[count[row] ?? 0] ?? Infinity) : Infinity;

  /** (u - m)^T P (u - m). */
  const departure = ({ at }: State): number => {
    const off = at.map((u, k) => u - centre[k]!);
    return known.reduce((sum, p, i) => sum + p * off[Math.floor(i / size)]! * off[i % size]!, 0);
  };

  const cost = (s: State, scale: number, robust: boolean): number => {
    const r = residual(s);
    let sum = departure(s);
    for (let row = 0; row < rows; row++) {
      const square = product(r, r, row) / scale;
      const limit = threshold(row, robust);
      sum += square <= limit ? square : limit * (1 + Math.log(square / limit));
    }
    return Number.isNaN(sum) ? Infinity : sum;
  };

  const jacobian = (s: State): Float64Array[] =>
    Array.from({ length: size }, (_, k) => {
      const moved = (by: number): Float64Array => {
        const at = Float64Array.from(s.at);
        at[k] = (at[k] ?? NaN) + by;
        return state(at).predicted;
      };
      const up = moved(STEP);
      const down = moved(-STEP);
      return s.predicted.map((middle, i) => {
        const high = up[i] ?? NaN;
        const low = down[i] ?? NaN;
        const from = Number.isNaN(low) ? middle : low;
        const to = Number.isNaN(high) ? middle : high;
        const span = (Number.isNaN(low) ? 0 : STEP) + (Number.isNaN(high) ? 0 : STEP);
        return span > 0 ? (to - from) / span : 0;
      });
    });

  /** Normal equations of the linearised problem at s. */
  const assemble = (s: State, columns: readonly Float64Array[], scale: number, robust: boolean): System => {
    const r = residual(s);
    const told = new Float64Array(size * size);
    const gradient = new Float64Array(size);
    const weights = new Float64Array(rows).fill(1);
    const squares = new Float64Array(rows);
    known.forEach((p, i) => {
      const k = i % size;
      gradient[Math.floor(i / size)]! += p * (centre[k]! - s.at[k]!);
    });
    for (let row = 0; row < rows; row++) {
      if (!count[row]) continue;
      const square = product(r, r, row) / scale;
      const weight = Math.min(1, threshold(row, robust) / square);
      squares[row] = square;
      weights[row] = Number.isNaN(weight) ? 1 : weight;
      const factor = (weights[row] ?? 1) / scale;
      for (let i = 0; i < size; i++) {
        const column = columns[i] ?? r;
        gradient[i] = (gradient[i] ?? NaN) + factor * product(column, r, row);
        for (let j = 0; j <= i; j++) {
          const add = factor * product(column, columns[j] ?? r, row);
          told[i * size + j] = (told[i * size + j] ?? NaN) + add;
        }
      }
    }
    for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) told[j * size + i] = told[i * size + j] ?? NaN;
    const matrix = told.map((m, i) => m + known[i]!);
    // The prior makes the matrix positive definite whatever the log holds.
    return { told, triangle: cholesky(matrix, size) ?? matrix, gradient, weights, squares };
  };

  /** Scatter found, squared and over that stated, and its degrees of freedom. */
  const scaleFrom = (system: System, scale: number): { readonly scale: number; readonly degrees: number } => {
    if (scatterWorth === Infinity) return { scale: 1, degrees: Infinity };
    const covariance = choleskyInverse(system.triangle, size);
    let squares = 0;
    let observations = 0;
    for (let row = 0; row < rows; row++) {
      const weight = system.weights[row] ?? 1;
      const k = count[row] ?? 0;
      squares += weight * (system.squares[row] ?? 0) * scale;
      observations += weight * k * (soundSquare[k] ?? 1);
    }
    // Sum of w tr(J C J^T V^-1) over the rows, as the trace of C with the sum of w J^T V^-1 J.
    const spreads = scale * system.told.reduce((sum, m, i) => sum + m * (covariance[i] ?? NaN), 0);
    return {
      scale: (scatterWorth + squares + spreads) / (scatterWorth + observations),
      degrees: Math.max(1, scatterWorth + observations - spreads / scale),
    };
  };

  let scale = 1;
  let degrees = scatterWorth;
  let robust = false;
  let converged = false;
  if (log.start) now = state(log.start);
  let columns = jacobian(now);
  let system = assemble(now, columns, scale, robust);
  for (let round = 0; round < ROUNDS && !converged; round++) {
    const step = choleskySolve(system.triangle, system.gradient);
    // Squared length of the step in posterior standard deviations.
    const length = step.reduce((sum, d, k) => sum + d * (system.gradient[k] ?? 0), 0);
    // The first stage is but a start for the second.
    let settled = length < (robust ? 1e-12 : 1e-6);
    if (!settled) {
      const start = now;
      const before = cost(start, scale, robust);
      let share = 1;
      do {
        now = state(start.at.map((u, k) => u + share * (step[k] ?? NaN)));
        share /= 2;
      } while (share > 1e-9 && !(cost(now, scale, robust) <= before));
      // At a kink of the model no step improves any more: as settled as it can be.
      settled = !(cost(now, scale, robust) < before);
      if (settled) now = start;
      else if (length > NEAR) columns = jacobian(now);
      system = assemble(now, columns, scale, robust);
    }
    const scaleBefore = scale;
    if (robust) ({ scale, degrees } = scaleFrom(system, scale));
    // Plain least squares first, so that the weights start from a fit to all rows and not from the prior.
    if (settled && Math.abs(scale / scaleBefore - 1) < 1e-11) {
      converged = robust;
      robust = true;
    }
    if (!converged) system = assemble(now, columns, scale, robust);
  }

  const misfit = scale * (cost(now, scale, robust) - departure(now));
  const logDensity =
    scatterWorth === Infinity ? -misfit / 2 : (-(scatterWorth + places.length) / 2) * Math.log1p(misfit / scatterWorth);
  const logDiagonal = (triangle: Float64Array): number =>
    triangle.reduce((sum, x, i) => (i % (size + 1) === 0 ? sum + Math.log(x) : sum), 0);
  return {
    evidence:
      logDensity - departure(now) / 2 + logDiagonal(cholesky(known, size) ?? known) - logDiagonal(system.triangle),
    mean: now.at,
    covariance: choleskyInverse(system.triangle, size),
    rows: Array.from({ length: rows }, (_, row) => ({
      weight: system.weights[row] ?? 1,
      distance: Math.sqrt(Math.max(0, system.squares[row] ?? 0)),
      observations: count[row] ?? 0,
    })),
    scatterScale: Math.sqrt(scale),
    degrees,
    converged,
  };
}
