import { isMissing, notANumber, tooHigh, tooLow } from '../messages.ts';

/** `percentile` of values already in rising order. */
export function percentileOfSorted(sorted: ArrayLike<number>, p: number): number {
  if (sorted.length === 0) throw isMissing('the list of values');
  if (!(p >= 0)) throw tooLow('percentile', String(p), '0');
  if (p > 1) throw tooHigh('percentile', String(p), '1');
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const value = sorted[below] ?? NaN;
  const share = position - below;
  return share > 0 ? value + share * ((sorted[below + 1] ?? NaN) - value) : value;
}

/**
 * Sample percentile: the value below which a share p of the list lies.
 *
 * With h = (n - 1) p counted from 0 in rising order: x[floor h] + (h - floor h) (x[floor h + 1] - x[floor h]).
 *
 * @param values numbers in any order and unit, at least one; left as they are
 * @param p      share [-], 0 to 1
 * Source: Hyndman and Fan, "Sample quantiles in statistical packages", The American Statistician 50 (1996) 361,
 * definition 7, the default of R and of the spreadsheet's PERCENTILE.INC. Example: 7, 12, 9, 1 at 0.25 gives 5.5.
 *
 * @example percentile([3, 1, 2, 5, 4], 0.25) // 2
 */
export function percentile(values: ArrayLike<number>, p: number): number {
  const sorted = Float64Array.from(values).sort();
  if (Number.isNaN(sorted[sorted.length - 1])) throw notANumber('one of the values', 'NaN', '');
  return percentileOfSorted(sorted, p);
}
