import { defineOperation, recordSizes } from './operation.ts';
import { drawPiercedHoles, piercedHoles } from './pierced-holes.ts';
import { tipPressure } from './tip-pressure.ts';

/** Holes through concrete, with or without steel in it. */
export const BREACH = defineOperation({
  id: 'BREACH',
  summary: 'make holes through concrete, with or without steel in it',
  order: ['thickness', 'hole', 'count'],
  sizes: {
    thickness: { summary: 'Thickness of the concrete', quantity: 'length', above: 0, max: 10, example: '24' },
    hole: { summary: 'Width of a hole, mean over its depth', quantity: 'length', above: 0, max: 2, example: '2.5' },
    count: {
      summary: 'Holes; 1 when left out',
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
  plan: ({ thickness = 0, hole = 0, count = 1 }, _a, trace) => {
    recordSizes(BREACH, { thickness, hole, count }, { thickness: 'L', hole: 'd', count: 'n_holes' }, trace);
    return { thickness, hole, count };
  },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  work: ({ thickness, hole, count }, rod, read, a, trace) => {
    const work = piercedHoles(hole, thickness, { n: count, symbol: 'n_holes' }, rod, read, a, trace);
    trace?.add({
      name: 'places to start at',
      symbol: 'starts',
      value: count,
      quantity: 'count',
      formula: 'each hole',
      expression: 'n_holes',
      kind: 'calculated',
      source: 'arithmetic',
    });
    return { ...work, starts: count, tasks: [{ time: 'hole set time', count, symbol: 'n_holes' }] };
  },
  draw: ({ thickness, hole, count }, rod, drawn, _a, into) =>
    drawPiercedHoles(hole, thickness, count, rod, drawn, into),
  factors: ['hole taper', 'hole set time'],
  pressure: ({ thickness }, a, trace) =>
    tipPressure(a, trace, {
      words: 'breach pressure',
      expression: 'p_0',
      thickness,
      value: () => a.record('breach pressure', 'p_0', trace),
    }),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['BREACH'],
});
