import type { UnitSystem } from '../units/quantities.ts';
import { checkPressFit, fitCompliance, type PressFit } from './press-fit.ts';

/**
 * Interference that gives a contact pressure: the inverse of `contactPressure`.
 *
 * diameters [m], pressure [Pa], 0 or more; result on the diameter [m]. Source and range as there.
 */
export function interferenceForPressure(fit: PressFit, pressure: number, system: UnitSystem = 'US'): number {
  checkPressFit(fit, system);
  return pressure * fitCompliance(fit);
}
