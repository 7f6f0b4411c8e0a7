import { ZERO_CELSIUS } from './celsius.ts';

/**
 * Specific heat of carbon steel with its latent peak near 735 C.
 *
 * With t in C: c = 425 + 7.73e-1 t - 1.69e-3 t^2 + 2.22e-6 t^3 (20 to 600), 666 + 13002 / (738 - t) (to 735),
 * 545 + 17820 / (t - 731) (to 900), 650 (to 1200).
 * temperature [K]; result [J/kg K]. Valid from 20 to 1200 C; held at its end values outside.
 * Source: EN 1993-1-2:2005, 3.4.1.2. Example: at 200 C it is 529.76 J/kg K.
 * @example steelSpecificHeat(473.15) // 529.76
 */
export function steelSpecificHeat(temperature: number): number {
  const t = temperature - ZERO_CELSIUS;
  if (t < 600) {
    const u = t < 20 ? 20 : t;
    return 425 + u * (0.773 + u * (-1.69e-3 + u * 2.22e-6));
  }
  if (t < 735) return 666 + 13002 / (738 - t);
  if (t < 900) return 545 + 17820 / (t - 731);
  return 650;
}
