import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, type Step } from '../model/step.ts';
import type { Trace } from '../model/trace.ts';
import type { PressFit } from './press-fit.ts';

/** Pin and boss with the elasticity in force. */
export function pressFitInForce(
  { diameter, hole, boss }: { readonly diameter: number; readonly hole: number; readonly boss: number },
  a: Assumptions,
): PressFit {
  const poisson = a.value('poisson ratio');
  return {
    diameter,
    hole,
    boss,
    pinModulus: a.value('pin modulus'),
    pinPoisson: poisson,
    bossModulus: a.value('boss modulus'),
    bossPoisson: poisson,
  };
}

/** Records the elasticity with the symbols that `contactPressure` replays: E_s, E_h, nu_s, nu_h. */
export function recordElasticity(a: Assumptions, trace: Trace | undefined): void {
  if (!trace) return;
  a.record('pin modulus', 'E_s', trace);
  a.record('boss modulus', 'E_h', trace);
  a.record('poisson ratio', 'nu_s', trace);
  trace.add({
    name: "Poisson's ratio of the boss",
    symbol: 'nu_h',
    value: a.value('poisson ratio'),
    quantity: 'ratio',
    formula: "as the pin's",
    expression: 'nu_s',
    kind: 'calculated',
    source: 'arithmetic',
  });
}

/** Low, likely and high of an assumption in force, times a scale. */
export function levelsInForce(
  name: NumberName,
  a: Assumptions,
  scale = 1,
): { readonly low: number; readonly likely: number; readonly high: number } {
  const { low, value, high } = a.inForce(name);
  return { low: scale * low, likely: scale * value, high: scale * high };
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

/** Elasticity of pin and boss: E_s, E_h, nu_s, nu_h. */
export const elasticitySteps: readonly Step[] = [
  assumed('E_s', 'pin modulus'),
  assumed('E_h', 'boss modulus'),
  assumed('nu_s', 'poisson ratio'),
  calculated('nu_h', "Poisson's ratio of the boss", 'ratio', 'nu_s', "as the pin's"),
];
