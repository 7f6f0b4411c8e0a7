/** Joint draws of uncertain factors, each with its PERT distribution, evenly spread by Sobol points. */
import { tooHigh, unknownName } from '../messages.ts';
import { pert, pertQuantiles } from './pert.ts';
import { SOBOL_DIMENSIONS, sobolColumn } from './sobol.ts';

/** A factor with its range, all in one unit. */
export interface DrawnFactor {
  readonly name: string;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Draw i of every factor together is one possible world. */
export interface Draws {
  readonly count: number;
  readonly columns: ReadonlyMap<string, Float64Array>;
}

/**
 * Independent PERT draws of a list of factors.
 *
 * Factor k uses coordinate k of scrambled Sobol points through its quantile function, so the same list, count and seed
 * give the same draws. To be kept by the caller: making them costs far more than reading them.
 *
 * @param factors at most 64, names all different; a factor with low = high is constant
 * @param count   number of draws; a power of two spreads best
 * @param seed    integer
 */
export function pertDraws(factors: readonly DrawnFactor[], count: number, seed: number): Draws {
  if (factors.length > SOBOL_DIMENSIONS)
    throw tooHigh('number of uncertain factors', String(factors.length), String(SOBOL_DIMENSIONS));
  const columns = new Map<string, Float64Array>();
  factors.forEach(({ name, low, likely, high }, k) => {
    columns.set(name, pertQuantiles(pert(low, likely, high), sobolColumn(k, count, seed)));
  });
  return { count, columns };
}

/** The draws of one factor, in the order of the worlds. */
export function drawsOf(draws: Draws, name: string): Float64Array {
  const column = draws.columns.get(name);
  if (!column) throw unknownName('factor', name, [...draws.columns.keys()]);
  return column;
}
