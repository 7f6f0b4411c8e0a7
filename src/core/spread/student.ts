import { mustBeLess, notAbove, tooLow } from '../messages.ts';
import { normalQuantile } from './normal.ts';

const MOST_STEPS = 200;

/**
 * Gamma function of a + 1/2 over that of a, a 1/2 or more: raised by whole steps, then its asymptotic series.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 6.1.15 and 6.1.37, of both.
 */
function gammaRatio(a: number): number {
  let ratio = 1;
  for (let i = 0; i < 40; i++) ratio *= a / (a++ + 0.5);
  const series = [-1 / 8, 1 / 128, 5 / 1024, -21 / 32768, -399 / 262144].reduceRight((sum, c) => (sum + c) / a, 0);
  return ratio * Math.sqrt(a) * (1 + series);
}

/**
 * Value that a Student t variable stays at or below with probability p.
 *
 * With b = n/2 and x = t^2/(n + t^2) it lies between 0 and t with probability G(b + 1/2)/G(b) sqrt(x/pi) (1 - x)^b times the sum
 * of (b + 1/2)_k/(3/2)_k x^k; solved for t by Newton's steps from 0, which never pass the root. Symmetric about 0.
 *
 * @param p       probability [-], more than 0 and less than 1
 * @param degrees degrees of freedom n [-], 1 or more; above a million, and at Infinity, the normal distribution
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.5.4 and 26.7.1. Example: 0.975 with 10 gives 2.228.
 *
 * @example studentQuantile(0.9, 5) // 1.476
 */
export function studentQuantile(p: number, degrees: number): number {
  if (!(degrees >= 1)) throw tooLow('degrees of freedom', String(degrees), '1');
  if (!(p > 0)) throw notAbove('probability', String(p), '0');
  if (!(p < 1)) throw mustBeLess('probability', String(p), '1');
  if (degrees > 1e6) return normalQuantile(p);
  const b = degrees / 2;
  const scale = gammaRatio(b) / Math.sqrt(Math.PI);
  const sought = Math.abs(p - 0.5);
  let t = 0;
  for (let step = 1, i = 0; i < MOST_STEPS && step > 1e-14 * t; i++) {
    const x = (t * t) / (degrees + t * t);
    let [sum, term] = [0, 1];
    for (let k = 0; term > 1e-17 * sum; k++) {
      sum += term;
      term *= (x * (b + 0.5 + k)) / (1.5 + k);
    }
    const left = (1 - x) ** b;
    step = (sought - scale * Math.sqrt(x) * left * sum) / ((scale * left * Math.sqrt(1 - x)) / Math.sqrt(degrees));
    t += step;
  }
  return p < 0.5 ? -t : t;
}
