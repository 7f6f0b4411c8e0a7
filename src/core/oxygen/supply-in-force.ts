import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, type Step } from '../model/step.ts';
import type { Trace } from '../model/trace.ts';
import type { CylinderWall } from './draw-cylinder.ts';
import type { Hose } from './hose-loss.ts';
import type { Regulator } from './regulator.ts';

/** The steel of a cylinder as assumed. */
export function wallInForce(a: Assumptions, trace?: Trace): CylinderWall {
  return {
    massPerVolume: a.record('cylinder steel', 'w_cyl', trace),
    diameter: a.record('cylinder inside diameter', 'd_cyl', trace),
    specificHeat: a.record('cylinder steel heat', 'c_cyl', trace),
    insideFactor: a.record('cylinder inside convection', 'h_in', trace),
    outsideFilm: a.record('cylinder outside film', 'h_out', trace),
  };
}

/** A hose of a length and bore [m] with its fittings and roughness as assumed. */
export function hoseInForce(a: Assumptions, length: number, bore: number, trace?: Trace): Hose {
  return {
    length,
    bore,
    loss: a.record('hose fittings', 'K_hose', trace),
    roughness: a.record('hose roughness', 'e_hose', trace),
  };
}

/** A regulator as assumed, set to an absolute pressure [Pa] with nothing flowing out of a cylinder at another [Pa]. */
export function regulatorInForce(a: Assumptions, setting: number, setSupply: number, trace?: Trace): Regulator {
  return {
    setting,
    setFlow: 0,
    setSupply,
    droop: droopInForce(a, trace),
    supplyEffect: a.record('regulator supply effect', 'rise_reg', trace),
    valve: { diameter: a.record('regulator valve', 'd_valve', trace), dischargeCoefficient: 1 },
  };
}

/** Fall of the regulator's outlet with flow as assumed [Pa s/kg]. */
export function droopInForce(a: Assumptions, trace?: Trace): number {
  return a.record('regulator droop', 'droop', trace) / a.record('regulator droop flow', 'm_droop', trace);
}

/** What the gauge reads over the outlet's pressure at a flow [kg/s]: the droop where it is read standing, nothing where it is read flowing [Pa]. */
export function readOverOutlet(a: Assumptions, flow: number, trace?: Trace): number {
  if (a.word('regulator set') === 'flowing') return 0;
  const value = droopInForce(a, trace) * flow;
  trace?.add({
    name: 'droop of the regulator at the flow',
    symbol: 'p_droop',
    value,
    quantity: 'pressure',
    formula: 'regulator droop x flow / regulator droop flow, since its setting is read standing',
    expression: 'droop * m / m_droop',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return value;
}

/** Fittings and roughness of a hose as assumed. */
export const hoseSteps: readonly Step[] = [assumed('K_hose', 'hose fittings'), assumed('e_hose', 'hose roughness')];

/** The steel of a cylinder as assumed. */
export const wallSteps: readonly Step[] = [
  assumed('w_cyl', 'cylinder steel'),
  assumed('d_cyl', 'cylinder inside diameter'),
  assumed('c_cyl', 'cylinder steel heat'),
  assumed('h_in', 'cylinder inside convection'),
  assumed('h_out', 'cylinder outside film'),
];

/** Fall of the regulator's outlet with flow as assumed. */
export const droopRate: readonly Step[] = [
  assumed('droop', 'regulator droop'),
  assumed('m_droop', 'regulator droop flow'),
];

/** What the gauge reads over the outlet's pressure at a flow, `p_droop`: none where the setting is read while oxygen flows. */
export function droopSteps(a: Assumptions, flow: string): readonly Step[] {
  if (a.word('regulator set') === 'flowing') return [];
  return [
    ...droopRate,
    calculated(
      'p_droop',
      'droop of the regulator at the flow',
      'pressure',
      `droop * ${flow} / m_droop`,
      'regulator droop x flow / regulator droop flow, since its setting is read standing',
    ),
  ];
}
