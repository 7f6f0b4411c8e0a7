import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';

/** Pressure `p_water` of the water over work at the depth `h_water`, salt or fresh as assumed. */
export function waterSteps(a: Assumptions): readonly Step[] {
  return [
    assumed('grad', a.word('water') === 'fresh' ? 'fresh water column' : 'salt water column'),
    calculated('p_water', 'pressure of the water at the work', 'pressure', 'grad * h_water', 'depth x water column', {
      source: 'navy diving manual',
    }),
  ];
}

/** Pressure of the water [Pa] over work at a depth [m], salt or fresh as assumed. */
export function waterPressure(a: Assumptions, depth: number): number {
  if (depth === 0) return 0;
  const list = new StepList([given('h_water', 'water depth', 'distance'), ...waterSteps(a)], ['p_water']);
  return work(list, { h_water: depth }, a).value;
}

/**
 * Absolute pressure around the burning end [Pa]: air, and the water over it.
 *
 * depth [m]: as given, else the assumption `water depth`. Tip pressures are gauge over this. Source: US Navy Diving Manual.
 */
export function ambientPressure(a: Assumptions, depth = a.value('water depth')): number {
  return a.value('air pressure') + waterPressure(a, depth);
}
