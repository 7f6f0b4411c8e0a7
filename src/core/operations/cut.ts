import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated } from '../model/step.ts';
import { KERF_FACTORS, kerfWidth } from './kerf-width.ts';
import { defineOperation, type Work } from './operation.ts';
import { severPressure } from './tip-pressure.ts';

const KERF = 'kerf';
const ROW = 'row of holes';

const reach = calculated('reach', 'depth to reach', 'length', 't_s', 'the thickness');

/** A kerf along the length: V = w_m t L. */
const kerf = (a: Assumptions): Work => ({
  steps: [
    ...kerfWidth('t_s', a),
    calculated('V', 'volume of the kerf', 'volume', 'w_m * t_s * L', 'mean width of the kerf x thickness x length'),
    reach,
  ],
});

/**
 * A row of holes along the length, pierced at the rod's own width w and a pitch x w apart, n = L / (pitch w). A row is of whole
 * holes, set closer so that they fit: those are set up and started, but what is burnt goes with the length, since closer ones
 * overlap. What is left between them is broken out.
 */
const ROW_OF_HOLES: Work = {
  steps: [
    assumed('widths', 'pierce width'),
    calculated('w', 'width pierced', 'length', 'widths * d_rod', 'pierce width x outside diameter of the rod'),
    calculated('x', 'depth pierced', 'length', 't_s', 'the thickness'),
    assumed('pitch', 'hole pitch'),
    calculated(
      'n',
      'holes pierced, not rounded',
      'count',
      'max(1, L / (pitch * w))',
      'length / (hole pitch x width pierced), at least one',
    ),
    calculated('n_row', 'holes of the row', 'count', 'ceil(n - 1e-9)', 'holes, not rounded, whole, up'),
    assumed('taper', 'hole taper'),
    calculated('d_m', 'width at the mouth', 'length', 'w + taper * t_s', 'width pierced + hole taper x thickness'),
    calculated(
      'V',
      'volume of the taper',
      'volume',
      'n * (PI / 12 * (w * w + w * d_m + d_m * d_m) * t_s - PI / 4 * w * w * t_s)',
      'holes x (pi / 12 x (width squared + width x mouth + mouth squared) - pi / 4 x width squared) x thickness',
    ),
    reach,
  ],
  tasks: [{ time: 'row hole time', symbol: 'n_row', even: 'n' }],
};

/** Severing a plate or section, with a kerf or by piercing a row of holes. */
export const CUT = defineOperation({
  id: 'CUT',
  summary: 'sever a plate or section, with a kerf or a row of holes',
  order: ['thickness', 'length'],
  sizes: {
    thickness: {
      summary: 'Thickness of the section',
      symbol: 't_s',
      quantity: 'length',
      above: 0,
      max: 10,
      example: '2',
    },
    length: { summary: 'Length to sever', symbol: 'L', quantity: 'length', above: 0, max: 1000, example: '24' },
  },
  opening: () => undefined,
  methods: { choice: 'cut method', names: [KERF, ROW] },
  work: (a, method) => (method === ROW ? ROW_OF_HOLES : kerf(a)),
  factors: [...KERF_FACTORS, 'hole taper', 'hole pitch', 'row hole time'],
  pressure: severPressure('t_s'),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['CUT'],
});
