/** A distribution that meets three percentiles and stays within limits: Johnson's, by its quantiles. */
import type { Uncertain } from '../assumptions/assumptions.ts';
import { mustBeLess, shown, tooHigh, tooLow } from '../messages.ts';
import { normalCdf, normalQuantile } from './normal.ts';

/** Normal quantile of 0.9. */
const C = normalQuantile(0.9);

/** Which limits bend the scale: `max` alone where the low stands at the least, and so on. */
type Limits = 'both' | 'min' | 'max' | 'neither';

/** The distribution: y(z) = middle + slope z + side (sqrt(square + bend z^2) - least), z standard normal, y on the scale of `limits`. */
export interface Johnson {
  readonly range: Uncertain;
  readonly limits: Limits;
  readonly middle: number;
  readonly slope: number;
  /** 1 where the upper half is the wider one on the scale, -1 where the lower one is, 0 where they are equal. */
  readonly side: -1 | 0 | 1;
  readonly square: number;
  readonly bend: number;
  /** Narrower half on the scale. */
  readonly least: number;
}

/** On the scale: ln((x - min)/(max - x)), or what is left of it with one limit or none. */
function scaled({ min, max }: Uncertain, limits: Limits, x: number): number {
  switch (limits) {
    case 'both':
      return Math.log((x - min) / (max - x));
    case 'min':
      return Math.log(x - min);
    case 'max':
      return -Math.log(max - x);
    case 'neither':
      return x;
  }
}

function unscaled({ min, max }: Uncertain, limits: Limits, y: number): number {
  switch (limits) {
    case 'both':
      return y < 0 ? min + (max - min) / (1 + Math.exp(-y)) : max - (max - min) / (1 + Math.exp(y));
    case 'min':
      return Math.min(max, min + Math.exp(y));
    case 'max':
      return Math.max(min, max - Math.exp(-y));
    case 'neither':
      return Math.min(max, Math.max(min, y));
  }
}

/**
 * Distribution with the median `value`, the 10th percentile `low` and the 90th `high`, never outside `min` and `max`.
 *
 * On the scale y = ln((x - min)/(max - x)), with L, B, H the scaled low, value and high, c = 1.2816 the normal quantile of
 * 0.9, h = (H - L)/2, a = min(B - L, H - B) and n the sign of L + H - 2 B:
 *
 *     y(z) = B + h z / c + n (sqrt(a^2 + (h^2 - a^2) (z / c)^2) - a),   z standard normal
 *
 * which is l + w sinh(arsinh(d z) + arsinh(n c d)) written out. Where both halves are alike it is Johnson's S_B, and the
 * lognormal where the upper limit is far; elsewhere a hyperbola whose slopes below and above differ. A limit that low or high
 * touches bends nothing: what would pass it stands on it. low = value = high is certain; value = low has half of the cases
 * at it.
 *
 * @param range all finite, min <= low <= value <= high <= max, in one unit; a limit may be infinite
 * Source: Hadlock and Bickel, Johnson quantile-parameterized distributions, Decision Analysis 14 (2017) 35: with a far upper
 * limit this is their J-QPD-S. Their bounded J-QPD-B runs out to its limits in the longer tail; so the core of J-QPD-S
 * stands here on the scale of Johnson's S_B, Biometrika 36 (1949) 149.
 * Example: value 20, low 10, high 40, min 0, max 1e9 is lognormal: 97.5 % lie below 57.73.
 */
