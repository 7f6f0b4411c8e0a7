/**
 * NASA polynomials of the metals the work may be made of besides iron, and of what is dissolved in iron.
 *
 * Coefficients as they stand in the nasa_condensed data distributed with Cantera, after McBride, Gordon and Reno, NASA
 * TM-4513, 1993; same form as in nasa-polynomials.ts. Elements have zero enthalpy at 298.15 K.
 */
import { REFERENCE_TEMPERATURE, molarEnthalpy, type NasaRange, type NasaSpecies } from './nasa-polynomials.ts';

/** Copper; melts at 1358 K. */
export const COPPER: NasaSpecies = {
  name: 'copper',
  from: 200,
  ranges: [
    {
      phase: 'solid',
      upTo: 1000,
      a: [1.76672074, 7.34699432e-3, -1.5471296e-5, 1.50539591e-8, -5.24861335e-12],
      b1: -743.882087,
      b2: -7.70454044,
    },
    {
      phase: 'solid',
      upTo: 1358,
      a: [3.4200891, -1.61201394e-3, 3.05145917e-6, -2.11162788e-9, 6.99858397e-13],
      b1: -990.295636,
      b2: -15.1932294,
    },
    { phase: 'liquid', upTo: 6000, a: [3.94491076, 0, 0, 0, 0], b1: -210.634669, b2: -18.3585676 },
  ],
};

/** Aluminium; melts at 933.61 K. */
export const ALUMINIUM: NasaSpecies = {
  name: 'aluminium',
  from: 200,
  ranges: [
    {
      phase: 'solid',
      upTo: 933.61,
      a: [1.01040191, 0.0120769743, -2.62083556e-5, 2.64282413e-8, -9.01916513e-12],
      b1: -654.454196,
      b2: -5.00471254,
    },
    { phase: 'liquid', upTo: 6000, a: [3.81862551, 0, 0, 0, 0], b1: -94.9651808, b2: -17.5229704 },
  ],
};

const liquid = (name: string, a1: number, b1: number, b2: number): NasaSpecies => ({
  name,
  from: REFERENCE_TEMPERATURE,
  ranges: [{ phase: 'liquid', upTo: 6000, a: [a1, 0, 0, 0, 0], b1, b2 }],
});

/** Liquid chromium, carried below its melting (2130 K) as it is dissolved in molten iron. */
export const CHROMIUM_LIQUID = liquid('liquid chromium', 4.73028477, 575.359221, -24.5318309);
/** Liquid nickel; melts at 1728 K. */
export const NICKEL_LIQUID = liquid('liquid nickel', 4.67989094, -322.238346, -23.3517797);
/** Liquid silicon; melts at 1690 K. */
export const SILICON_LIQUID = liquid('liquid silicon', 3.27138941, 4882.86795, -13.2665477);

/** Graphite; its heat of dissolving in iron is left out. */
export const GRAPHITE: NasaSpecies = {
  name: 'graphite',
  from: 200,
  ranges: [
    {
      phase: 'solid',
      upTo: 1000,
      a: [-0.310872072, 4.40353686e-3, 1.90394118e-6, -6.38546966e-9, 2.98964248e-12],
      b1: -108.650794,
      b2: 1.11382953,
    },
    {
      phase: 'solid',
      upTo: 5000,
      a: [1.45571829, 1.71702216e-3, -6.97562786e-7, 1.35277032e-10, -9.67590652e-15],
      b1: -695.138814,
      b2: -8.52583033,
    },
  ],
};

/** Molar masses [kg/mol]: IUPAC standard atomic weights. */
export const MOLAR_MASS = {
  Cu: 63.546e-3,
  Al: 26.9815e-3,
  Cr: 51.9961e-3,
  Ni: 58.6934e-3,
  Si: 28.085e-3,
  C: 12.011e-3,
} as const;

/**
 * Melting point [K] of a species: the end of its last solid range.
 *
 * @example meltingPoint(IRON) // 1809
 */
export function meltingPoint(species: NasaSpecies): number {
  const solid: NasaRange | undefined = species.ranges.filter((r) => r.phase !== 'liquid').at(-1);
  return solid?.upTo ?? NaN;
}

/**
 * Heat content of an element above 298.15 K [J/kg]: H(T) / M, melting included.
 *
 * T [K], within the fit of the species; molarMass [kg/mol]. Source: NASA TM-4513. Example: copper at 1600 K, 798.3 kJ/kg.
 */
export function elementEnthalpy(species: NasaSpecies, molarMass: number, T: number): number {
  return molarEnthalpy(species, T) / molarMass;
}
