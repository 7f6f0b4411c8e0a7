/** The beta distribution on 0 to 1: cumulative probability and its inverse. */
import { notAbove, tooHigh, tooLow } from '../messages.ts';
import { normalQuantile } from './normal.ts';

/** Shape of a beta distribution, density x^(a-1) (1-x)^(b-1) / B(a, b), with ln B kept for repeated use. */
export interface BetaShape {
  readonly a: number;
  readonly b: number;
  readonly logB: number;
}

/** Above this argument the asymptotic series of ln Gamma is exact to double precision. */
const STIRLING_FROM = 12;

/**
 * Natural logarithm of the gamma function, for x > 0.
 *
 * ln G(x) = (x - 1/2) ln x - x + ln(2 pi)/2 + 1/(12 x) - 1/(360 x^3) + 1/(1260 x^5) - 1/(1680 x^7) + 1/(1188 x^9) - ...
 * Small arguments are raised with G(x + 1) = x G(x).
 * Source: NIST Digital Library of Mathematical Functions, 5.11.1.
 */
export function logGamma(x: number): number {
  let raised = x;
  let product = 1;
  while (raised < STIRLING_FROM) product *= raised++;
  const s = 1 / (raised * raised);
  const series =
    (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * (691 / 360360)))))) / raised;
  return (raised - 0.5) * Math.log(raised) - raised + Math.log(2 * Math.PI) / 2 + series - Math.log(product);
}

/** Shape with exponents a and b [-], both more than 0. */
export function betaShape(a: number, b: number): BetaShape {
  if (!(a > 0 && a < Infinity)) throw notAbove('a of the beta distribution', String(a), '0');
  if (!(b > 0 && b < Infinity)) throw notAbove('b of the beta distribution', String(b), '0');
  return { a, b, logB: logGamma(a) + logGamma(b) - logGamma(a + b) };
}

const TINY = 1e-300;

/** Continued fraction of the incomplete beta function (DLMF 8.17.22) by the modified Lentz method; fast for x < (a + 1)/(a + b + 2). */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let f = d;
  // A bound only: far fewer terms are taken unless a and b are in the thousands.
  for (let m = 1; m <= 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    c = 1 + even / c;
    if (d === 0) d = TINY;
    if (c === 0) c = TINY;
    d = 1 / d;
    f *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    c = 1 + odd / c;
    if (d === 0) d = TINY;
    if (c === 0) c = TINY;
    d = 1 / d;
    const change = d * c;
    f *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return f;
}

/**
 * Regularised incomplete beta function I_x(a, b): probability that the variable is at most x.
 *
 * @param x [-]; 0 at or below 0, 1 at or above 1
 * Source: NIST Digital Library of Mathematical Functions, 8.17.22 and 8.17.4. Example: a 1, b 5, x 0.1 gives 0.40951.
 */
export function betaCdf(shape: BetaShape, x: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const { a, b, logB } = shape;
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logB);
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/** Density x^(a-1) (1-x)^(b-1)/B(a, b) inside 0 to 1. */
function betaDensity({ a, b, logB }: BetaShape, x: number): number {
  return Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - logB);
}

/** First guess of the quantile: normal approximation (Abramowitz and Stegun 26.5.22) for a, b of 1 or more, the power law of the lower end otherwise. */
function firstGuess({ a, b, logB }: BetaShape, p: number): number {
  const lowerEnd = Math.exp((Math.log(p) + Math.log(a) + logB) / a);
  if (a < 1 || b < 1 || lowerEnd < 0.02) return Math.min(lowerEnd, 0.5);
  const y = -normalQuantile(p);
  const inverseA = 1 / (2 * a - 1);
  const inverseB = 1 / (2 * b - 1);
  const h = 2 / (inverseA + inverseB);
  const lambda = (y * y - 3) / 6;
  const w = (y * Math.sqrt(h + lambda)) / h - (inverseB - inverseA) * (lambda + 5 / 6 - 2 / (3 * h));
  const guess = a / (a + b * Math.exp(2 * w));
  return Number.isFinite(guess) ? guess : 0.5;
}

/** Quantile for the half of the distribution that lies towards 0. */
function lowerQuantile(shape: BetaShape, p: number): number {
  const { a, b } = shape;
  let below = 0;
  let above = 1;
  let x = firstGuess(shape, p);
  for (let i = 0; i < 200; i++) {
    const excess = betaCdf(shape, x) - p;
    if (excess === 0) return x;
    if (excess > 0) above = x;
    else below = x;
    const slope = betaDensity(shape, x);
    const newton = excess / slope;
    const curvature = (newton * ((a - 1) / x - (b - 1) / (1 - x))) / 2;
    const next = x - newton / (1 - Math.max(-0.5, Math.min(0.5, curvature)));
    // Halley's steps converge cubically, so after one this small nothing is left to gain.
    if (Math.abs(newton) < 1e-6 * x * (1 - x)) return next;
    x = next > below && next < above ? next : below + (above - below) / 2;
    if (x === below || x === above) return x;
  }
  return x;
}

/**
 * Value that a beta variable stays at or below with probability p; the inverse of `betaCdf`.
 *
 * Halley's steps on I_x(a, b) = p, kept inside a bracket that always closes; the upper half is worked from the other end.
 *
 * @param p probability [-], 0 to 1; agreement with `betaCdf` about 1e-14
 * Example: a 3, b 3, p 0.1 gives 0.2466365.
 */
export function betaQuantile(shape: BetaShape, p: number): number {
  if (!(p >= 0)) throw tooLow('probability', String(p), '0');
  if (p > 1) throw tooHigh('probability', String(p), '1');
  if (p === 0 || p === 1) return p;
  if (p <= 0.5) return lowerQuantile(shape, p);
  return 1 - lowerQuantile({ a: shape.b, b: shape.a, logB: shape.logB }, 1 - p);
}
