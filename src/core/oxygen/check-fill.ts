import type { Assumptions } from '../assumptions/assumptions.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { highestFill } from './cylinder-sizes.ts';

/**
 * Refuses a gauge reading [Pa] at a temperature [K] above what the cylinder may be filled to: its service pressure [Pa]
 * at its fill temperature [K], and a tenth.
 */
export function checkFill(
  argument: string,
  reading: number,
  temperature: number,
  servicePressure: number,
  fillTemperature: number,
  a: Assumptions,
): void {
  const air = a.value('air pressure');
  const limit = highestFill(servicePressure, fillTemperature, temperature, air) - air;
  if (reading <= limit * (1 + 1e-9)) return;
  const shown = (p: number): string => showQuantity(p, 'pressure', a.system);
  throw messages.fillTooHigh(
    argument,
    shown(reading),
    shown(limit),
    shown(servicePressure),
    showQuantity(fillTemperature, 'temperature', a.system),
  );
}
