import { unknownName } from '../messages.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { ironEnthalpy } from './iron-heat.ts';

/** What the work is made of. */
export interface Material {
  readonly name: string;
  readonly aliases: readonly string[];
  /** kg/m3 */
  readonly density: number;
  /** Heat that a kilogram takes from 25 C to where it leaves at T [K], J/kg. */
  readonly heat: (T: number) => number;
  readonly heatSource: string;
  /** Share of the work that may burn, 0 to 1: 1 burns freely, 0 only melts. */
  readonly burns: number;
  readonly source: string;
}

const STEEL_DENSITY = 7850;

export const MATERIALS: readonly Material[] = [
  {
    name: 'carbon steel', aliases: ['steel', 'mild steel', 'low-alloy steel', 'low alloy steel'], density: STEEL_DENSITY,
    heat: ironEnthalpy, heatSource: 'nasa polynomials', burns: 1, source: 'steel density',
  },
];

const byName = new Map<string, Material>(MATERIALS.flatMap((m) => [m.name, ...m.aliases].map((n) => [n, m] as const)));

/** Finds a material by name or alias; `#N/A` with the nearest names where it is unknown. */
export function findMaterial(name: string): Material {
  const found = byName.get(name.trim().toLowerCase().replace(/\s+/g, ' '));
  if (!found) throw unknownName('material', name, nearestNames(name, [...byName.keys()]));
  return found;
}
