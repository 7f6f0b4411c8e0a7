import * as messages from '../messages.ts';
import { checkOxygenRange, isotherm } from './oxygen-state.ts';

/** So that a content worked out at the very end of the range leads back into it. */
const ROUNDING = 1e-9;

function checkVolume(volume: number): void {
  if (!(volume > 0)) throw messages.blankOrZero('water volume');
}

/**
 * Oxygen [kg] in a cylinder of a water volume [m3] at an absolute pressure [Pa] and a temperature [K].
 *
 * m = V rho(T, p), real gas. Range: 250 to 350 K, to 30 MPa (`isotherm`).
 * Example: 43.0 L at 2200 psig and 70 F hold 244 scf, of which 242 can be drawn to 0 psig.
 *
 * @example cylinderContent(0.043, 2214.7 * PSI, 294.26) / SCF // 243.9
 */
export function cylinderContent(volume: number, pressure: number, temperature: number): number {
  checkVolume(volume);
  checkOxygenRange(temperature, pressure);
  return volume * isotherm(temperature).density(pressure);
}

/**
 * Oxygen [kg] that can be drawn from a cylinder at rest down to an absolute leftover pressure [Pa], all at one temperature.
 *
 * @example drawnTo(0.043, 2214.7 * PSI, 294.26, 264.7 * PSI) / SCF // 216.2
 */
export function drawnTo(volume: number, pressure: number, temperature: number, leftover: number): number {
  checkVolume(volume);
  checkOxygenRange(temperature, pressure);
  if (leftover > pressure)
    throw messages.tooHigh(
      'leftover pressure',
      `${messages.shown(leftover)} Pa absolute`,
      `the cylinder's ${messages.shown(pressure)} Pa absolute`,
    );
  const oxygen = isotherm(temperature);
  return volume * (oxygen.density(pressure) - oxygen.density(leftover));
}

/**
 * Absolute pressure [Pa] of a cylinder that holds a mass [kg] in a water volume [m3] at a temperature [K]: the inverse of `cylinderContent`.
 *
 * @example contentPressure(0.043, 200 * SCF, 294.26) / PSI // 1823
 */
export function contentPressure(volume: number, mass: number, temperature: number): number {
  checkVolume(volume);
  checkOxygenRange(temperature, 0);
  if (!(mass >= 0)) throw messages.tooLow('content', `${messages.shown(mass)} kg`, '0 kg');
  const pressure = isotherm(temperature).pressure(mass / volume);
  checkOxygenRange(temperature, pressure * (1 - ROUNDING));
  return pressure;
}
