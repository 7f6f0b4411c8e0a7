import type { UnitSystem } from '../units/quantities.ts';
import { checkPin } from './check-pin.ts';
import { coolPin, type CoolingMethod, type PinInBoss } from './cool-pin.ts';
import type { BurnPass } from './heat-into-wall.ts';
import { ESTIMATE_GRIDS, type HeatGrid, type HeatPhysics } from './heat-physics.ts';
import { pinTemperatures, type PinTemperatures } from './pin-temperatures.ts';
import { steelConductivity } from './steel-conductivity.ts';

export interface CoolingCurve extends PinInBoss {
  readonly method: CoolingMethod;
  readonly passes: readonly BurnPass[];
  /** Moments wanted, counted from the end of burning: 0 or later, rising [s]. */
  readonly times: readonly number[];
  /** Where along the pin: 0 burnt first, 1 burnt last; 1 when left out. */
  readonly position?: number;
}

export interface CoolingPoint extends PinTemperatures {
  /** From the end of burning [s]. */
  readonly time: number;
}

/**
 * Temperatures of a section of pin and boss at given moments after burning, as `coolPin` finds them.
 *
 * diameter, hole, boss, length [m], times [s]; temperatures [K]. Between the solver's steps straight lines are drawn,
 * which stay within the step tolerance. Source: as `coolPin`.
 */
export function coolingCurve(
  inputs: CoolingCurve,
  physics: HeatPhysics,
  grid: HeatGrid = ESTIMATE_GRIDS[inputs.method],
  system: UnitSystem = 'US',
): readonly CoolingPoint[] {
  const { diameter, hole, boss, length, method, passes, times, position = 1 } = inputs;
  const pin = { diameter, hole, boss, length };
  checkPin(pin, system);
  const moments: { readonly time: number; readonly temperatures: Float64Array }[] = [];
  const latest = times[times.length - 1] ?? 0;
  const run = coolPin(
    { pin, passes, method, position, duration: Math.max(latest, 1) },
    physics,
    grid,
    (time, temperatures) => {
      if (time <= 0) moments.length = 0;
      moments.push({ time, temperatures: temperatures.slice() });
    },
  );
  const points: CoolingPoint[] = [];
  let i = 0;
  for (const time of times) {
    while (i + 2 < moments.length && moments[i + 1]!.time < time) i++;
    const a = moments[i]!;
    const b = moments[i + 1]!;
    const share = (time - a.time) / (b.time - a.time);
    const between = a.temperatures.map((t, k) => t + share * (b.temperatures[k]! - t));
    points.push({ time, ...pinTemperatures(run.mesh, between, physics.contact, steelConductivity) });
  }
  return points;
}
