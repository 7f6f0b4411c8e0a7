import * as messages from '../messages.ts';
import { ATMOSPHERE, type UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { isotherm, OXYGEN_RANGE } from './oxygen-state.ts';

/** Temperature that fill pressures are stated at in the trade: 70 F [K]. */
export const FILL_TEMPERATURE = ((70 + 459.67) * 5) / 9;

/**
 * What a cylinder's gauge reads [Pa] at a temperature [K], filled to a gauge pressure [Pa] at 70 F.
 *
 * The density stays (`cylinderGauge`). Refuses, in the user's units, a fill whose reading is beyond the range of the
 * equation of state. argument: name of the fill pressure for messages.
 */
export function gaugeReading(
  argument: string,
  fill: number,
  temperature: number,
  air = ATMOSPHERE,
  system: UnitSystem = 'US',
): number {
  const highest = OXYGEN_RANGE.highest - air;
  const [cold, now] = [isotherm(FILL_TEMPERATURE), isotherm(temperature)];
  const reading = now.pressure(cold.density(fill + air)) - air;
  if (Math.max(reading, fill) <= highest) return reading;
  const limit = Math.min(highest, cold.pressure(now.density(OXYGEN_RANGE.highest)) - air);
  const shown = (p: number): string => showQuantity(p, 'pressure', system);
  throw messages.tooHigh(
    argument,
    shown(fill),
    `${shown(limit)}, with the gauge at ${shown(Math.min(highest, now.pressure(cold.density(limit + air)) - air))} at ${showQuantity(temperature, 'temperature', system)}`,
  );
}
