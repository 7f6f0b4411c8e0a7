import { assumed } from '../assumptions/assumed.ts';
import { calculated } from '../model/step.ts';
import { defineOperation } from './operation.ts';
import { gougePressure } from './tip-pressure.ts';

/** Section of a half-elliptical groove: A = pi / 4 x width x depth. */
const SECTION = calculated(
  'A',
  'section of the groove',
  'area',
  'PI / 4 * W * h',
  'half an ellipse: pi / 4 x width x depth',
);

/** Gouging a groove, or a weld out. */
export const GOUGE = defineOperation({
  id: 'GOUGE',
  summary: 'gouge a groove or a weld out, of half-elliptical section',
  order: ['width', 'depth', 'length'],
  sizes: {
    width: {
      summary: 'Width of the groove at the surface',
      symbol: 'W',
      quantity: 'length',
      above: 0,
      max: 2,
      example: '0.75',
    },
    depth: { summary: 'Depth of the groove', symbol: 'h', quantity: 'length', above: 0, max: 2, example: '0.5' },
    length: { summary: 'Length of the groove', symbol: 'L', quantity: 'length', above: 0, max: 1000, example: '24' },
  },
  opening: ({ width }) => ({ width, name: 'width', ratio: 'groove width', does: 'gouges' }),
  work: () => ({
    steps: [
      SECTION,
      assumed('overcut', 'groove overcut'),
      assumed('grooves', 'groove width'),
      assumed('h_pass', 'pass depth'),
      calculated('V', 'volume of the groove', 'volume', 'overcut * A * L', 'groove overcut x section x length'),
      calculated(
        'lanes',
        'passes side by side, not rounded',
        'count',
        'max(1, W / (grooves * d_rod))',
        'width / (groove width x outside diameter of the rod), at least one',
      ),
      calculated('n_lane', 'passes side by side', 'count', 'ceil(lanes - 1e-9)', 'not rounded, whole, up'),
      calculated(
        'layers',
        'passes one below the other, not rounded',
        'count',
        'max(1, h / h_pass)',
        'depth / pass depth, at least one',
      ),
      calculated('n_layer', 'passes one below the other', 'count', 'ceil(layers - 1e-9)', 'not rounded, whole, up'),
      calculated('n_even', 'passes, not rounded', 'count', 'lanes * layers', 'side by side x one below the other'),
      calculated('n_pass', 'passes', 'count', 'n_lane * n_layer', 'side by side x one below the other'),
      calculated('reach', 'depth to reach', 'length', '0', 'the rod works at the surface'),
      calculated('starts', 'places to start at', 'count', 'n_pass', 'each pass'),
    ],
    tasks: [{ time: 'pass time', symbol: 'n_even' }],
    even: 'n_even',
  }),
  factors: ['groove overcut', 'groove width', 'pass depth', 'pass time'],
  pressure: gougePressure('h', SECTION),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['GOUGE'],
});
