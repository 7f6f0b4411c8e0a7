import { normalQuantile } from './normal.ts';
import { SOBOL_CELLS, sobolCells, sobolColumn } from './sobol.ts';

/** Normal scores in the middle of each cell; made when they are first asked for. */
const middles = new Float64Array(SOBOL_CELLS);

/**
 * Standard normal numbers, evenly spread: one coordinate of the first `count` scrambled Sobol points through the normal quantile.
 *
 * The first 1,024 stand in the middle of their cells of a 1,024th of the probability, so that none asks for a quantile of its own; they
 * are the same however many follow. Draw i
 * of several coordinates together is one possible world. To be kept by the caller: making them costs more than reading
 * them.
 *
 * @param dimension coordinate, 0 to 63
 * @param count     number of draws; a power of two spreads best
 * @param seed      integer
 * Source: `sobolColumn` and `normalQuantile`.
 */
export function normalColumn(dimension: number, count: number, seed: number): Float64Array {
  if (count > SOBOL_CELLS) {
    const more = sobolColumn(dimension, count, seed).map(normalQuantile);
    more.set(normalColumn(dimension, SOBOL_CELLS, seed));
    return more;
  }
  if (middles[0] === 0)
    for (let i = 0; i < SOBOL_CELLS / 2; i++) {
      const z = normalQuantile((i + 0.5) / SOBOL_CELLS);
      middles[i] = z;
      middles[SOBOL_CELLS - 1 - i] = -z;
    }
  return sobolCells(middles, dimension, count, seed);
}

/** The same coordinate as it is, up to 1,024 in the middle of their cells. */
export function placeColumn(dimension: number, count: number, seed: number): Float64Array {
  if (count > SOBOL_CELLS) return sobolColumn(dimension, count, seed);
  const places = Float64Array.from(middles.keys(), (i) => (i + 0.5) / SOBOL_CELLS);
  return sobolCells(places, dimension, count, seed);
}
