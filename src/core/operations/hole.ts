import { defineOperation } from './operation.ts';
import { piercedHoles } from './pierced-holes.ts';
import { piercePressure } from './tip-pressure.ts';

/** Piercing a plain hole, or a starter hole for shape cutting. */
export const HOLE = defineOperation({
  id: 'HOLE',
  summary: 'pierce a plain hole, or a starter hole for shape cutting',
  order: ['hole', 'depth'],
  sizes: {
    hole: {
      summary: 'Width of the hole, mean over its depth',
      symbol: 'd',
      quantity: 'length',
      above: 0,
      max: 2,
      example: '1',
    },
    depth: { summary: 'Depth to pierce', symbol: 'L', quantity: 'length', above: 0, max: 10, example: '6' },
  },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  piercedAt: 'hole',
  work: () => ({ steps: piercedHoles('1') }),
  factors: ['hole taper'],
  pressure: piercePressure('L', 'L'),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['HOLE'],
});
