import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
import { KERF_FACTORS, drawKerf, kerfWidth } from './kerf-width.ts';
import { defineOperation, recordSizes, type Work, type WorkDraws } from './operation.ts';
import { taperedHole } from './pierced-holes.ts';
import { wholeUp } from './rod-fit.ts';
import { severPressure } from './tip-pressure.ts';

const KERF = 'kerf';
const ROW = 'row of holes';

type Step = (
  name: string,
  symbol: string,
  value: number,
  quantity: 'count' | 'volume' | 'length',
  formula: string,
  expression: string,
) => void;
const stepsInto =
  (trace: Trace): Step =>
  (name, symbol, value, quantity, formula, expression) =>
    trace.add({ name, symbol, value, quantity, formula, expression, kind: 'calculated', source: 'arithmetic' });

/** A kerf along the length: V = w_m t L. */
function kerf(thickness: number, length: number, rod: Rod, read: ReadNumber, a: Assumptions, trace?: Trace): Work {
  const width = kerfWidth(rod, thickness, 't_s', read, a, trace);
  const freeVolume = width * thickness * length;
  if (trace) {
    const step = stepsInto(trace);
    step(
      'volume of the kerf',
      'V',
      freeVolume,
      'volume',
      'mean width of the kerf x thickness x length',
      'w_m * t_s * L',
    );
    step('depth to reach', 'reach', thickness, 'length', 'the thickness', 't_s');
  }
  return { pierceWidth: 0, pierceDepth: 0, pierces: 0, freeVolume, reach: thickness };
}

const taperVolume = (count: number, width: number, thickness: number, taper: number): number =>
  count * (taperedHole(width, thickness, taper) - (Math.PI / 4) * width * width * thickness);

/**
 * A row of holes along the length, pierced at the rod's own width w and a pitch x w apart: n = ceil(L / (pitch w)).
 * What is left between them is broken out.
 */
function rowOfHoles(
  thickness: number,
  length: number,
  rod: Rod,
  read: ReadNumber,
  a: Assumptions,
  trace?: Trace,
): Work {
  const width = read('pierce width') * rod.outsideDiameter;
  const taper = read('hole taper');
  const count = wholeUp(length / (read('hole pitch') * width));
  const freeVolume = taperVolume(count, width, thickness, taper);
  if (trace) {
    const step = stepsInto(trace);
    step('width pierced', 'w', width, 'length', 'pierce width x outside diameter of the rod', 'widths * d_rod');
    step('depth pierced', 'x', thickness, 'length', 'the thickness', 't_s');
    a.record('hole pitch', 'pitch', trace);
    step(
      'holes pierced',
      'n',
      count,
      'count',
      'length / (hole pitch x width pierced), whole, up',
      'max(1, ceil(L / (pitch * w) - 1e-9))',
    );
    a.record('hole taper', 'taper', trace);
    step(
      'width at the mouth',
      'd_m',
      width + taper * thickness,
      'length',
      'width pierced + hole taper x thickness',
      'w + taper * t_s',
    );
    step(
      'volume of the taper',
      'V',
      freeVolume,
      'volume',
      'holes x (pi / 12 x (width squared + width x mouth + mouth squared) - pi / 4 x width squared) x thickness',
      'n * (PI / 12 * (w * w + w * d_m + d_m * d_m) * t_s - PI / 4 * w * w * t_s)',
    );
    step('depth to reach', 'reach', thickness, 'length', 'the thickness', 't_s');
  }
  return {
    pierceWidth: width,
    pierceDepth: thickness,
    pierces: count,
    freeVolume,
    reach: thickness,
    tasks: [{ time: 'row hole time', count, symbol: 'n' }],
  };
}

function drawRow(
  thickness: number,
  length: number,
  rod: Rod,
  drawn: (name: NumberName) => Float64Array,
  { pierceWidth, pierces, freeVolume, tasks }: WorkDraws,
): void {
  const [widths, taper, pitch, each] = [
    drawn('pierce width'),
    drawn('hole taper'),
    drawn('hole pitch'),
    drawn('row hole time'),
  ];
  for (let i = 0; i < widths.length; i++) {
    const width = widths[i]! * rod.outsideDiameter;
    const count = wholeUp(length / (pitch[i]! * width));
    pierceWidth[i] = width;
    pierces[i] = count;
    freeVolume[i] = taperVolume(count, width, thickness, taper[i]!);
    tasks[i] = count * each[i]!;
  }
}

/** Severing a plate or section, with a kerf or by piercing a row of holes. */
export const CUT = defineOperation({
  id: 'CUT',
  summary: 'sever a plate or section, with a kerf or a row of holes',
  order: ['thickness', 'length'],
  sizes: {
    thickness: { summary: 'Thickness of the section', quantity: 'length', above: 0, max: 10, example: '2' },
    length: { summary: 'Length to sever', quantity: 'length', above: 0, max: 1000, example: '24' },
  },
  plan: ({ thickness = 0, length = 0 }, _a, trace) => {
    recordSizes(CUT, { thickness, length }, { thickness: 't_s', length: 'L' }, trace);
    return { thickness, length };
  },
  opening: () => undefined,
  methods: { choice: 'cut method', names: [KERF, ROW] },
  work: ({ thickness, length }, rod, read, a, trace, method) =>
    (method === ROW ? rowOfHoles : kerf)(thickness, length, rod, read, a, trace),
  draw: ({ thickness, length }, rod, drawn, a, into, method) => {
    if (method === ROW) drawRow(thickness, length, rod, drawn, into);
    else drawKerf(thickness, length, thickness, rod, drawn, a, into);
  },
  factors: [...KERF_FACTORS, 'hole taper', 'hole pitch', 'row hole time'],
  pressure: ({ thickness }, a, trace) => severPressure(thickness, 't_s', a, trace),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['CUT'],
});
