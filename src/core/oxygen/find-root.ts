/**
 * The root of a continuous function between two points where its signs differ.
 *
 * Inverse quadratic interpolation where that is trustworthy, else bisection: T. R. Chandrupatla, Advances in
 * Engineering Software 28 (1997) 145-149. `tolerance` is relative to the larger end of the bracket. The caller vouches for the signs.
 *
 * @example findRoot((x) => x * x - 2, 0, 2) // 1.414
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 1e-12): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  const least = tolerance * Math.max(Math.abs(low), Math.abs(high));
  let t = 0.5;
  for (let i = 0; i < 100; i++) {
    const x = a + t * (b - a);
    const fx = f(x);
    let c: number;
    let fc: number;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const limit = least / Math.abs(b - a);
    if (fx === 0 || limit > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    t =
      phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
        ? (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
        : 0.5;
    t = Math.min(1 - limit, Math.max(limit, t));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}
