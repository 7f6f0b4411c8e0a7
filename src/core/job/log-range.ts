/** Ranges of positive factors in terms of their logarithm. */
import type { Uncertain } from '../assumptions/assumptions.ts';
import { notAbove, shown } from '../messages.ts';
import { normalQuantile } from '../spread/normal.ts';
import { johnson, johnsonQuantile } from '../spread/johnson.ts';

/** Mean and standard deviation of the natural logarithm of a factor. */
export interface LogMoments {
  readonly mean: number;
  readonly deviation: number;
}

/** Median, P10 and P90 of a factor. */
export type Range = Pick<Uncertain, 'low' | 'value' | 'high'>;

const CELLS = 256;

/**
 * Mean and standard deviation of ln x for a factor x by its median, P10, P90 and limits, over equally likely cells of the
 * distribution.
 *
 * @param range low more than 0, all in one unit
 * Range of validity: high/low up to about 1000; relative error of the deviation below 1e-2.
 */
export function logMoments(range: Uncertain): LogMoments {
  const { low, value } = range;
  if (!(low > 0)) throw notAbove('low', shown(low), '0');
  const distribution = johnson(range);
  let sum = 0;
  let square = 0;
  const centre = Math.log(value);
  for (let i = 0; i < CELLS; i++) {
    const d = Math.log(johnsonQuantile(distribution, (i + 0.5) / CELLS)) - centre;
    sum += d;
    square += d * d;
  }
  const mean = sum / CELLS;
  return { mean: centre + mean, deviation: Math.sqrt(Math.max(0, square / CELLS - mean * mean)) };
}

/**
 * Mean and standard deviation of ln x for a lognormal factor that lies between low and high with a given probability.
 *
 * mean = (ln low + ln high)/2, deviation = (ln high - ln low)/(2 z), z the normal quantile of (1 + probability)/2.
 *
 * @param probability [-], more than 0 and less than 1, the rest shared by both tails
 * @example logMomentsOfQuantiles(1, 4, 0.8).mean // 0.6931
 */
export function logMomentsOfQuantiles(low: number, high: number, probability: number): LogMoments {
  if (!(low > 0)) throw notAbove('low', shown(low), '0');
  if (!(high > low)) throw notAbove('high', shown(high), `low, ${shown(low)}`);
  const z = normalQuantile((1 + probability) / 2);
  if (!(z > 0)) throw notAbove('probability', shown(probability), '0');
  return { mean: (Math.log(low) + Math.log(high)) / 2, deviation: (Math.log(high) - Math.log(low)) / (2 * z) };
}

/**
 * A range carried along when the moments of its logarithm change: shifted and narrowed on the logarithmic scale.
 *
 * With s = deviation'/deviation, ln value' = mean' + (ln value - mean) s^4 and ln x' = ln value' + (ln x - ln value) s for low and high;
 * unchanged moments give the same range. s^4, since what a log adds is near normal: it leaves the third derivative of the log density, so
 * that the third moment goes by s^6, and the median stands off the mean by about that over 6 s^2; s where the range widens.
 * The distribution of the new range has the new moments within about a tenth of the deviation.
 */
export function carriedRange(range: Range, from: LogMoments, to: LogMoments): Range {
  const stretch = from.deviation > 0 ? to.deviation / from.deviation : 1;
  const shift = to.mean - from.mean;
  if (shift === 0 && stretch === 1) return range;
  const skew = Math.log(range.value) - from.mean;
  const value = Math.exp(to.mean + skew * (stretch < 1 ? stretch ** 4 : stretch));
  const carry = (x: number): number => value * (x / range.value) ** stretch;
  return { low: carry(range.low), value, high: carry(range.high) };
}
