/**
 * Heat of iron and of its burning in oxygen, per kg, from the NASA polynomials.
 *
 * Everything is counted from 298.15 K and 1 bar. Nothing here is a fitted or typed-in result: heats of
 * oxidation follow from the heats of formation contained in the polynomials.
 */
import { noSolution, notAbove, tooHigh, tooLow } from '../messages.ts';
import {
  HEMATITE,
  IRON,
  IRON_MONOXIDE,
  MAGNETITE,
  OXYGEN_GAS,
  REFERENCE_TEMPERATURE,
  aboveReference,
  enthalpies,
  molarEnthalpy,
  molarTransition,
  type NasaSpecies,
} from './nasa-polynomials.ts';

/** Molar masses [kg/mol]: IUPAC standard atomic weights, iron 55.845; oxygen as in the reference equation of state of oxygen, 31.9988 / 2. */
export const IRON_MOLAR_MASS = 55.845e-3;
export const OXYGEN_ATOM_MOLAR_MASS = 15.9994e-3;

export type IronOxide = 'FeO' | 'Fe3O4' | 'Fe2O3';

const MELTING_RANGE = IRON.ranges.findIndex((range) => range.phase === 'liquid') - 1;
const MOLAR_ENTHALPY_IRON_298 = molarEnthalpy(IRON, REFERENCE_TEMPERATURE);
const MOLAR_ENTHALPY_OXYGEN_298 = molarEnthalpy(OXYGEN_GAS, REFERENCE_TEMPERATURE);

/** An oxide of so many atoms of iron and oxygen, with what is the same at every temperature: hundreds of draws ask for it. */
function oxideOf(species: NasaSpecies, iron: number, oxygen: number) {
  const reference = molarEnthalpy(species, REFERENCE_TEMPERATURE);
  const elements = iron * MOLAR_ENTHALPY_IRON_298 + (oxygen / 2) * MOLAR_ENTHALPY_OXYGEN_298;
  return {
    species,
    /** [kg/mol] */
    molarMass: iron * IRON_MOLAR_MASS + oxygen * OXYGEN_ATOM_MOLAR_MASS,
    /** Molar enthalpy at 298.15 K [J/mol]. */
    reference,
    /** Heat of its burning and oxygen that goes into it [J/kg, kg/kg of iron]. */
    heat: (elements - reference) / (iron * IRON_MOLAR_MASS),
    demand: (oxygen * OXYGEN_ATOM_MOLAR_MASS) / (iron * IRON_MOLAR_MASS),
  };
}

const OXIDES: Readonly<Record<IronOxide, ReturnType<typeof oxideOf>>> = {
  FeO: oxideOf(IRON_MONOXIDE, 1, 1),
  Fe3O4: oxideOf(MAGNETITE, 3, 4),
  Fe2O3: oxideOf(HEMATITE, 2, 3),
};

/** Oxide of a kilogram of iron [kg]. */
const OXIDE_OF_IRON = { FeO: 1 + OXIDES.FeO.demand, Fe3O4: 1 + OXIDES.Fe3O4.demand };

/** Melting point of iron [K], where the polynomials change from delta to liquid. */
export const IRON_MELTING = IRON.ranges[MELTING_RANGE]?.upTo ?? NaN;

/**
 * Sensible enthalpy of iron above 298.15 K in its stable phase, transitions and fusion included.
 *
 * h = (H(T) - H(298.15)) / M. At 1809 K the value is that of the solid.
 *
 * @param T temperature [K], 200 to 6000; above the boiling point (3133 K at 1 atm) the liquid is carried on
 * @returns [J/kg]
 * Source: NASA TM-4513 and NASA/TP-2002-211556. Example: 2000 K gives 1 458 540 J/kg.
 *
 * @example ironEnthalpy(2100) / 1e6 // 1.541
 */
export function ironEnthalpy(T: number): number {
  return aboveReference(molarEnthalpy(IRON, T), MOLAR_ENTHALPY_IRON_298, IRON_MOLAR_MASS);
}
ironEnthalpy.column = (into: Float64Array, T: Float64Array): void => {
  enthalpies(into, T, IRON, MOLAR_ENTHALPY_IRON_298, IRON_MOLAR_MASS);
};

/**
 * Heat of fusion of iron at its melting point [J/kg]; 247 200 J/kg. Source: as `ironEnthalpy`.
 *
 * @example ironFusionHeat() / 1e3 // 247.2
 */
export function ironFusionHeat(): number {
  return molarTransition(IRON, MELTING_RANGE) / IRON_MOLAR_MASS;
}

