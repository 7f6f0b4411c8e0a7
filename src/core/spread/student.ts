import { mustBeLess, notAbove } from '../messages.ts';
import { betaQuantile, betaShape } from './beta-distribution.ts';
import { normalQuantile } from './normal.ts';

/**
 * Value that a Student t variable stays at or below with probability p.
 *
 * For p < 1/2: t = -sqrt(n (1 - x)/x), x the quantile 2 p of the beta distribution n/2, 1/2; symmetric about 0.
 *
 * @param p       probability [-], more than 0 and less than 1
 * @param degrees degrees of freedom n [-], more than 0; above a million, and at Infinity, the normal distribution
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.5.27. Example: 0.975 with 10 gives 2.228.
 */
export function studentQuantile(p: number, degrees: number): number {
  if (!(degrees > 0)) throw notAbove('degrees of freedom', String(degrees), '0');
  if (!(p > 0)) throw notAbove('probability', String(p), '0');
  if (!(p < 1)) throw mustBeLess('probability', String(p), '1');
  if (degrees > 1e6) return normalQuantile(p);
  if (p === 0.5) return 0;
  // 1 - x directly, from the mirrored distribution, so that it keeps its digits near the middle.
  const rest = betaQuantile(betaShape(0.5, degrees / 2), 1 - 2 * Math.min(p, 1 - p));
  const size = Math.sqrt((degrees * rest) / (1 - rest));
  return p < 0.5 ? -size : size;
}
