import { findRoot } from './find-root.ts';

export interface Solution {
  readonly time: number;
  readonly y: readonly number[];
  /** Whether `stop` reached zero before the end time. */
  readonly stopped: boolean;
}

type Rates = (t: number, y: readonly number[]) => readonly number[];

interface Step {
  readonly y: readonly number[];
  readonly error: readonly number[];
  readonly last: readonly number[];
}

/** One step of the third-order Runge-Kutta pair of Bogacki and Shampine, Appl. Math. Letters 2 (1989) 321-325. */
function step(rates: Rates, t: number, y: readonly number[], k1: readonly number[], h: number): Step {
  const k2 = rates(
    t + h / 2,
    y.map((v, i) => v + (h / 2) * k1[i]!),
  );
  const k3 = rates(
    t + (3 * h) / 4,
    y.map((v, i) => v + ((3 * h) / 4) * k2[i]!),
  );
  const next = y.map((v, i) => v + (h / 9) * (2 * k1[i]! + 3 * k2[i]! + 4 * k3[i]!));
  const last = rates(t + h, next);
  const error = y.map((_, i) => h * ((-5 / 72) * k1[i]! + k2[i]! / 12 + k3[i]! / 9 - last[i]! / 8));
  return { y: next, error, last };
}

/**
 * Solves y' = rates(t, y) from t = 0, with steps chosen so that the error of each stays within `tolerances`.
 *
 * Ends at `end`, or where `stop` falls to 0, found within the last step. `each` is called after every step.
 */
export function integrate(
  rates: Rates,
  start: readonly number[],
  end: number,
  tolerances: readonly number[],
  stop: (y: readonly number[]) => number,
  each?: (t: number, y: readonly number[]) => void,
): Solution {
  let t = 0;
  let y = start;
  if (stop(y) <= 0) return { time: 0, y, stopped: true };
  let k1 = rates(0, y);
  let h = end * 1e-4;
  for (let i = 0; i < 20_000 && t < end; i++) {
    h = Math.min(h, end - t);
    const tried = step(rates, t, y, k1, h);
    const worst = Math.max(...tried.error.map((e, n) => Math.abs(e) / tolerances[n]!), 1e-6);
    const grow = Math.min(4, Math.max(0.2, 0.9 / Math.cbrt(worst)));
    // A step that ends in no number (a state outside the equation) counts as too long.
    if (!(worst <= 1)) {
      h *= Number.isFinite(worst) ? grow : 0.2;
      continue;
    }
    if (stop(tried.y) <= 0) {
      const [t0, y0, k0] = [t, y, k1];
      const part = findRoot((x) => stop(x === 0 ? y0 : step(rates, t0, y0, k0, x * h).y), 0, 1, 1e-9);
      return { time: t0 + part * h, y: step(rates, t0, y0, k0, part * h).y, stopped: true };
    }
    t += h;
    y = tried.y;
    k1 = tried.last;
    each?.(t, y);
    h *= grow;
  }
  return { time: t, y, stopped: false };
}
