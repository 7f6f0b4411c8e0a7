import type { Basis } from '../basis.ts';
import type { Sized } from './sized.ts';
import { wholeTowards } from './spread-item.ts';
import { cylinderDraws } from './cylinder-draws.ts';
import { deliveryTo } from './delivery-to.ts';
import { drawItem } from './draw-item.ts';
import { percentilesWithin, type Percentile } from '../spread/draw-percentile.ts';
import { drawnClosely } from './drawn-closely.ts';

/** What of an item its spread can be asked for. */
export const SPREAD_QUANTITIES = ['rods', 'oxygen', 'burn', 'time', 'cylinders'] as const;
export type SpreadQuantity = (typeof SPREAD_QUANTITIES)[number];

/**
 * A percentile of what one item takes: the value that a share p of the possible cases stays at or under. SI.
 *
 * The first draws are those of the plan's low and high, so p of 0.1 and 0.9 give these. Far out in the tails more are taken, four
 * times as many and again, until the interval is within 5 % of the value, or a rod, at most 16,384; the same ones every time. Rods and
 * cylinders are whole: down below the middle, up from there. Infinity where the heat does not suffice in more than the rest of the
 * cases.
 *
 * Source: JCGM 101:2008, 7.7.2 and 7.9, of memory.
 *
 * @param p share [-], more than 0 and less than 1
 * @example itemPercentile(item, 'oxygen', 0.9, basis).value / SCF // 164.6
 */
export function itemPercentile(
  item: Sized,
  quantity: SpreadQuantity,
  p: number,
  basis: Basis,
): Pick<Percentile, 'value' | 'within'> {
  const { value, within } = drawnClosely(
    (count) => percentilesWithin(drawsOf(item, quantity, count, basis), [p], quantity === 'rods'),
    (found) => found,
  )[0]!;
  return { value: COUNTED.has(quantity) ? wholeTowards(value, p) : value, within };
}

const COUNTED: ReadonlySet<SpreadQuantity> = new Set(['rods', 'cylinders']);

/** What an item takes of something in each of so many draws. */
function drawsOf(item: Sized, quantity: SpreadQuantity, count: number, basis: Basis): Float64Array {
  const draws = drawItem(item, count, basis);
  switch (quantity) {
    case 'rods':
      return draws.rods;
    case 'oxygen':
      return draws.oxygen;
    case 'burn':
      return draws.burnTime;
    case 'time':
      return draws.crewTime;
    case 'cylinders': {
      const content = cylinderDraws(count, basis, deliveryTo([item], basis));
      return draws.oxygen.map((o, i) => o / (content[i] ?? NaN));
    }
  }
}
