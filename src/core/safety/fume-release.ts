import type { Trace } from '../model/trace.ts';
import { requireAtLeast } from './check.ts';
import { requireShare } from './room-oxygen.ts';

/** Metal that burns or boils off at the work. */
export interface FumeMetal {
  /** Rod iron fed, r [kg/s]. */
  readonly rodRate: number;
  /** Manganese in the rod's steel, c, a share of 1. */
  readonly rodManganese: number;
  /** Work metal removed [kg/s]. */
  readonly workRate: number;
  /** Manganese in the work's metal, a share of 1; about 0.13 in manganese steel. */
  readonly workManganese: number;
}

export interface FumeRelease {
  /** All fume [kg/s]. */
  readonly fume: number;
  /** Iron oxide in it [kg/s]. */
  readonly ironOxide: number;
  /** Manganese in it, as metal [kg/s]. */
  readonly manganese: number;
}

/**
 * Share of manganese in the fume of a steel: iron and manganese leave in proportion to their content, manganese
 * `enrichment` times as readily.
 *
 *     w = k c / (1 + (k - 1) c)
 */
export const fumeManganese = (content: number, enrichment: number): number =>
  (enrichment * content) / (1 + (enrichment - 1) * content);

/**
 * Fume that burning gives off, and the iron oxide and manganese in it.
 *
 *     F = e (r_rod + r_work),  Mn = e (w_rod r_rod + w_work r_work),  iron oxide = F - Mn
 *
 * No published fume factor was found for exothermic rods, so `factor` and `enrichment` are assumptions with wide
 * ranges, and the result is an order of magnitude: only an air sample in the breathing zone tells. Taking w as a
 * share of the oxide rather than of the metal in it overstates manganese by up to 1.4. Step symbols expected
 * before: `r_rod`, `c_rod`, `r_work`, `c_work`, `e`, `k_Mn`.
 *
 * @param metal see FumeMetal
 * @param factor e, fume for each unit of metal, a share of 1
 * @param enrichment k, how much more readily manganese leaves than iron
 */
export function fumeRelease(metal: FumeMetal, factor: number, enrichment: number, trace?: Trace): FumeRelease {
  requireAtLeast('rod rate', metal.rodRate, 0, 'kg/s');
  requireAtLeast('work rate', metal.workRate, 0, 'kg/s');
  requireShare('manganese in the rod', metal.rodManganese);
  requireShare('manganese in the work', metal.workManganese);
  requireShare('fume factor', factor);
  requireAtLeast('manganese enrichment', enrichment, 0);
  const fume = factor * (metal.rodRate + metal.workRate);
  const manganese =
    factor *
    (fumeManganese(metal.rodManganese, enrichment) * metal.rodRate +
      fumeManganese(metal.workManganese, enrichment) * metal.workRate);
  const ironOxide = fume - manganese;
  if (trace) {
    const share = (c: string): string => `(k_Mn * ${c} / (1 + (k_Mn - 1) * ${c}))`;
    trace.add({
      name: 'fume given off',
      symbol: 'F',
      value: fume,
      quantity: 'massRate',
      formula: 'fume factor x (rod iron fed + work metal removed)',
      expression: 'e * (r_rod + r_work)',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'manganese in the fume',
      symbol: 'G_Mn',
      value: manganese,
      quantity: 'massRate',
      formula: 'fume factor x sum of (metal rate x share of manganese in its fume)',
      expression: `e * (${share('c_rod')} * r_rod + ${share('c_work')} * r_work)`,
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'iron oxide in the fume',
      symbol: 'G_Fe',
      value: ironOxide,
      quantity: 'massRate',
      formula: 'fume given off - manganese in the fume',
      expression: 'F - G_Mn',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return { fume, ironOxide, manganese };
}
