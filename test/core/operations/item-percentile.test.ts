import { describe, expect, it } from 'vitest';
import { operationOf } from '../../../src/core/operations/all.ts';
import { drawItem } from '../../../src/core/operations/draw-item.ts';
import { itemPercentile } from '../../../src/core/operations/item-percentile.ts';
import { drawPercentile } from '../../../src/core/spread/draw-percentile.ts';
import { IN, basisOf, sized } from './sized.ts';

const PINS = [
  [2, 5],
  [4, 10],
  [6, 18],
] as const;
/** Enough for the percentiles to stand still. */
const ALL = 65_536;

describe('a percentile of an item', () => {
  it('stands as near that of 65,536 draws as it says', () => {
    for (const [diameter, length] of PINS) {
      const basis = basisOf();
      const item = sized(operationOf('PIN'), [diameter * IN, length * IN], { basis });
      const all = drawItem(item, ALL, basis);
      for (const p of [0.01, 0.1, 0.5, 0.9, 0.99])
        for (const [quantity, draws] of [
          ['oxygen', all.oxygen],
          ['burn', all.burnTime],
          ['time', all.crewTime],
        ] as const) {
          const { value, within } = itemPercentile(item, quantity, p, basis);
          expect(Math.abs(value - drawPercentile(draws, p)), `${diameter} in, ${quantity} at ${p}`).toBeLessThan(
            within,
          );
        }
    }
  });
});
