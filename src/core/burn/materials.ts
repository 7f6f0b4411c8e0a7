import { assumed } from '../assumptions/assumed.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { unknownName } from '../messages.ts';
import { calculated, entered, solved, type Step } from '../model/step.ts';
import { nearestNames } from '../units/nearest-names.ts';
import {
  ALUMINIUM,
  CHROMIUM_LIQUID,
  COPPER,
  GRAPHITE,
  MOLAR_MASS,
  NICKEL_LIQUID,
  SILICON_LIQUID,
  elementEnthalpy,
  meltingPoint,
} from './element-polynomials.ts';
import { ironEnthalpy } from './iron-heat.ts';
import type { MaterialName } from '../assumptions/material-names.ts';
import { STEEL_DENSITY } from './rods.ts';

interface Common {
  readonly name: MaterialName;
  readonly aliases: readonly string[];
  /** kg/m3; of masonry without its steel. */
  readonly density: number;
  /** Key of the source of the density. */
  readonly source: string;
  readonly heatSource: string;
  /** What a reader of a plan should know besides. */
  readonly remark?: string;
}

export interface Metal extends Common {
  readonly kind: 'metal';
  /** Heat that a kilogram takes from 25 C to T [K], J/kg. */
  readonly heat: (T: number) => number;
  /** Melting point [K] of a metal that leaves a little above it; others leave with the slag. */
  readonly melts?: number;
  /** Share of the work that may burn: 1 burns freely, 0 only melts, or the assumption that says. */
  readonly burns: number | NumberName;
  /** Assumption that says how much of what is melted leaves, where some clings and is melted again. */
  readonly leaves?: NumberName;
  /** Conducts heat away so well that it counts. */
  readonly conducts?: true;
}

/** Concrete and rock: only melted, by the rod's heat alone; steel in it may burn. */
export interface Masonry extends Common {
  readonly kind: 'masonry';
  readonly heatToMelt: NumberName;
  /** Share of steel in the section, by volume. */
  readonly steel?: NumberName;
}

/** What the work is made of. */
export type Material = Metal | Masonry;

/**
 * Heat content of an iron alloy above 298.15 K [J/kg]: sum of mass share x heat content of each element, dissolved as a liquid.
 *
 * Heats of mixing are left out. T [K], 1809 to 3000. Source: NASA TM-4513 polynomials.
 */
function alloyEnthalpy(
  parts: { readonly chromium?: number; readonly nickel?: number; readonly silicon?: number; readonly carbon?: number },
  T: number,
): number {
  const { chromium = 0, nickel = 0, silicon = 0, carbon = 0 } = parts;
  return (
    (1 - chromium - nickel - silicon - carbon) * ironEnthalpy(T) +
    chromium * elementEnthalpy(CHROMIUM_LIQUID, MOLAR_MASS.Cr, T) +
    nickel * elementEnthalpy(NICKEL_LIQUID, MOLAR_MASS.Ni, T) +
    silicon * elementEnthalpy(SILICON_LIQUID, MOLAR_MASS.Si, T) +
    carbon * elementEnthalpy(GRAPHITE, MOLAR_MASS.C, T)
  );
}

/** Common austenitic stainless steel: 18 chromium, 9 nickel (EN 10088-1, 1.4301). */
const STAINLESS = { chromium: 0.18, nickel: 0.09 };
/** Common gray iron: 3.3 carbon, 2 silicon (EN 1561). */
const CAST_IRON = { carbon: 0.033, silicon: 0.02 };

const steel = (name: MaterialName, density: number, source: string, aliases: readonly string[]): Metal => ({
  kind: 'metal',
  name,
  aliases,
  density,
  source,
  heat: ironEnthalpy,
  heatSource: 'nasa polynomials',
  burns: 1,
});

