import type { Basis } from '../basis.ts';
import type { Sized } from './sized.ts';
import { DRAWS, wholeTowards } from './spread-item.ts';
import { cylinderDraws } from './cylinder-draws.ts';
import { deliveryTo } from './delivery-to.ts';
import { drawItem } from './draw-item.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';

/** What of an item its spread can be asked for. */
export const SPREAD_QUANTITIES = ['rods', 'oxygen', 'burn', 'time', 'cylinders'] as const;
export type SpreadQuantity = (typeof SPREAD_QUANTITIES)[number];

/**
 * A percentile of what one item takes: the value that a share p of the possible cases stays at or under. SI.
 *
 * The draws are those of the plan's low and high, so p of 0.1 and 0.9 give these. Rods and cylinders are whole: down
 * below the middle, up from there. Infinity where the heat does not suffice in more than the rest of the cases.
 *
 * @param p share [-], more than 0 and less than 1
 * @example itemPercentile(item, 'oxygen', 0.9, basis) / SCF // 168
 */
export function itemPercentile(item: Sized, quantity: SpreadQuantity, p: number, basis: Basis): number {
  const draws = drawItem(item, DRAWS, basis);
  switch (quantity) {
    case 'rods':
      return wholeTowards(drawPercentile(draws.rods, p), p);
    case 'oxygen':
      return drawPercentile(draws.oxygen, p);
    case 'burn':
      return drawPercentile(draws.burnTime, p);
    case 'time':
      return drawPercentile(draws.crewTime, p);
    case 'cylinders': {
      const content = cylinderDraws(DRAWS, basis, deliveryTo([item], basis));
      return wholeTowards(
        drawPercentile(
          draws.oxygen.map((o, i) => o / (content[i] ?? NaN)),
          p,
        ),
        p,
      );
    }
  }
}
