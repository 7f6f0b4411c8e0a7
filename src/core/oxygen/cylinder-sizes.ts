import * as messages from '../messages.ts';
import { ATMOSPHERE, PSI } from '../units/quantities.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { isotherm } from './oxygen-state.ts';

/** A size of oxygen cylinder, or a pack of them on one outlet. */
export interface CylinderSize {
  /** Generic name by water volume. */
  readonly name: string;
  /** Water volume of one cylinder [m3]. */
  readonly volume: number;
  /** Cylinders in it: 1, or those of a pack. */
  readonly cylinders: number;
  /** Service pressure, gauge [Pa], at `fillTemperature` [K]. */
  readonly servicePressure: number;
  readonly fillTemperature: number;
  readonly source: string;
}

const FILLED_AT_70F = ((70 + 459.67) * 5) / 9;
const FILLED_AT_15C = 288.15;
const BAR = 1e5;

const size = (
  name: string,
  litres: number,
  cylinders: number,
  servicePressure: number,
  fillTemperature: number,
  source = 'common practice',
): CylinderSize => ({ name, volume: litres / 1000, cylinders, servicePressure, fillTemperature, source });

/** Common sizes, smallest first. Service pressures are common practice unless a source is named. */
export const CYLINDER_SIZES: readonly CylinderSize[] = [
  size('10 L', 10, 1, 2015 * PSI, FILLED_AT_70F),
  size('20 L', 20, 1, 2015 * PSI, FILLED_AT_70F),
  size('43 L', 43, 1, 2200 * PSI, FILLED_AT_70F, 'army welding manual'),
  size('49 L', 49, 1, 2400 * PSI, FILLED_AT_70F),
  size('50 L', 50, 1, 200 * BAR, FILLED_AT_15C),
  size('6 x 49 L pack', 49, 6, 2400 * PSI, FILLED_AT_70F),
  size('12 x 50 L pack', 50, 12, 200 * BAR, FILLED_AT_15C),
  size('16 x 50 L pack', 50, 16, 200 * BAR, FILLED_AT_15C),
];

/** A cylinder as a function is given it. */
export interface CylinderChoice {
  /** Water volume in all [m3], of all cylinders of a pack. */
  readonly volume: number;
  /** Where it was named from the register. */
  readonly size: CylinderSize | undefined;
}

/**
 * The size a name means, whatever its case and spaces; undefined where there is none of that name. A pack that the register
 * does not know is `#N/A` with the nearest names.
 */
export function cylinderSizeNamed(name: string): CylinderSize | undefined {
  const key = (s: string): string => s.toLowerCase().replace(/\s+/g, '');
  const found = CYLINDER_SIZES.find((s) => key(s.name) === key(name));
  if (!found && /pack/i.test(name))
    throw messages.unknownName(
      'cylinder',
      name,
      nearestNames(
        name,
        CYLINDER_SIZES.map((s) => s.name),
      ),
    );
  return found;
}

/** Share over the service pressure to which a cylinder marked for it may be filled: 49 CFR 173.302a(b). */
export const OVERFILL = 0.1;

/**
 * The largest absolute pressure [Pa] that a cylinder may show at a temperature [K]: its service pressure and a tenth,
 * carried from the fill temperature to this one at constant density.
 *
 * servicePressure: gauge [Pa] over the air's [Pa]. Sources: 49 CFR 173.302a(b); equation of state as `isotherm`.
 */
export function highestFill(
  servicePressure: number,
  fillTemperature: number,
  temperature: number,
  air = ATMOSPHERE,
): number {
  return isotherm(temperature).pressure(isotherm(fillTemperature).density(servicePressure * (1 + OVERFILL) + air));
}
