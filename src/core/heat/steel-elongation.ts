import { ZERO_CELSIUS } from './celsius.ts';

/**
 * Thermal elongation of carbon steel relative to its length at 20 C.
 *
 * With t in C: 1.2e-5 t + 0.4e-8 t^2 - 2.416e-4 (20 to 750), 1.1e-2 (to 860), 2e-5 t - 6.2e-3 (to 1200).
 * temperature [K]; result [1]. Valid from 20 to 1200 C; the end slopes are continued outside.
 * The plateau is the contraction of the phase change; it is taken as reversible, so the hardening
 * expansion of a quenched hardenable steel is not in it.
 * Source: EN 1993-1-2:2005, 3.4.1.1. Example: at 200 C it is 0.002318.
 * @example 1000 * steelElongation(473.15) // 2.3184
 */
export function steelElongation(temperature: number): number {
  const t = temperature - ZERO_CELSIUS;
  if (t < 20) return (1.2e-5 + 0.8e-8 * 20) * (t - 20);
  if (t < 750) return t * (1.2e-5 + 0.4e-8 * t) - 2.416e-4;
  if (t <= 860) return 1.1e-2;
  return 2e-5 * t - 6.2e-3;
}
