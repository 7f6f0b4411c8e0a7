import { ZERO_CELSIUS } from './celsius.ts';
import { interpolate } from './interpolate.ts';

const TEMPERATURE = [20, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100, 1200].map((t) => t + ZERO_CELSIUS);
const YIELD = [1, 1, 1, 1, 1, 0.78, 0.47, 0.23, 0.11, 0.06, 0.04, 0.02, 0];
const PROPORTIONAL = [1, 1, 0.807, 0.613, 0.42, 0.36, 0.18, 0.075, 0.05, 0.0375, 0.025, 0.0125, 0];
const MODULUS = [1, 1, 0.9, 0.8, 0.7, 0.6, 0.31, 0.13, 0.09, 0.0675, 0.045, 0.0225, 0];

/**
 * Effective yield strength (at 2 % strain) of carbon steel at a temperature over that at 20 C, k_y.
 *
 * temperature [K]; result [1]. Straight lines between the table's 100 K steps; held outside 20 to 1200 C.
 * Source: EN 1993-1-2:2005, Table 3.1. Example: 0.47 at 600 C.
 *
 * @example steelYieldReduction(600 + 273.15) // 0.47
 */
export const steelYieldReduction = (temperature: number): number => interpolate(TEMPERATURE, YIELD, temperature);

/**
 * Proportional limit of carbon steel at a temperature over the yield strength at 20 C, k_p.
 *
 * temperature [K]; result [1]. As `steelYieldReduction`. Source: EN 1993-1-2:2005, Table 3.1. Example: 0.18 at 600 C.
 *
 * @example steelProportionalReduction(600 + 273.15) // 0.18
 */
export const steelProportionalReduction = (temperature: number): number =>
  interpolate(TEMPERATURE, PROPORTIONAL, temperature);

/**
 * Slope of the elastic range of carbon steel at a temperature over that at 20 C, k_E.
 *
 * temperature [K]; result [1]. As `steelYieldReduction`. Source: EN 1993-1-2:2005, Table 3.1. Example: 0.31 at 600 C.
 *
 * @example steelModulusReduction(600 + 273.15) // 0.31
 */
export const steelModulusReduction = (temperature: number): number => interpolate(TEMPERATURE, MODULUS, temperature);

/**
 * `steelYieldReduction` and `steelModulusReduction` of the cells from one place to another, each from one look at the table.
 */
export function steelReductions(
  temperatures: ArrayLike<number>,
  from: number,
  to: number,
  yields: Float64Array,
  moduli: Float64Array,
): void {
  const last = TEMPERATURE.length - 2;
  for (let c = from; c < to; c++) {
    const t = temperatures[c]!;
    let low = 0;
    while (low < last && TEMPERATURE[low + 1]! <= t) low++;
    const first = TEMPERATURE[low]!;
    const share = Math.min(1, Math.max(0, (t - first) / (TEMPERATURE[low + 1]! - first)));
    yields[c] = YIELD[low]! + share * (YIELD[low + 1]! - YIELD[low]!);
    moduli[c] = MODULUS[low]! + share * (MODULUS[low + 1]! - MODULUS[low]!);
  }
}