export const MATERIALS: readonly Material[] = [
  steel('carbon steel', STEEL_DENSITY, 'steel density', [
    'steel',
    'mild steel',
    'low-alloy steel',
    'low alloy steel',
    'structural steel',
  ]),
  steel('hardened pin steel', STEEL_DENSITY, 'steel density', [
    'hardened steel',
    'pin steel',
    'alloy steel',
    'induction hardened steel',
    'case hardened steel',
  ]),
  steel('manganese steel', 7900, 'metal densities', ['austenitic manganese steel', 'high manganese steel']),
  {
    kind: 'metal',
    name: 'stainless steel',
    aliases: ['stainless', 'austenitic stainless steel'],
    density: 7900,
    source: 'metal densities',
    heat: (T) => alloyEnthalpy(STAINLESS, T),
    heatSource: 'nasa polynomials',
    burns: 'stainless burns',
  },
  {
    kind: 'metal',
    name: 'cast iron',
    aliases: ['iron', 'grey cast iron', 'gray cast iron', 'grey iron', 'gray iron', 'ductile iron'],
    density: 7150,
    source: 'metal densities',
    heat: (T) => alloyEnthalpy(CAST_IRON, T),
    heatSource: 'nasa polynomials',
    burns: 'cast iron burns',
    leaves: 'cast iron removal',
    remark: 'a trade handbook has twice as much for deep holes in cast iron',
  },
  {
    kind: 'metal',
    name: 'copper alloy',
    aliases: ['copper', 'brass', 'bronze'],
    density: 8940,
    source: 'metal densities',
    heat: (T) => elementEnthalpy(COPPER, MOLAR_MASS.Cu, T),
    heatSource: 'nasa polynomials',
    melts: meltingPoint(COPPER),
    burns: 0,
    conducts: true,
    remark: 'a thick block can conduct the heat away as fast as a small rod gives it',
  },
  {
    kind: 'metal',
    name: 'aluminium alloy',
    aliases: ['aluminium', 'aluminum', 'aluminum alloy'],
    density: 2700,
    source: 'metal densities',
    heat: (T) => elementEnthalpy(ALUMINIUM, MOLAR_MASS.Al, T),
    heatSource: 'nasa polynomials',
    melts: meltingPoint(ALUMINIUM),
    burns: 0,
    conducts: true,
    remark: 'a thick block can conduct the heat away as fast as a small rod gives it',
  },
  {
    kind: 'masonry',
    name: 'concrete',
    aliases: ['plain concrete', 'masonry', 'brick'],
    density: 2300,
    source: 'concrete density',
    heatToMelt: 'concrete heat to melt',
    heatSource: 'concrete melting',
  },
  {
    kind: 'masonry',
    name: 'reinforced concrete',
    aliases: ['rc', 'rebar concrete'],
    density: 2300,
    source: 'concrete density',
    heatToMelt: 'concrete heat to melt',
    heatSource: 'concrete melting',
    steel: 'steel in section',
  },
  {
    kind: 'masonry',
    name: 'rock',
    aliases: ['stone', 'granite', 'basalt'],
    density: 2700,
    source: 'concrete density',
    heatToMelt: 'rock heat to melt',
    heatSource: 'rock melting',
    remark: 'a trade handbook has three to four times as much for rock, whose melt is stiff',
  },
];

const byName = new Map<string, Material>(MATERIALS.flatMap((m) => [m.name, ...m.aliases].map((n) => [n, m] as const)));

/** Finds a material by name or alias; `#N/A` with the nearest names where it is unknown. */
export function findMaterial(name: string): Material {
  const found = byName.get(name.trim().toLowerCase().replace(/\s+/g, ' '));
  if (!found) throw unknownName('material', name, nearestNames(name, [...byName.keys()]));
  return found;
}

/** Assumptions that a material's numbers rest on, besides those of all. */
export function materialFactors(m: Material): readonly NumberName[] {
  if (m.kind === 'masonry') return ['masonry slag temperature', m.heatToMelt, ...(m.steel ? [m.steel] : [])];
  const names: NumberName[] = [];
  if (typeof m.burns === 'string') names.push(m.burns);
  if (m.leaves !== undefined) names.push(m.leaves);
  if (m.melts !== undefined) names.push('melt temperature ratio');
  if (m.conducts) names.push('conducted share');
  return names;
}

