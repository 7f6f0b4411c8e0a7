import { ZERO_CELSIUS } from './celsius.ts';
import { steelSpecificHeat } from './steel-specific-heat.ts';

/** Antiderivative of the specific heat between 20 and 600 C. */
const cubic = (t: number): number => t * (425 + t * (0.773 / 2 + t * (-1.69e-3 / 3 + (t * 2.22e-6) / 4)));

const AT_20 = cubic(20);
const AT_600 = cubic(600) - AT_20;
const AT_735 = AT_600 + 666 * 135 + 13002 * Math.log(138 / 3);
const AT_900 = AT_735 + 545 * 165 + 17820 * Math.log(169 / 4);
const BELOW_20 = steelSpecificHeat(ZERO_CELSIUS + 20);

/**
 * Heat content of carbon steel above 20 C, the exact integral of its specific heat.
 *
 * h(T) = integral of c from 20 C to T, in closed form.
 * temperature [K]; result [J/kg]. Valid as `steelSpecificHeat`; linear outside 20 to 1200 C.
 * Source: EN 1993-1-2:2005, 3.4.1.2, integrated. Example: 400 C holds 529.85 J/kg K x 380 K.
 * @example steelEnthalpy(673.15) / 380 // 529.85
 */
export function steelEnthalpy(temperature: number): number {
  const t = temperature - ZERO_CELSIUS;
  if (t < 20) return BELOW_20 * (t - 20);
  if (t < 600) return cubic(t) - AT_20;
  if (t < 735) return AT_600 + 666 * (t - 600) + 13002 * Math.log(138 / (738 - t));
  if (t < 900) return AT_735 + 545 * (t - 735) + 17820 * Math.log((t - 731) / 4);
  return AT_900 + 650 * (t - 900);
}
