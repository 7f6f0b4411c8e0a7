import * as messages from '../messages.ts';
import { calculated, given } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';

/** Pressure `p_water` of a column of water, from the depth `h_water` and the gradient `grad`. */
export const columnStep = calculated(
  'p_water',
  'pressure of the water at the work',
  'pressure',
  'grad * h_water',
  'depth x water column',
  { source: 'navy diving manual' },
);

const COLUMN = new StepList(
  [given('h_water', 'water depth', 'distance'), given('grad', 'water column', 'pressurePerLength'), columnStep],
  ['p_water'],
);

/**
 * Pressure of a column of water [Pa]: gradient times depth.
 *
 * Source: US Navy Diving Manual (0.445 psi per foot of sea water).
 *
 * @param depth 0 or more [m]
 * @param gradient salt water 0.445 psi/ft, fresh water its weight [Pa/m]
 * @example waterColumn(60 * FOOT, (0.445 * PSI) / FOOT) / PSI // 26.7
 */
export function waterColumn(depth: number, gradient: number): number {
  if (!(depth >= 0)) throw messages.tooLow('depth', `${messages.shown(depth)} m`, '0 m');
  return valueOf(COLUMN, { h_water: depth, grad: gradient });
}