/**
 * Density of a material and the share of it that may burn: steps `material`, `rho`, `burns`. Of masonry with a share s of steel
 * by volume,
 *
 *     rho = (1 - s) rho_m + s rho_steel,   burns = s rho_steel / rho
 *
 * Source: mixing by volume; densities as the material's own sources.
 */
export function materialSteps(m: Material): readonly Step[] {
  const name = entered('material', 'material', 'count', m.name, 'given, or by default', 'input', '');
  const density = (symbol: string, words: string, value: number, source: string): Step =>
    entered(symbol, words, 'density', value, 'register of materials', 'published', source);
  if (m.kind === 'masonry' && m.steel) {
    return [
      name,
      density('rho_m', 'density without the steel', m.density, m.source),
      density('rho_steel', 'density of steel', STEEL_DENSITY, 'steel density'),
      assumed('s_steel', m.steel),
      calculated(
        'rho',
        'density of the work',
        'density',
        '(1 - s_steel) * rho_m + s_steel * rho_steel',
        '(1 - steel in section) x density without + steel in section x density of steel',
      ),
      calculated(
        'burns',
        'share of the work that may burn',
        'ratio',
        's_steel * rho_steel / rho',
        'the steel, by mass',
      ),
    ];
  }
  const burns = m.kind === 'metal' ? m.burns : 0;
  return [
    name,
    density('rho', 'density of the work', m.density, m.source),
    typeof burns === 'string'
      ? assumed('burns', burns)
      : entered(
          'burns',
          'share of the work that may burn',
          'ratio',
          burns,
          'register of materials',
          'common practice',
          'common practice',
        ),
  ];
}

/**
 * Heat that a kilogram of the work takes from 25 C to where it leaves: step `h_work`. A metal leaves with the slag at T, or at
 * ratio x its melting point where it only melts; masonry takes its heat to melt, and the steel in it that of iron. Steps `T` and
 * `h_rod` stand before, and those of `materialSteps`.
 *
 *     h_w = [(1 - s) rho_m h_m + s rho_steel h_Fe(T)] / rho        of masonry with steel
 *
 * Source: the material's own.
 */
export function workHeatSteps(m: Material): readonly Step[] {
  const name = `heat content of ${m.name} as it leaves`;
  const calculatedHeat = (expression: string, words: string): Step =>
    calculated('h_work', name, 'heatPerMass', expression, words, { source: m.heatSource });
  if (m.kind === 'masonry') {
    return [
      assumed('h_m', m.heatToMelt),
      m.steel
        ? calculatedHeat(
            '((1 - s_steel) * rho_m * h_m + s_steel * rho_steel * h_rod) / rho',
            'by mass of what melts: heat to melt, and heat content of iron for the steel',
          )
        : calculatedHeat('h_m', 'heat to melt'),
    ];
  }
  const heat = (from: string, words: string, symbol = 'h_work', called = name): Step =>
    solved(symbol, called, 'heatPerMass', [from], m.heat, words, m.heatSource, 'published');
  if (m.leaves !== undefined) {
    return [
      heat('T', 'the work from 25 C to the slag temperature', 'h_melt', `heat content of molten ${m.name}`),
      assumed('r_leaves', m.leaves),
      calculatedHeat('h_melt / r_leaves', 'heat content molten / share of what is melted that leaves'),
    ];
  }
  if (m.melts === undefined) return [heat('T', 'the work from 25 C to the slag temperature')];
  return [
    assumed('r_melt', 'melt temperature ratio'),
    entered(
      'T_fusion',
      'melting point of the work',
      'absoluteTemperature',
      m.melts,
      'register of materials',
      'published',
      m.heatSource,
    ),
    calculated(
      'T_work',
      'temperature at which the work leaves',
      'absoluteTemperature',
      'r_melt * T_fusion',
      'melting point x melt temperature ratio',
    ),
    heat('T_work', 'the work from 25 C to where it leaves'),
  ];
}
