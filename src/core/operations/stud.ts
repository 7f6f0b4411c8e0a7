import { KERF_FACTORS, drawKerf, kerfWidth } from './kerf-width.ts';
import { defineOperation, recordSizes } from './operation.ts';
import { severPressure } from './tip-pressure.ts';

/** Severing round bars, bolts and studs. */
export const STUD = defineOperation({
  id: 'STUD',
  summary: 'sever round bars, bolts or studs',
  order: ['diameter', 'count'],
  sizes: {
    diameter: { summary: 'Diameter of a bar, bolt or stud', quantity: 'length', above: 0, max: 2, example: '1.5' },
    count: {
      summary: 'Studs; 1 when left out',
      quantity: 'count',
      above: 0,
      max: 10000,
      whole: true,
      optional: true,
      default: 1,
      example: '12',
    },
  },
  plan: ({ diameter = 0, count = 1 }, _a, trace) => {
    recordSizes(STUD, { diameter, count }, { diameter: 'D', count: 'n_studs' }, trace);
    return { diameter, count };
  },
  opening: () => undefined,
  work: ({ diameter, count }, rod, read, a, trace) => {
    const width = kerfWidth(rod, diameter, 'D', read, a, trace);
    const freeVolume = count * (Math.PI / 4) * diameter * diameter * width;
    if (trace) {
      trace.add({
        name: 'volume of the kerfs',
        symbol: 'V',
        value: freeVolume,
        quantity: 'volume',
        formula: 'studs x pi / 4 x diameter squared x mean width of the kerf',
        expression: 'n_studs * PI / 4 * D * D * w_m',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'depth to reach',
        symbol: 'reach',
        value: diameter,
        quantity: 'length',
        formula: 'the diameter',
        expression: 'D',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'places to start at',
        symbol: 'starts',
        value: count,
        quantity: 'count',
        formula: 'each stud',
        expression: 'n_studs',
        kind: 'calculated',
        source: 'arithmetic',
      });
    }
    return {
      pierceWidth: 0,
      pierceDepth: 0,
      pierces: 0,
      freeVolume,
      reach: diameter,
      starts: count,
      tasks: [{ time: 'stud time', count, symbol: 'n_studs' }],
    };
  },
  draw: ({ diameter, count }, rod, drawn, a, into) =>
    drawKerf(count * (Math.PI / 4) * diameter * diameter, 1, diameter, rod, drawn, a, into),
  factors: [...KERF_FACTORS, 'stud time'],
  pressure: ({ diameter }, a, trace) => severPressure(diameter, 'D', a, trace),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['STUD'],
});
