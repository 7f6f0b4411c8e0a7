import { normalQuantile } from './normal.ts';
import { sobolColumn } from './sobol.ts';

/**
 * Standard normal numbers, evenly spread: one coordinate of the first `count` scrambled Sobol points through the normal quantile.
 *
 * Draw i of several coordinates together is one possible world. To be kept by the caller: making them costs more than reading
 * them.
 *
 * @param dimension coordinate, 0 to 63
 * @param count     number of draws; a power of two spreads best
 * @param seed      integer
 * Source: `sobolColumn` and `normalQuantile`.
 */
export const normalColumn = (dimension: number, count: number, seed: number): Float64Array =>
  sobolColumn(dimension, count, seed).map(normalQuantile);
