import type { Assumptions, Uncertain } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, type Step } from '../model/step.ts';

/** Elasticity of pin and boss: E_s, E_h, nu_s, nu_h. */
export const elasticitySteps: readonly Step[] = [
  assumed('E_s', 'pin modulus'),
  assumed('E_h', 'boss modulus'),
  assumed('nu_s', 'poisson ratio'),
  calculated('nu_h', "Poisson's ratio of the boss", 'ratio', 'nu_s', "as the pin's"),
];

/** Yield strengths of pin and boss: f_s, f_h. */
export const strengthSteps: readonly Step[] = [
  assumed('f_s', 'pin yield strength'),
  assumed('f_h', 'boss yield strength'),
];

/** The assumed interference: step `delta`, under the symbol named for the ratio; `D` stands before. */
export const interferenceSteps = (ratio: string): readonly Step[] => [
  assumed(ratio, 'interference over diameter'),
  calculated('delta', 'interference', 'length', `${ratio} * D`, 'interference over diameter x diameter'),
];

/** An assumption in force, times a scale. */
export function uncertainInForce(name: NumberName, a: Assumptions, scale = 1): Uncertain {
  const { low, value, high, min, max } = a.inForce(name);
  return { low: scale * low, value: scale * value, high: scale * high, min: scale * min, max: scale * max };
}

export const pinSteelInForce = (a: Assumptions) => ({
  modulus: a.value('pin modulus'),
  yield: a.value('pin yield strength'),
  poisson: a.value('poisson ratio'),
});
export const bossSteelInForce = (a: Assumptions) => ({
  modulus: a.value('boss modulus'),
  yield: a.value('boss yield strength'),
  poisson: a.value('poisson ratio'),
});
