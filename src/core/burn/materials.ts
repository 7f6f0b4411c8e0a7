import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import { unknownName } from '../messages.ts';
import type { Step, Trace } from '../model/trace.ts';
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

/** A material as the heat balance sees it. */
export interface Substance {
  /** kg/m3 */
  readonly density: number;
  /** From 25 C to where it leaves, J/kg. */
  readonly heat: number;
  /** Share that may burn, 0 to 1. */
  readonly burns: number;
  /** Share of the heat of burning that is lost. */
  readonly heatLost: number;
}

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
  if (m.kind === 'masonry') return m.steel ? [m.heatToMelt, m.steel] : [m.heatToMelt];
  const names: NumberName[] = [];
  if (typeof m.burns === 'string') names.push(m.burns);
  if (m.melts !== undefined) names.push('melt temperature ratio');
  if (m.conducts) names.push('conducted share');
  return names;
}

/**
 * Density, heat content where it leaves, share that may burn and heat lost of a material.
 *
 * A metal leaves with the slag at T, or at ratio x its melting point where it only melts. Copper and aluminium conduct
 * a share c away besides: lost = 1 - (1 - f)(1 - c). Of masonry with a share s of steel by volume,
 *
 *     rho = (1 - s) rho_m + s rho_steel,   h = [(1 - s) rho_m h_m + s rho_steel h_Fe(T)] / rho,   burns = s rho_steel / rho
 *
 * `of` reads the assumptions; `slagTemperature` T [K]; `heatLost` f.
 * Source: mixing by volume; properties as the material's own sources.
 */
export function substanceOf(m: Material, of: ReadNumber, slagTemperature: number, heatLost: number): Substance {
  if (m.kind === 'masonry') {
    const s = m.steel ? of(m.steel) : 0;
    const density = (1 - s) * m.density + s * STEEL_DENSITY;
    const heat = ((1 - s) * m.density * of(m.heatToMelt) + s * STEEL_DENSITY * ironEnthalpy(slagTemperature)) / density;
    return { density, heat: s === 0 ? of(m.heatToMelt) : heat, burns: (s * STEEL_DENSITY) / density, heatLost };
  }
  return {
    density: m.density,
    heat: m.heat(m.melts === undefined ? slagTemperature : m.melts * of('melt temperature ratio')),
    burns: typeof m.burns === 'string' ? of(m.burns) : m.burns,
    heatLost: m.conducts ? 1 - (1 - heatLost) * (1 - of('conducted share')) : heatLost,
  };
}

/** Records density and share that may burn: steps `rho` and `burns`. */
export function recordMaterial(m: Material, a: Assumptions, trace: Trace): void {
  trace.add({
    name: 'material',
    symbol: 'material',
    value: m.name,
    quantity: 'count',
    formula: 'given, or by default',
    kind: 'input',
    source: '',
  });
  const density = (name: string, symbol: string, value: number, source: string): void =>
    trace.add({
      name,
      symbol,
      value,
      quantity: 'density',
      formula: 'register of materials',
      kind: 'published',
      source,
    });
  if (m.kind === 'masonry' && m.steel) {
    density('density without the steel', 'rho_m', m.density, m.source);
    density('density of steel', 'rho_steel', STEEL_DENSITY, 'steel density');
    const s = a.record(m.steel, 's_steel', trace);
    const value = (1 - s) * m.density + s * STEEL_DENSITY;
    trace.add({
      name: 'density of the work',
      symbol: 'rho',
      value,
      quantity: 'density',
      formula: '(1 - steel in section) x density without + steel in section x density of steel',
      expression: '(1 - s_steel) * rho_m + s_steel * rho_steel',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'share of the work that may burn',
      symbol: 'burns',
      value: (s * STEEL_DENSITY) / value,
      quantity: 'ratio',
      formula: 'the steel, by mass',
      expression: 's_steel * rho_steel / rho',
      kind: 'calculated',
      source: 'arithmetic',
    });
    return;
  }
  density('density of the work', 'rho', m.density, m.source);
  if (m.kind === 'metal' && typeof m.burns === 'string') a.record(m.burns, 'burns', trace);
  else {
    const burns = m.kind === 'metal' ? (m.burns as number) : 0;
    trace.add({
      name: 'share of the work that may burn',
      symbol: 'burns',
      value: burns,
      quantity: 'ratio',
      formula: 'register of materials',
      kind: 'common practice',
      source: 'common practice',
    });
  }
}

/** What the step `h_work` of a material is made of; records the steps before it. Steps `T` and `h_rod` are recorded already. */
export function recordHeat(
  m: Material,
  a: Assumptions,
  trace: Trace,
): Pick<Step, 'formula' | 'expression' | 'kind' | 'source'> {
  if (m.kind === 'masonry') {
    a.record(m.heatToMelt, 'h_m', trace);
    return m.steel
      ? {
          formula: 'by mass of what melts: heat to melt, and heat content of iron for the steel',
          expression: '((1 - s_steel) * rho_m * h_m + s_steel * rho_steel * h_rod) / rho',
          kind: 'calculated',
          source: m.heatSource,
        }
      : { formula: 'heat to melt', expression: 'h_m', kind: 'calculated', source: m.heatSource };
  }
  if (m.melts === undefined)
    return { formula: 'the work from 25 C to the slag temperature', kind: 'published', source: m.heatSource };
  a.record('melt temperature ratio', 'r_melt', trace);
  trace.add({
    name: 'melting point of the work',
    symbol: 'T_fusion',
    value: m.melts,
    quantity: 'absoluteTemperature',
    formula: 'register of materials',
    kind: 'published',
    source: m.heatSource,
  });
  trace.add({
    name: 'temperature at which the work leaves',
    symbol: 'T_work',
    value: m.melts * a.value('melt temperature ratio'),
    quantity: 'absoluteTemperature',
    formula: 'melting point x melt temperature ratio',
    expression: 'r_melt * T_fusion',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return { formula: 'the work from 25 C to where it leaves', kind: 'published', source: m.heatSource };
}
