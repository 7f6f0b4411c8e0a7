import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, type Step } from '../model/step.ts';

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
