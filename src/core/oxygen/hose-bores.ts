import { INCH } from '../units/quantities.ts';

/** Bores [m] in which oxygen hose is commonly sold, narrowest first. Common practice, no source. */
export const HOSE_BORES: readonly number[] = [3 / 16, 1 / 4, 5 / 16, 3 / 8, 1 / 2, 3 / 4, 1].map(
  (inches) => inches * INCH,
);

/**
 * The narrowest common bore [m] that is at least as wide; undefined beyond the widest.
 *
 * @example boreAtLeast(0.4 * INCH) / INCH // 0.5
 */
export const boreAtLeast = (bore: number): number | undefined =>
  HOSE_BORES.find((common) => common >= bore * (1 - 1e-9));
