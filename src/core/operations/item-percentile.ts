import type { Basis } from '../basis.ts';
import type { Sized } from './sized.ts';
import { DRAWS, wholeTowards } from './spread-item.ts';
import { cylinderDraws } from './cylinder-draws.ts';
import { deliveryTo } from './delivery-to.ts';
import { drawItem } from './draw-item.ts';
import { chanceWithin, drawPercentiles } from '../spread/draw-percentile.ts';

/** What of an item its spread can be asked for. */
export const SPREAD_QUANTITIES = ['rods', 'oxygen', 'burn', 'time', 'cylinders'] as const;
export type SpreadQuantity = (typeof SPREAD_QUANTITIES)[number];

/** A percentile of draws, and how far it may be off for their number. */
export interface Percentile {
  readonly value: number;
  /** Half the width of the interval that holds the percentile in 95 cases of 100. */
  readonly within: number;
}

/** Two digits that mean something: draws are added until a percentile is known to so much of itself. */
const TOLERANCE = 0.05;
/** Times that the draws are multiplied by, and how many are the most. */
const MORE = 4;
const MOST = 16 * DRAWS;

/**
 * A percentile of what one item takes: the value that a share p of the possible cases stays at or under. SI.
 *
 * The first draws are those of the plan's low and high, so p of 0.1 and 0.9 give these. Far out in the tails more are taken, four
 * times as many and again, until the interval is within 5 % of the value, at most 16,384; the same ones every time. Rods and
 * cylinders are whole: down below the middle, up from there. Infinity where the heat does not suffice in more than the rest of the
 * cases.
 *
 * The interval lies between the draws of the ranks n p +- 1.96 sqrt(n p (1 - p)), whatever their distribution; that is for draws at
 * random, evenly spread ones are nearer.
 *
 * Source: JCGM 101:2008, 7.7.2 and 7.9, of memory.
 *
 * @param p share [-], more than 0 and less than 1
 * @example itemPercentile(item, 'oxygen', 0.9, basis).value / SCF // 169.5
 */
export function itemPercentile(item: Sized, quantity: SpreadQuantity, p: number, basis: Basis): Percentile {
  for (let count = DRAWS; ; count *= MORE) {
    const draws = drawsOf(item, quantity, count, basis);
    const off = chanceWithin(p, count);
    const [value = NaN, low = NaN, high = NaN] = drawPercentiles(draws, [
      p,
      Math.max(0, p - off),
      Math.min(1, p + off),
    ]);
    const within = value === Infinity ? Infinity : (high - low) / 2;
    if (count >= MOST || within <= TOLERANCE * value || value === Infinity)
      return { value: COUNTED.has(quantity) ? wholeTowards(value, p) : value, within };
  }
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
