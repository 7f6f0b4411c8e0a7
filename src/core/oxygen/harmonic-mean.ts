/** Points and weights of four-point Gauss-Legendre quadrature on 0 to 1 (Abramowitz and Stegun, table 25.4). */
const GAUSS = [
  [0.06943184420297371, 0.17392742256872692],
  [0.33000947820757187, 0.32607257743127307],
  [0.6699905217924281, 0.32607257743127307],
  [0.9305681557970263, 0.17392742256872692],
] as const;

/**
 * Harmonic mean of a positive smooth function between two points: (b - a) / integral of dx / f(x).
 *
 * @example harmonicMean((x) => x, 1, 3) // 1.821
 */
export function harmonicMean(f: (x: number) => number, low: number, high: number): number {
  let inverse = 0;
  for (const [x, weight] of GAUSS) inverse += weight / f(low + x * (high - low));
  return 1 / inverse;
}
