import type { Assumptions } from '../assumptions/assumptions.ts';
import { ZERO_CELSIUS } from '../heat/celsius.ts';
import { radialMesh } from '../heat/radial-mesh.ts';
import type { Trace } from '../model/trace.ts';
import { contactPressure } from './contact-pressure.ts';
import { elasticPressureLimit } from './elastic-pressure-limit.ts';
import { bossSteelInForce, pinSteelInForce } from './fit-in-force.ts';
import type { PressFit } from './press-fit.ts';
import { rings } from './ring-solver.ts';
import { ringSteel } from './ring-steel.ts';

/** Where strengths are those at room temperature [K]. */
const ROOM = ZERO_CELSIUS + 20;
const CELLS = 12;

/**
 * Contact pressure of a pin pressed into a boss, also where one of them yields.
 *
 * Lame's `contactPressure` up to `elasticPressureLimit`; beyond, pin and boss yield as elastic, perfectly plastic rings.
 * lengths [m]; result [Pa]. Source: contact-pressure.ts, ring-solver.ts.
 */
export function pressedPressure(fit: PressFit, interference: number, a: Assumptions, trace?: Trace): number {
  const elastic = contactPressure(fit, interference, a.system, trace);
  const limit = elasticPressureLimit(fit, a.value('pin yield strength'), a.value('boss yield strength'));
  trace?.add({
    name: 'pressure at which pin or boss starts to yield',
    symbol: 'p_yield',
    value: limit,
    quantity: 'stress',
    formula: "von Mises on Lame's stresses, at the bore of the boss or of the pin",
    kind: 'published',
    source: 'lame',
  });
  if (elastic <= limit) return elastic;
  const mesh = radialMesh([
    { inner: fit.hole / 2, outer: fit.diameter / 2, cells: CELLS },
    { inner: fit.diameter / 2, outer: fit.boss / 2, cells: CELLS, graded: 'ratios' },
  ]);
  const temperatures = new Float64Array(mesh.count).fill(ROOM);
  const solver = rings(mesh, {
    materials: [ringSteel(pinSteelInForce(a)), ringSteel(bossSteelInForce(a))],
    interference: interference / 2,
    reference: ROOM,
    ends: 'free',
  });
  const pressure = solver.advance({ temperatures }).pressures[0] ?? elastic;
  trace?.add({
    name: 'contact pressure with yielding',
    symbol: 'p_plastic',
    value: pressure,
    quantity: 'stress',
    formula: 'pin and boss as rings that yield',
    kind: 'calculated',
    source: 'hill',
  });
  return pressure;
}
