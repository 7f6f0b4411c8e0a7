import { ZERO_CELSIUS } from './celsius.ts';

/**
 * Thermal conductivity of carbon steel.
 *
 * With t in C: k = 54 - 3.33e-2 t (20 to 800), 27.3 (to 1200).
 * temperature [K]; result [W/m K]. Valid from 20 to 1200 C; held at its end values outside.
 * Source: EN 1993-1-2:2005, 3.4.1.3. Example: at 400 C it is 40.68 W/m K.
 * @example steelConductivity(673.15) // 40.68
 */
export function steelConductivity(temperature: number): number {
  const t = temperature - ZERO_CELSIUS;
  if (t >= 800) return 27.3;
  return 54 - 3.33e-2 * (t < 20 ? 20 : t);
}
