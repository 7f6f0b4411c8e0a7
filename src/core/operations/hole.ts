import { defineOperation, recordSizes } from './operation.ts';
import { drawPiercedHoles, piercedHoles } from './pierced-holes.ts';
import { piercePressure, tipPressure } from './tip-pressure.ts';

/** Piercing a plain hole, or a starter hole for shape cutting. */
export const HOLE = defineOperation({
  id: 'HOLE',
  summary: 'pierce a plain hole, or a starter hole for shape cutting',
  order: ['hole', 'depth'],
  sizes: {
    hole: { summary: 'Width of the hole, mean over its depth', quantity: 'length', above: 0, max: 2, example: '1' },
    depth: { summary: 'Depth to pierce', quantity: 'length', above: 0, max: 10, example: '6' },
  },
  plan: ({ hole = 0, depth = 0 }, _a, trace) => {
    recordSizes(HOLE, { hole, depth }, { hole: 'd', depth: 'L' }, trace);
    return { hole, depth };
  },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  work: ({ hole, depth }, rod, read, a, trace) => piercedHoles(hole, depth, { n: 1, symbol: '1' }, rod, read, a, trace),
  draw: ({ hole, depth }, rod, drawn, _a, into) => drawPiercedHoles(hole, depth, 1, rod, drawn, into),
  factors: ['hole taper'],
  pressure: ({ depth }, a, trace) =>
    tipPressure(a, trace, {
      words: 'pierce pressure + rise x depth, at most the top',
      expression: 'min(max(p_top, p_0), p_0 + rise * L)',
      thickness: depth,
      value: () => piercePressure(depth, a, trace),
    }),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['HOLE'],
});
