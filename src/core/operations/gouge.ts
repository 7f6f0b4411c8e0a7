import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Trace } from '../model/trace.ts';
import { defineOperation, recordSizes } from './operation.ts';
import { wholeUp } from './rod-fit.ts';
import { tipPressure } from './tip-pressure.ts';

/** Section of a half-elliptical groove [m2]: A = pi / 4 x width x depth; the step `A` of the working. */
function grooveSection(width: number, depth: number, trace?: Trace): number {
  const section = (Math.PI / 4) * width * depth;
  trace?.add({
    name: 'section of the groove',
    symbol: 'A',
    value: section,
    quantity: 'area',
    formula: 'half an ellipse: pi / 4 x width x depth',
    expression: 'PI / 4 * W * h',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return section;
}

/** Tip pressure for a groove, gauge [Pa], from the lowest to the highest with its section: common practice, 40 to 90 psi with the metal to remove. */
function groovePressure(width: number, depth: number, a: Assumptions, trace?: Trace): number {
  return tipPressure(a, trace, {
    words: 'gouge pressure, rising to the top with the section up to the full section',
    expression: 'p_0 + max(p_top - p_0, 0) * min(1, A / A_full)',
    thickness: depth,
    value: () => {
      const base = a.record('gouge pressure', 'p_0', trace);
      const top = a.record('gouge pressure top', 'p_top', trace);
      const full = a.record('gouge full section', 'A_full', trace);
      return base + Math.max(top - base, 0) * Math.min(1, ((Math.PI / 4) * width * depth) / full);
    },
  });
}

/** Gouging a groove, or a weld out. */
export const GOUGE = defineOperation({
  id: 'GOUGE',
  summary: 'gouge a groove or a weld out, of half-elliptical section',
  order: ['width', 'depth', 'length'],
  sizes: {
    width: { summary: 'Width of the groove at the surface', quantity: 'length', above: 0, max: 2, example: '0.75' },
    depth: { summary: 'Depth of the groove', quantity: 'length', above: 0, max: 2, example: '0.5' },
    length: { summary: 'Length of the groove', quantity: 'length', above: 0, max: 1000, example: '24' },
  },
  plan: ({ width = 0, depth = 0, length = 0 }, _a, trace) => {
    recordSizes(GOUGE, { width, depth, length }, { width: 'W', depth: 'h', length: 'L' }, trace);
    grooveSection(width, depth, trace);
    return { width, depth, length };
  },
  opening: ({ width }) => ({ width, name: 'width', ratio: 'groove width', does: 'gouges' }),
  work: ({ width, depth, length }, rod, read, a, trace) => {
    const overcut = read('groove overcut');
    const freeVolume = overcut * (Math.PI / 4) * width * depth * length;
    const lanes = wholeUp(width / (read('groove width') * rod.outsideDiameter));
    const layers = wholeUp(depth / read('pass depth'));
    const count = lanes * layers;
    if (trace) {
      const step = (
        name: string,
        symbol: string,
        value: number,
        quantity: 'count' | 'volume' | 'length',
        formula: string,
        expression: string,
      ): void =>
        trace.add({ name, symbol, value, quantity, formula, expression, kind: 'calculated', source: 'arithmetic' });
      a.record('groove overcut', 'overcut', trace);
      a.record('groove width', 'grooves', trace);
      a.record('pass depth', 'h_pass', trace);
      step('volume of the groove', 'V', freeVolume, 'volume', 'groove overcut x section x length', 'overcut * A * L');
      step(
        'passes side by side',
        'n_lane',
        lanes,
        'count',
        'width / (groove width x outside diameter of the rod), whole, up',
        'max(1, ceil(W / (grooves * d_rod) - 1e-9))',
      );
      step(
        'passes one below the other',
        'n_layer',
        layers,
        'count',
        'depth / pass depth, whole, up',
        'max(1, ceil(h / h_pass - 1e-9))',
      );
      step('passes', 'n_pass', count, 'count', 'side by side x one below the other', 'n_lane * n_layer');
      step('depth to reach', 'reach', 0, 'length', 'the rod works at the surface', '0');
      step('places to start at', 'starts', count, 'count', 'each pass', 'n_pass');
    }
    return {
      pierceWidth: 0,
      pierceDepth: 0,
      pierces: 0,
      freeVolume,
      reach: 0,
      starts: count,
      tasks: [{ time: 'pass time', count, symbol: 'n_pass' }],
    };
  },
  draw: ({ width, depth, length }, rod, drawn, _a, { freeVolume, starts, tasks }) => {
    const [overcut, grooves, passDepth, passTime] = [
      drawn('groove overcut'),
      drawn('groove width'),
      drawn('pass depth'),
      drawn('pass time'),
    ];
    for (let i = 0; i < overcut.length; i++) {
      const count = wholeUp(width / (grooves[i]! * rod.outsideDiameter)) * wholeUp(depth / passDepth[i]!);
      freeVolume[i] = overcut[i]! * (Math.PI / 4) * width * depth * length;
      starts[i] = count;
      tasks[i] = count * passTime[i]!;
    }
  },
  factors: ['groove overcut', 'groove width', 'pass depth', 'pass time'],
  pressure: ({ width, depth }, a, trace) => groovePressure(width, depth, a, trace),
  crewTimes: ['set-up time', 'clean-up time'],
  cautions: ['GOUGE'],
});
