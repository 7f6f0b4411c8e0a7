import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { decidedBy, type Step } from '../model/step.ts';
import { columnStep, waterColumn } from './water-column.ts';

const gradientName = (a: Assumptions): 'fresh water column' | 'salt water column' =>
  a.word('water') === 'fresh' ? 'fresh water column' : 'salt water column';

/** Pressure `p_water` of the water over work at the depth `h_water`, salt or fresh as assumed. */
export function waterSteps(a: Assumptions): readonly Step[] {
  return [decidedBy(assumed('grad', gradientName(a)), 'water'), columnStep];
}

/**
 * Pressure of the water [Pa] over work at a depth [m], salt or fresh as assumed.
 *
 * @example waterPressure(basis.a, 33 * FOOT) / PSI // 14.69
 */
export function waterPressure(a: Assumptions, depth: number): number {
  return depth === 0 ? 0 : waterColumn(depth, a.value(gradientName(a)));
}

/**
 * Absolute pressure around the burning end [Pa]: air, and the water over it.
 *
 * depth [m]: as given, else the assumption `water depth`. Tip pressures are gauge over this. Source: US Navy Diving Manual.
 */
export function ambientPressure(a: Assumptions, depth = a.value('water depth')): number {
  return a.value('air pressure') + waterPressure(a, depth);
}
