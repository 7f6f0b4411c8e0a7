import { coolsTooSlowly, notAbove } from '../messages.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { checkPin } from './check-pin.ts';
import { coolPin, type CoolingMethod, type PinInBoss } from './cool-pin.ts';
import type { BurnPass } from './heat-into-wall.ts';
import { ESTIMATE_GRIDS, type HeatGrid, type HeatPhysics } from './heat-physics.ts';

export interface CoolingTime extends PinInBoss {
  readonly method: CoolingMethod;
  readonly passes: readonly BurnPass[];
  /** Hottest part of the pin's ring at which cooling is over [K]. */
  readonly target: number;
  /** With it, cooling also goes on until the pin's mean is no more than this above the boss's [K]. */
  readonly evenness?: number;
}

/** Cooling is not followed longer than this [s], 14 days. */
export const LONGEST = 14 * 86400;

/**
 * Coolest the surroundings can make a pin, and what they are called.
 *
 * @example coolant('air', physicsInForce(basis.a)).temperature // 294.26
 */
export function coolant(
  method: CoolingMethod,
  { ambient, water }: HeatPhysics,
): { readonly temperature: number; readonly name: string } {
  return method === 'water' ? { temperature: water, name: "the water's" } : { temperature: ambient, name: "the air's" };
}

/**
 * Time from the end of burning until no part of the pin is hotter than the target, and the pin is even with its boss.
 *
 * The section burnt last is followed, as in `coolPin`: it is the hottest. Zero where it never was as hot.
 * diameter, hole, boss, length [m], passes [J/m, s], target [K]; result [s].
 * Valid for a pin and boss of carbon or low-alloy steel in still air, or kept covered by water. Steel round the boss
 * that draws heat away is in it only as far as `boss` counts it, so the time is rather long than short.
 * Source: as `coolPin`. The usual grid's error is within 3 %.
 * @example coolingTime({ diameter: 0.1, hole: 0.06, boss: 0.25, length: 0.25, method: 'air',
 *   passes: passesInForce({ diameter: 0.1, hole: 0.06, boss: 0.25, length: 0.25 }, 0.006, basis.a), target: 422 },
 *   physicsInForce(basis.a)) / 60 // 2.4695
 */
export function coolingTime(
  inputs: CoolingTime,
  physics: HeatPhysics,
  grid: HeatGrid = ESTIMATE_GRIDS[inputs.method],
  system: UnitSystem = 'US',
): number {
  const { diameter, hole, boss, length, method, passes, target, evenness } = inputs;
  const pin = { diameter, hole, boss, length };
  checkPin(pin, system, physics.bushing);
  const sink = coolant(method, physics);
  if (!(target > sink.temperature)) {
    const show = (t: number): string => showQuantity(t, 'temperature', system);
    throw notAbove('target', show(target), `${sink.name} ${show(sink.temperature)}`);
  }
  const run = coolPin(
    { pin, passes, method, position: 1, target, duration: LONGEST, ...(evenness !== undefined && { evenness }) },
    physics,
    grid,
  );
  if (!run.reached)
    throw coolsTooSlowly(showQuantity(target, 'temperature', system), showQuantity(LONGEST, 'time', system));
  return run.time;
}
