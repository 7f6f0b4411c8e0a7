import { calculated } from '../model/step.ts';
import { KERF_FACTORS, kerfWidth } from './kerf-width.ts';
import { defineOperation } from './operation.ts';
import { severPressure } from './tip-pressure.ts';

/** Severing round bars, bolts and studs. */
export const STUD = defineOperation({
  id: 'STUD',
  summary: 'sever round bars, bolts or studs',
  order: ['diameter', 'count'],
  sizes: {
    diameter: {
      summary: 'Diameter of a bar, bolt or stud',
      symbol: 'D',
      quantity: 'length',
      above: 0,
      max: 2,
      example: '1.5',
    },
    count: {
      summary: 'Studs; 1 when left out',
      symbol: 'n_studs',
      quantity: 'count',
      above: 0,
      max: 10000,
      whole: true,
      optional: true,
      default: 1,
      example: '12',
    },
  },
  opening: () => undefined,
  work: (a) => ({
    steps: [
      ...kerfWidth('D', a),
      calculated(
        'V',
        'volume of the kerfs',
        'volume',
        'n_studs * PI / 4 * D * D * w_m',
        'studs x pi / 4 x diameter squared x mean width of the kerf',
      ),
      calculated('reach', 'depth to reach', 'length', 'D', 'the diameter'),
      calculated('starts', 'places to start at', 'count', 'n_studs', 'each stud'),
    ],
    tasks: [{ time: 'stud time', symbol: 'n_studs' }],
  }),
  factors: [...KERF_FACTORS, 'stud time'],
  pressure: severPressure('D'),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['STUD'],
});