export function johnson(range: Uncertain): Johnson {
  const { value, low, high, min, max } = range;
  if (!(low > -Infinity && high < Infinity)) throw mustBeLess('low', shown(low), `high, ${shown(high)}`);
  if (!(value >= low)) throw tooLow('value', shown(value), `low, ${shown(low)}`);
  if (!(value <= high)) throw tooHigh('value', shown(value), `high, ${shown(high)}`);
  if (!(low >= min)) throw tooLow('low', shown(low), shown(min));
  if (!(high <= max)) throw tooHigh('high', shown(high), shown(max));
  const [below, above] = [min > -Infinity && low > min, max < Infinity && high < max];
  const limits: Limits = below ? (above ? 'both' : 'min') : above ? 'max' : 'neither';
  const [from, middle, to] = [low, value, high].map((x) => scaled(range, limits, x)) as [number, number, number];
  const half = (to - from) / 2;
  const least = Math.max(0, Math.min(middle - from, to - middle));
  const square = least * least;
  const bend = Math.max(0, half * half - square) / (C * C);
  return {
    // Of one shape, whatever it was read from, so that loops over draws stay compiled.
    range: { value, low, high, min, max },
    limits,
    middle,
    slope: half / C,
    side: bend <= 1e-24 * square ? 0 : from + to > 2 * middle ? 1 : -1,
    square,
    bend,
    least,
  };
}

/** Value where a standard normal variable is z; the median at 0, high at 1.2816. */
export function johnsonAt(distribution: Johnson, z: number): number {
  const { range, limits, middle, slope, side, square, bend, least } = distribution;
  // Certain, or half of the cases at the value.
  if (least === 0 && side * z <= 0) return range.value;
  return unscaled(range, limits, middle + slope * z + side * (Math.sqrt(square + bend * z * z) - least));
}

/**
 * Value that is not exceeded with probability p [-], more than 0 and less than 1.
 *
 * @example johnsonQuantile(johnson({ low: 1, value: 2, high: 4, min: 0, max: Infinity }), 0.9) // 4
 */
export const johnsonQuantile = (distribution: Johnson, p: number): number => johnsonAt(distribution, normalQuantile(p));

/** `johnsonAt` of a column of standard normal numbers; between two limits in a loop of its own, in which nothing is called that must be compiled. */
export function johnsonColumn(distribution: Johnson, normals: Float64Array): Float64Array {
  if (distribution.limits !== 'both' || distribution.least === 0) return normals.map((z) => johnsonAt(distribution, z));
  const into = new Float64Array(normals.length);
  for (let first = 0; first < into.length; first += AT_ONCE) between(distribution, normals, into, first);
  return into;
}

/** So many are worked out in one call: an engine that finds a loop hot for longer compiles it twice, once to go on in its middle. */
const AT_ONCE = 512;

function between(distribution: Johnson, normals: Float64Array, into: Float64Array, first: number): void {
  const { middle, slope, side, square, bend, least } = distribution;
  const { min, max } = distribution.range;
  const { abs, exp, sqrt } = Math;
  const width = max - min;
  const end = Math.min(first + AT_ONCE, into.length);
  for (let i = first; i < end; i++) {
    const z = normals[i]!;
    const y = middle + slope * z + side * (sqrt(square + bend * z * z) - least);
    const part = width / (1 + exp(abs(y)));
    into[i] = y < 0 ? min + part : max - part;
  }
}

/** Probability [-] that the number is at most x: the inverse of `johnsonQuantile`. */
export function johnsonCdf(distribution: Johnson, x: number): number {
  const { range, limits, middle, slope, side, square, bend, least } = distribution;
  const { value, min, max } = range;
  if (x < min || (least === 0 && side >= 0 && x < value)) return 0;
  if (x >= max || (least === 0 && side <= 0 && x >= value)) return 1;
  if (least === 0 && x === value) return 0.5;
  const y = scaled(range, limits, x);
  const u = y - middle + side * least;
  if (side === 0) return normalCdf((y - middle) / slope);
  // Roots of (u - slope z)^2 = square + bend z^2; the difference of slope^2 and bend is square / c^2.
  const root = Math.sqrt(Math.max(0, square * square + u * u * bend * C * C));
  const reach = u * slope * C;
  const z = reach * side > 0 ? (C * (u * u - square)) / (reach + side * root) : (C * (reach - side * root)) / square;
  return normalCdf(z);
}