/**
 * Sensible enthalpy of an iron oxide above 298.15 K, per kg of oxide.
 *
 * FeO includes its melting at 1650 K. For Fe3O4 and Fe2O3 the source knows the solid only, so above
 * melting (Fe3O4 about 1870 K) the value is too low by the heat of fusion: see `moltenOxideEnthalpy`.
 *
 * @param T temperature [K], 298.15 to 5000 (Fe2O3: 2500)
 * @returns [J/kg of oxide]
 * Source: NASA TM-4513. Example: FeO at 2000 K gives 1 767 670 J/kg.
 *
 * @example oxideEnthalpy('FeO', 2100) / 1e6 // 1.863
 */
export function oxideEnthalpy(oxide: IronOxide, T: number): number {
  const { species, reference, molarMass } = OXIDES[oxide];
  return aboveReference(molarEnthalpy(species, T), reference, molarMass);
}

/**
 * Sensible enthalpy of oxygen gas above 298.15 K [J/kg], 200 to 6000 K. Source: NASA TM-4513.
 *
 * @example oxygenGasEnthalpy(1200) / 1e6 // 0.9298
 */
export function oxygenGasEnthalpy(T: number): number {
  return aboveReference(molarEnthalpy(OXYGEN_GAS, T), MOLAR_ENTHALPY_OXYGEN_298, 2 * OXYGEN_ATOM_MOLAR_MASS);
}
oxygenGasEnthalpy.column = (into: Float64Array, T: Float64Array): void => {
  enthalpies(into, T, OXYGEN_GAS, MOLAR_ENTHALPY_OXYGEN_298, 2 * OXYGEN_ATOM_MOLAR_MASS);
};

/**
 * Heat set free at 298.15 K when iron burns to one oxide, per kg of iron.
 *
 * q = [n_Fe H_Fe + (n_O / 2) H_O2 - H_oxide](298.15 K) / (n_Fe M_Fe)
 *
 * @returns [J/kg of iron]
 * Source: NASA TM-4513. Example: FeO gives 4 871 260 J/kg.
 *
 * @example oxidationHeat('FeO') / 1e6 // 4.871
 */
export const oxidationHeat = (oxide: IronOxide): number => OXIDES[oxide].heat;

/**
 * Oxygen that goes into one oxide per kg of iron burned [kg/kg], from the molar masses. Example: FeO takes 0.28650.
 *
 * @example oxygenDemand('Fe3O4') // 0.382
 */
export const oxygenDemand = (oxide: IronOxide): number => OXIDES[oxide].demand;

/** So much of one as the share that goes to FeO says, the rest of the other. */
const split = (share: number, one: number, other: number): number => share * one + (1 - share) * other;

/** NaN where `checkShare` refuses it. */
const shareOf = (share: number): number => (share >= 0 && share <= 1 ? share : NaN);

/** So much of each oxide's as many shares say. */
function splits(into: Float64Array, shares: Float64Array, of: (oxide: IronOxide) => number): void {
  const one = of('FeO');
  const other = of('Fe3O4');
  for (let i = 0; i < into.length; i++) {
    const share = shares[i]!;
    // Written out, since a first cell would wait for a small function to be compiled.
    into[i] = share >= 0 && share <= 1 ? share * one + (1 - share) * other : NaN;
  }
}

function checkShare(monoxideShare: number): void {
  if (!(monoxideShare >= 0)) throw tooLow('share of the iron that burns to FeO', String(monoxideShare), '0');
  if (monoxideShare > 1) throw tooHigh('share of the iron that burns to FeO', String(monoxideShare), '1');
}

/**
 * Heat set free at 298.15 K by iron whose product is split between FeO and Fe3O4, per kg of iron burned.
 *
 * q = s q_FeO + (1 - s) q_Fe3O4
 *
 * @param monoxideShare s, share of the burned iron that ends as FeO [-], 0 to 1
 * @returns [J/kg of iron]
 * @example splitOxidationHeat(0.5) / 1e6 // 5.778
 */
export function splitOxidationHeat(monoxideShare: number): number {
  checkShare(monoxideShare);
  return split(monoxideShare, oxidationHeat('FeO'), oxidationHeat('Fe3O4'));
}
splitOxidationHeat.column = (into: Float64Array, shares: Float64Array): void => {
  splits(into, shares, oxidationHeat);
};

/**
 * Oxygen taken by iron whose product is split between FeO and Fe3O4, per kg of iron burned.
 *
 * @param monoxideShare share of the burned iron that ends as FeO [-], 0 to 1
 * @returns [kg/kg of iron]
 * @example splitOxygenDemand(0.5) // 0.3342
 */
