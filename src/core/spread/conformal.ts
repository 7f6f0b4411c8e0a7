import { drawPercentile } from './draw-percentile.ts';

/**
 * Limits between which the next of some alike figures lies with a chance, whatever their distribution.
 *
 * Of n + 1 figures in any order each is as likely as another to be the last one. With tails a = (1 - chance)/2 and k = floor(a (n + 1)), it
 * lies between the k-th smallest and the k-th largest of the n others with a chance of at least 1 - 2 k/(n + 1).
 *
 * @param figures at least 2/(1 - chance) - 1 of them: nine for a chance of 0.8; in any order
 * @returns undefined where there are fewer
 * Source: Vovk, Gammerman and Shafer, Algorithmic Learning in a Random World, 2005; Wilks, Annals of Mathematical Statistics 12
 * (1941) 91, as remembered. Example: of 1 to 9, 1 and 9.
 */
export function conformalRange(figures: readonly number[], chance: number): readonly [number, number] | undefined {
  const n = figures.length;
  const k = Math.floor(((1 - chance) / 2) * (n + 1) + 1e-9);
  if (k < 1) return undefined;
  const sorted = [...figures].sort((x, y) => x - y);
  return [sorted[k - 1]!, sorted[n - k]!];
}

/**
 * Size that the next of some alike sizes stays under with a chance, whatever their distribution.
 *
 * Of n + 1 sizes in any order each is as likely as another to be the last one, so that it is no more than the k-th smallest of the n
 * others with a chance of k/(n + 1). Read at k = chance (n + 1), between the two nearest where that is not whole.
 *
 * @param sizes as many as for `conformalRange`, in any order
 * @returns undefined where there are fewer
 * Source: as there; between two, Hyndman and Fan, The American Statistician 50 (1996) 361, definition 6.
 *
 * @example conformalSize([1, 2, 3, 4, 5, 6, 7, 8, 9], 0.8) // 8
 */
export function conformalSize(sizes: readonly number[], chance: number): number | undefined {
  const n = sizes.length;
  // The share of draws at that place, less what rounding could make of it.
  return conformalRange(sizes, chance) && drawPercentile(Float64Array.from(sizes), (chance * (n + 1) - 0.5 - 1e-9) / n);
}
