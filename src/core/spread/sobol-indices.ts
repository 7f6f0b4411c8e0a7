/** How much of what is uncertain one input brings in, by itself and with all that it does together with others. */
export interface Indices {
  readonly first: number;
  readonly total: number;
}

/**
 * Sobol indices of one input from results at three sets of draws: at A, at B, which has nothing to do with A, and at A with this
 * input taken from B.
 *
 * total = mean (f(A) - f(AB))^2 / (2 V), V the variance of f over A and B. first = mean (f(B) - m)(f(AB) - f(A)) / V, m the mean, which chance
 * moves little where the input does little; where it does most, 1 - mean (f(B) - f(AB))^2 / (2 V). Draws in which one of them is not finite
 * are left out. Chance may bring either a little below 0 or above 1: they are kept within.
 *
 * @returns undefined where nothing varies
 * Source: Jansen, Computer Physics Communications 117 (1999) 35; Saltelli and others, Computer Physics Communications 181 (2010)
 * 259, table 2, as remembered. Example: of y = x1 + x2, alike and independent, 0.5 and 0.5 each.
 */
export function sobolIndices(atA: Float64Array, atB: Float64Array, mixed: Float64Array): Indices | undefined {
  const solved = Array.from(atA.keys()).filter((i) => Number.isFinite(atA[i]! + atB[i]! + mixed[i]!));
  const n = solved.length;
  const mean = (of: (i: number) => number): number => solved.reduce((sum, i) => sum + of(i), 0) / n;
  const middle = mean((i) => (atA[i]! + atB[i]!) / 2);
  const variance = mean((i) => ((atA[i]! - middle) ** 2 + (atB[i]! - middle) ** 2) / 2);
  if (!(variance > 1e-18 * middle * middle)) return undefined;
  const share = (x: number): number => Math.min(1, Math.max(0, x));
  const total = mean((i) => (atA[i]! - mixed[i]!) ** 2) / (2 * variance);
  const first =
    total < 0.5
      ? mean((i) => (atB[i]! - middle) * (mixed[i]! - atA[i]!)) / variance
      : 1 - mean((i) => (atB[i]! - mixed[i]!) ** 2) / (2 * variance);
  return { first: share(first), total: share(total) };
}
