/** The PERT distribution: a beta distribution between a low and a high with a most likely value. */
import { mustBeLess, shown, tooHigh, tooLow } from '../messages.ts';
import { betaCdf, betaDensity, betaQuantile, betaShape, type BetaShape } from './beta-distribution.ts';

/** Weight of the likely value against the two ends in the mean, (low + 4 likely + high)/6: the convention of PERT. */
export const PERT_WEIGHT = 4;

export interface Pert {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  /** Undefined where low equals high and the value is certain. */
  readonly shape: BetaShape | undefined;
}

/**
 * PERT distribution with a = 1 + w (likely - low)/(high - low) and b = 1 + w (high - likely)/(high - low).
 *
 * @param low    least value, in any unit
 * @param likely most likely value, low to high
 * @param high   greatest value; may equal low, which makes the value certain
 * @param weight w [-], 0 (uniform) or more
 * Source: Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959) 646; shape from Clark, Operations
 * Research 10 (1962) 405. The standard deviation here is that of the beta distribution itself, not (high - low)/6.
 */
export function pert(low: number, likely: number, high: number, weight: number = PERT_WEIGHT): Pert {
  if (!(low > -Infinity && high < Infinity)) throw mustBeLess('low', shown(low), `high, ${shown(high)}`);
  if (!(likely >= low)) throw tooLow('likely', shown(likely), `low, ${shown(low)}`);
  if (!(likely <= high)) throw tooHigh('likely', shown(likely), `high, ${shown(high)}`);
  if (!(weight >= 0 && weight < Infinity)) throw tooLow('weight of the likely value', shown(weight), '0');
  const range = high - low;
  const shape =
    range > 0 ? betaShape(1 + (weight * (likely - low)) / range, 1 + (weight * (high - likely)) / range) : undefined;
  return { low, likely, high, shape };
}

/** Mean, low + (high - low) a/(a + b), which is (low + w likely + high)/(w + 2). */
export function pertMean({ low, high, shape }: Pert): number {
  return shape ? low + ((high - low) * shape.a) / (shape.a + shape.b) : low;
}

/** Standard deviation, sqrt((mean - low)(high - mean)/(w + 3)). */
export function pertDeviation({ low, high, shape }: Pert): number {
  if (!shape) return 0;
  const total = shape.a + shape.b;
  return ((high - low) * Math.sqrt((shape.a * shape.b) / (total + 1))) / total;
}

/** Probability [-] that the value is at most x. */
export function pertCdf({ low, high, shape }: Pert, x: number): number {
  if (!shape) return x >= low ? 1 : 0;
  return betaCdf(shape, (x - low) / (high - low));
}

/** Value that is not exceeded with probability p [-], 0 to 1. */
export function pertQuantile({ low, high, shape }: Pert, p: number): number {
  if (!(p >= 0 && p <= 1)) throw p > 1 ? tooHigh('probability', String(p), '1') : tooLow('probability', String(p), '0');
  return shape ? low + (high - low) * betaQuantile(shape, p) : low;
}

/** Cells of the table below, and how many at each end are worked out exactly, where the quantile runs into its power law. */
const CELLS = 64;
const END_CELLS = 3;

/**
 * `pertQuantile` for many probabilities at once, within 1e-5 of the range.
 *
 * Cubic Hermite interpolation in t of p = sin^2(pi t/2), with the exact slopes dx/dt = (dp/dt)/density; exact near the
 * ends. Source of the interpolation: NIST Digital Library of Mathematical Functions, 3.3 (Hermite form).
 */
export function pertQuantiles(distribution: Pert, probabilities: Float64Array): Float64Array {
  const { low, high, shape } = distribution;
  if (!shape || probabilities.length < 2 * CELLS) return probabilities.map((p) => pertQuantile(distribution, p));
  const value = new Float64Array(CELLS + 1);
  const slope = new Float64Array(CELLS + 1);
  for (let k = END_CELLS; k <= CELLS - END_CELLS; k++) {
    const angle = (Math.PI * k) / CELLS;
    const x = betaQuantile(shape, (1 - Math.cos(angle)) / 2);
    value[k] = x;
    slope[k] = ((Math.PI / 2) * Math.sin(angle)) / (betaDensity(shape, x) * CELLS);
  }
  return probabilities.map((p) => {
    const t = (CELLS * Math.acos(1 - 2 * p)) / Math.PI;
    const k = Math.floor(t);
    if (!(k >= END_CELLS && k < CELLS - END_CELLS)) return pertQuantile(distribution, p);
    const u = t - k;
    const [from = NaN, to = NaN, start = NaN, end = NaN] = [value[k], value[k + 1], slope[k], slope[k + 1]];
    const x = from + u * (start + u * (3 * (to - from) - 2 * start - end + u * (2 * (from - to) + start + end)));
    return low + (high - low) * x;
  });
}
