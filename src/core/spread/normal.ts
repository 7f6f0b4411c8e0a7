/** The standard normal distribution: mean 0, standard deviation 1. */
import { notAbove, mustBeLess } from '../messages.ts';

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Beyond this the continued fraction converges faster than the series. */
const TAIL = 3;
const FRACTION_TERMS = 60;

/**
 * Probability that a standard normal value is at most x.
 *
 * Within 3 of the mean: 1/2 + phi(x) (x + x^3/3 + x^5/(3 5) + ...). Beyond: phi(x) / (x + 1/(x + 2/(x + ...))).
 *
 * @param x [-], any number; relative error about 1e-13 on the lower side
 * Source: series, Marsaglia, "Evaluating the normal distribution", Journal of Statistical Software 11 (2004);
 * fraction, Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.14. Example: 1.96 gives 0.975002.
 *
 * @example normalCdf(1.96) // 0.975
 */
export function normalCdf(x: number): number {
  const square = x * x;
  const density = Math.exp(-square / 2) / ROOT_TWO_PI;
  const size = Math.abs(x);
  if (size <= TAIL) {
    let term = size;
    let sum = size;
    for (let k = 3; term > 1e-17 * sum; k += 2) {
      term *= square / k;
      sum += term;
    }
    return x < 0 ? 0.5 - density * sum : 0.5 + density * sum;
  }
  let fraction = size;
  for (let k = FRACTION_TERMS; k > 0; k--) fraction = size + k / fraction;
  const tail = density / fraction;
  return x < 0 ? tail : 1 - tail;
}

const CENTRE = {
  over: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  under: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
} as const;
const MIDDLE = {
  over: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  under: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
} as const;
const FAR = {
  over: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  under: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
} as const;

type Coefficients = readonly [number, number, number, number, number, number, number, number];

/** Both polynomials in one function, which is called less often than one for each would be: an engine need not compile it. */
const ratio = (
  { over: c, under: d }: { readonly over: Coefficients; readonly under: Coefficients },
  r: number,
): number =>
  (((((((c[7] * r + c[6]) * r + c[5]) * r + c[4]) * r + c[3]) * r + c[2]) * r + c[1]) * r + c[0]) /
  (((((((d[7] * r + d[6]) * r + d[5]) * r + d[4]) * r + d[3]) * r + d[2]) * r + d[1]) * r + d[0]);

/**
 * Value that a standard normal variable stays at or below with probability p; the inverse of `normalCdf`.
 *
 * @param p probability [-], more than 0 and less than 1; relative error about 1e-15
 * Source: Wichura, "Algorithm AS 241: the percentage points of the normal distribution", Applied Statistics 37
 * (1988) 477, routine PPND16 with its coefficients. Example: 0.975 gives 1.959964.
 *
 * @example normalQuantile(0.9) // 1.282
 */
export function normalQuantile(p: number): number {
  if (!(p > 0)) throw notAbove('probability', String(p), '0');
  if (!(p < 1)) throw mustBeLess('probability', String(p), '1');
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(CENTRE, 0.180625 - q * q);
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5 ? ratio(MIDDLE, r - 1.6) : ratio(FAR, r - 5);
  return q < 0 ? -size : size;
}
