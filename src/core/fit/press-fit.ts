import { mustBeLess, notAbove } from '../messages.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

/** A pin in a boss: diameters [m], elasticity [Pa]. */
export interface PressFit {
  /** Diameter of the joint. */
  readonly diameter: number;
  /** Bore of the pin; 0 is a solid pin. */
  readonly hole: number;
  /** Outside diameter of the boss. */
  readonly boss: number;
  readonly pinModulus: number;
  readonly pinPoisson: number;
  readonly bossModulus: number;
  readonly bossPoisson: number;
}

/** Refuses diameters that do not fit each other. */
export function checkPressFit({ diameter, hole, boss }: PressFit, system: UnitSystem): void {
  const show = (x: number): string => showQuantity(x, 'length', system);
  if (!(diameter > 0)) throw notAbove('diameter', show(diameter), show(0));
  if (!(hole < diameter)) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(boss > diameter && boss < Infinity)) throw notAbove('boss', show(boss), `the pin's ${show(diameter)}`);
}

/** Shape factors of Lame's rings: boss (Do^2 + d^2) / (Do^2 - d^2), pin (d^2 + di^2) / (d^2 - di^2). */
export function ringShapes({ diameter: d, hole: di, boss: Do }: PressFit): {
  readonly boss: number;
  readonly pin: number;
} {
  return { boss: (Do * Do + d * d) / (Do * Do - d * d), pin: (d * d + di * di) / (d * d - di * di) };
}

/**
 * Interference on the diameter that a contact pressure takes up, per pascal [m/Pa].
 *
 * d [ (boss shape + nu_h) / E_h + (pin shape - nu_s) / E_s ].
 */
export function fitCompliance(fit: PressFit): number {
  const { boss, pin } = ringShapes(fit);
  return fit.diameter * ((boss + fit.bossPoisson) / fit.bossModulus + (pin - fit.pinPoisson) / fit.pinModulus);
}
