import { ringShapes, type PressFit } from './press-fit.ts';

export interface HoopStresses {
  /** In the boss at the joint [Pa], tension. */
  readonly boss: number;
  /** In the pin at the joint [Pa], compression negative. */
  readonly pin: number;
  /** In the pin at its bore [Pa], compression negative; as at the joint in a solid pin. */
  readonly pinBore: number;
}

/**
 * Hoop stresses of a press fit.
 *
 * Boss p (Do^2 + d^2) / (Do^2 - d^2); pin -p (d^2 + di^2) / (d^2 - di^2) at the joint, -2 p d^2 / (d^2 - di^2) at the bore.
 * diameters [m], pressure [Pa]. Valid while elastic. Source: Lame, as `contactPressure`.
 */
export function hoopStresses(fit: PressFit, pressure: number): HoopStresses {
  const shapes = ringShapes(fit);
  const pin = -pressure * shapes.pin;
  return { boss: pressure * shapes.boss, pin, pinBore: fit.hole > 0 ? pin - pressure : pin };
}
