import { calculated } from '../model/step.ts';
import { defineOperation } from './operation.ts';
import { piercedHoles } from './pierced-holes.ts';
import { breachPressure } from './tip-pressure.ts';

/** Holes through concrete, with or without steel in it. */
export const BREACH = defineOperation({
  id: 'BREACH',
  summary: 'make holes through concrete, with or without steel in it',
  order: ['thickness', 'hole', 'count'],
  sizes: {
    thickness: {
      summary: 'Thickness of the concrete',
      symbol: 'L',
      quantity: 'length',
      above: 0,
      max: 10,
      example: '24',
    },
    hole: {
      summary: 'Width of a hole, mean over its depth',
      symbol: 'd',
      quantity: 'length',
      above: 0,
      max: 2,
      example: '2.5',
    },
    count: {
      summary: 'Holes; 1 when left out',
      symbol: 'n_holes',
      quantity: 'count',
      above: 0,
      max: 10000,
      whole: true,
      optional: true,
      default: 1,
      example: '4',
    },
  },
  material: 'breach material',
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  piercedAt: 'hole',
  work: () => ({
    steps: [...piercedHoles('n_holes'), calculated('starts', 'places to start at', 'count', 'n_holes', 'each hole')],
    tasks: [{ time: 'hole set time', symbol: 'n_holes' }],
  }),
  factors: ['hole taper', 'hole set time'],
  pressure: breachPressure('L'),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['BREACH'],
});
