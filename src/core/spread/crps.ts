/**
 * Continuous ranked probability score of draws for what came: how far the whole distribution was off, in the unit of the draws.
 * Less is better; of a single figure it is the absolute error.
 *
 * CRPS = mean |x - y| - 1/2 mean |x - x'| over the draws x, x'. For draws that were themselves noted, each is held against the others
 * alone (`apart`), so that few of them are not thought better or worse than many.
 *
 * @param draws at least one; Infinity is left out
 * @returns NaN where no draw is finite
 * Source: Gneiting and Raftery, Journal of the American Statistical Association 102 (2007) 359, equation 21; for few members Ferro,
 * Quarterly Journal of the Royal Meteorological Society 140 (2014) 1917. Example: of 1 and 3, where 2 came, 0.5.
 *
 * @example crps([1, 2, 4], 3) // 0.6667
 */
export function crps(draws: Iterable<number>, came: number, apart = false): number {
  const x = Float64Array.from(draws).filter(Number.isFinite).sort();
  const n = x.length;
  const pairs = apart ? n * (n - 1) : n * n;
  let off = 0;
  let spread = 0;
  x.forEach((value, i) => {
    off += Math.abs(value - came);
    spread += (2 * i + 1 - n) * value;
  });
  return off / n - (pairs > 0 ? spread / pairs : 0);
}
