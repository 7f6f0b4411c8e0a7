import { calculated, type Step } from '../model/step.ts';

/** What burning gives off [kg/s]. */
export interface FumeRelease {
  /** All fume. */
  readonly fume: number;
  /** Iron oxide in it. */
  readonly ironOxide: number;
  /** Manganese in it, as metal. */
  readonly manganese: number;
}

const share = (c: string): string => `(k_Mn * ${c} / (1 + (k_Mn - 1) * ${c}))`;

/**
 * Fume that burning gives off, and the iron oxide and manganese in it: steps `F`, `G_Mn`, `G_Fe` [kg/s].
 *
 *     F = e (r_rod + r_work),  Mn = e (w_rod r_rod + w_work r_work),  iron oxide = F - Mn
 *
 * with w = k c / (1 + (k - 1) c), the share of manganese in the fume of a steel: iron and manganese leave in proportion to their
 * content, manganese k times as readily. No published fume factor was found for exothermic rods, so the factor and k are
 * assumptions with wide ranges, and the result is an order of magnitude: only an air sample in the breathing zone tells. Taking
 * w as a share of the oxide rather than of the metal in it overstates manganese by up to 1.4. Steps before: `r_rod`, `c_rod`,
 * `r_work`, `c_work`, `e`, `k_Mn`.
 */
export const fumeSteps: readonly Step[] = [
  calculated(
    'F',
    'fume given off',
    'massRate',
    'e * (r_rod + r_work)',
    'fume factor x (rod iron fed + work metal removed)',
  ),
  calculated(
    'G_Mn',
    'manganese in the fume',
    'massRate',
    `e * (${share('c_rod')} * r_rod + ${share('c_work')} * r_work)`,
    'fume factor x sum of (metal rate x share of manganese in its fume)',
  ),
  calculated('G_Fe', 'iron oxide in the fume', 'massRate', 'F - G_Mn', 'fume given off - manganese in the fume'),
];