export function splitOxygenDemand(monoxideShare: number): number {
  checkShare(monoxideShare);
  return split(monoxideShare, oxygenDemand('FeO'), oxygenDemand('Fe3O4'));
}
splitOxygenDemand.column = (into: Float64Array, shares: Float64Array): void => {
  splits(into, shares, oxygenDemand);
};

/**
 * Heat of fusion of magnetite [J/kg of Fe3O4] at 1870 K: 138 kJ/mol, JANAF tables, from memory. The NASA polynomials have
 * its solid only.
 */
export const MAGNETITE_FUSION = 138e3 / (3 * IRON_MOLAR_MASS + 4 * OXYGEN_ATOM_MOLAR_MASS);

/**
 * Enthalpy above 298.15 K of the molten oxide made from one kg of burned iron: `splitOxideEnthalpy` and the fusion of its Fe3O4.
 *
 * FeO melts at 1650 K and takes Fe3O4 up in one melt below the 1870 K at which that melts by itself, so that all of it counts as molten.
 *
 * @param T temperature [K], 1809 to 3000
 * @param monoxideShare share of the burned iron that ends as FeO [-], 0 to 1
 * @returns [J/kg of iron]
 * Source: NASA TM-4513, fusion of Fe3O4 from memory. Example: 2100 K and a half give 2 780 000 J/kg, about.
 *
 * @example moltenOxideEnthalpy(2100, 0.5) / 1e6 // 2.707
 */
export function moltenOxideEnthalpy(T: number, monoxideShare: number): number {
  return splitOxideEnthalpy(T, monoxideShare) + fusionOf(monoxideShare);
}
moltenOxideEnthalpy.column = (into: Float64Array, T: Float64Array, shares: Float64Array): void => {
  const other = new Float64Array(into.length);
  for (const [oxide, of] of [
    ['FeO', into],
    ['Fe3O4', other],
  ] as const) {
    const { species, reference, molarMass } = OXIDES[oxide];
    enthalpies(of, T, species, reference, molarMass);
  }
  for (let i = 0; i < into.length; i++) {
    const share = shareOf(shares[i]!);
    into[i] = oxidesOf(share, into[i]!, other[i]!) + fusionOf(share);
  }
};

/** Enthalpy of the oxides of one kg of burned iron [J/kg of iron], from those of FeO and Fe3O4 [J/kg of oxide], and the fusion of its Fe3O4. */
const oxidesOf = (share: number, monoxide: number, magnetite: number): number =>
  share * OXIDE_OF_IRON.FeO * monoxide + (1 - share) * OXIDE_OF_IRON.Fe3O4 * magnetite;
const fusionOf = (share: number): number => (1 - share) * OXIDE_OF_IRON.Fe3O4 * MAGNETITE_FUSION;

/**
 * Sensible enthalpy of the oxide made from one kg of burned iron, split between FeO and Fe3O4 by share of iron.
 *
 * @param T temperature [K], 298.15 to 5000; see `oxideEnthalpy` for Fe3O4 above its melting
 * @param monoxideShare share of the burned iron that ends as FeO [-], 0 to 1
 * @returns [J/kg of iron]
 * @example splitOxideEnthalpy(2100, 0.5) / 1e6 // 2.295
 */
export function splitOxideEnthalpy(T: number, monoxideShare: number): number {
  checkShare(monoxideShare);
  return oxidesOf(monoxideShare, oxideEnthalpy('FeO', T), oxideEnthalpy('Fe3O4', T));
}

/**
 * Share of the iron that must burn for all of it, burned and unburned, to leave at T with no loss.
 *
 * Iron and oxygen arrive at 298.15 K, all oxygen is used up, the oxide leaves at T as well:
 * x q = (1 - x) h_Fe(T) + x h_ox(T), so x = h_Fe / (q + h_Fe - h_ox), with h_ox per kg of iron burned.
 *
 * @param T temperature [K] at which metal and oxide leave, above 298.15
 * @param monoxideShare share of the burned iron that ends as FeO [-], 0 to 1
 * @returns [-]; no solution where burning all of it does not heat its own oxide to T
 * Example: to FeO, 2000 K gives 0.360 and 2500 K gives 0.485.
 *
 * @example burnedShareWithoutLoss(1811) // 0.3154
 */
export function burnedShareWithoutLoss(T: number, monoxideShare = 1): number {
  if (!(T > REFERENCE_TEMPERATURE))
    throw notAbove('temperature of the metal that leaves', `${T} K`, `${REFERENCE_TEMPERATURE} K`);
  const iron = ironEnthalpy(T);
  const spare = splitOxidationHeat(monoxideShare) - splitOxideEnthalpy(T, monoxideShare);
  if (spare < 0) throw noSolution(`burning all of the iron does not bring its own oxide to ${T} K`);
  return iron / (spare + iron);
}
