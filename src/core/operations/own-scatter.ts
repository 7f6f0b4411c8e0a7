import type { Basis } from '../basis.ts';
import { seeded } from '../spread/seeded.ts';
import { SOBOL_CELLS } from '../spread/sobol.ts';
import { drawsOfShared } from './draw-item.ts';

const SEED = 814;

/**
 * Draws of `item scatter` for one item of a list, independent of those of every other item: the same equally likely
 * values, each item's in an order of its own. The first item keeps the order in which single items are drawn.
 *
 * @param item place of the item in its list, from 0
 * Source: Latin hypercube sampling, McKay, Beckman and Conover 1979.
 */
export function ownScatter(item: number, count: number, basis: Basis): Float64Array {
  return shuffled(drawsOfShared('item scatter', count, basis), item);
}

/** The values in an order of their own for each key; as they are for key 0 (Fisher and Yates, Durstenfeld 1964). */
export function shuffled(values: Float64Array, key: number): Float64Array {
  if (key === 0) return values;
  const own = Float64Array.from(values);
  const { bits } = seeded(SEED + key);
  // Each so many are evenly spread, and stay the first where more follow: they change places among themselves.
  for (let from = 0; from < own.length; from += SOBOL_CELLS)
    for (let last = Math.min(own.length - from, SOBOL_CELLS) - 1; last > 0; last--) {
      // The bias of the remainder is below 1e-5 for any number of draws in use.
      const [i, j] = [from + last, from + (bits() % (last + 1))];
      const other = own[j] ?? NaN;
      own[j] = own[i] ?? NaN;
      own[i] = other;
    }
  return own;
}
