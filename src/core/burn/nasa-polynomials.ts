/**
 * NASA polynomials of iron, its oxides and oxygen, with their enthalpy.
 *
 * Coefficients as they stand in the nasa_condensed and nasa_gas data distributed with Cantera, after
 * B. J. McBride, S. Gordon and M. A. Reno, "Coefficients for Calculating Thermodynamic and Transport
 * Properties of Individual Species", NASA TM-4513, 1993 (seven coefficients), and B. J. McBride,
 * M. J. Zehe and S. Gordon, "NASA Glenn Coefficients for Calculating Thermodynamic Properties of
 * Individual Species", NASA/TP-2002-211556, 2002 (alpha iron; nine coefficients, of which those of
 * T^-2 and T^-1 are zero and are left out here). The heat of formation at 298.15 K is contained in b1,
 * and the elements in their reference state have zero enthalpy there.
 */
import { tooHigh, tooLow } from '../messages.ts';
import { GAS_CONSTANT } from '../units/quantities.ts';

/** One range of temperature: Cp/R = a1 + a2 T + a3 T^2 + a4 T^3 + a5 T^4, with the constants b1 of enthalpy and b2 of entropy. */
export interface NasaRange {
  readonly phase: string;
  /** Upper end of the range [K]; at the end itself this range still holds. */
  readonly upTo: number;
  readonly a: readonly [a1: number, a2: number, a3: number, a4: number, a5: number];
  readonly b1: number;
  readonly b2: number;
}

export interface NasaSpecies {
  readonly name: string;
  /** Lowest temperature of the fit [K]. */
  readonly from: number;
  /** Ranges of the stable phases in rising temperature. */
  readonly ranges: readonly [NasaRange, ...NasaRange[]];
}

export const REFERENCE_TEMPERATURE = 298.15;

/** Iron at 1 atm. Magnetic change at 1042 K, alpha to gamma 1184 K, gamma to delta 1665 K, melting 1809 K; boils near 3133 K. */
export const IRON: NasaSpecies = {
  name: 'iron',
  from: 200,
  ranges: [
    {
      phase: 'alpha',
      upTo: 1000,
      a: [2.41337476, -0.00157780744, 2.14701339e-5, -3.80171438e-8, 2.20426984e-11],
      b1: -774.380998,
      b2: -10.6560296,
    },
    {
      phase: 'alpha',
      upTo: 1042,
      a: [4690.80173, -9.90659991, 0.00269427446, 5.54445321e-6, -3.01659823e-9],
      b1: -1415475.86,
      b2: -24929.4387,
    },
    {
      phase: 'alpha',
      upTo: 1184,
      a: [659.678809, -1.14058217, 0.000496306997, 0, 0],
      b1: -252106.802,
      b2: -3656.65236,
    },
    {
      phase: 'gamma',
      upTo: 1665,
      a: [61.010999, -0.160945061, 0.000168369493, -7.74563702e-8, 1.3309129e-11],
      b1: -16533.5454,
      b2: -313.710668,
    },
    {
      phase: 'delta',
      upTo: 1809,
      a: [-435.904698, 0.768489448, -0.000446898892, 8.67070913e-8, 0],
      b1: 187925.534,
      b2: 2450.57619,
    },
    { phase: 'liquid', upTo: 6000, a: [5.53538332, 0, 0, 0, 0], b1: -1274.28941, b2: -29.4772271 },
  ],
};

/**
 * FeO at 1 atm; melts at 1650 K. The fit starts at 300 K and is carried on the 1.85 K to the reference
 * temperature. The source's two ranges of the solid miss one another at 1000 K by 12 J/mol, 0.03 %.
 */
export const IRON_MONOXIDE: NasaSpecies = {
  name: 'FeO',
  from: REFERENCE_TEMPERATURE,
  ranges: [
    {
      phase: 'solid',
      upTo: 1000,
      a: [5.3195475, 0.0022096591, 1.0721775e-6, -2.7929729e-9, 1.3320733e-12],
      b1: -34407.165,
      b2: -23.686034,
    },
    {
      phase: 'solid',
      upTo: 1650,
      a: [5.8316489, 0.0014275156, -9.3208143e-8, -6.5997763e-12, -2.2512143e-14],
      b1: -34566.902,
      b2: -26.44699,
    },
    { phase: 'liquid', upTo: 5000, a: [8.2022482, 0, 0, 0, 0], b1: -33848.615, b2: -40.079129 },
  ],
};

/** Fe3O4, solid only: the source has no liquid and carries the solid past its melting (about 1870 K), so heat of fusion is missing there. */
export const MAGNETITE: NasaSpecies = {
  name: 'Fe3O4',
  from: REFERENCE_TEMPERATURE,
  ranges: [
    {
      phase: 'solid',
      upTo: 1000,
      a: [36.198148, -0.17437976, 0.00052475673, -5.4238219e-7, 1.7996202e-10],
      b1: -141387.3,
      b2: -155.56683,
    },
    {
      phase: 'solid',
      upTo: 5000,
      a: [24.13372, 4.1592226e-5, -2.6331492e-8, 6.6035094e-12, -5.692468e-16],
      b1: -141210.52,
      b2: -120.06412,
    },
  ],
};

/** Fe2O3, solid only. */
export const HEMATITE: NasaSpecies = {
  name: 'Fe2O3',
  from: REFERENCE_TEMPERATURE,
  ranges: [
    {
      phase: 'solid',
      upTo: 1000,
      a: [-7.7037843, 0.13647471, -0.00032905655, 3.8150478e-7, -1.6310285e-10],
      b1: -100800.76,
      b2: 25.292085,
    },
    {
      phase: 'solid',
      upTo: 2500,
      a: [40.49753, -0.046131596, 3.1826406e-5, -8.9226331e-9, 8.4655417e-13],
      b1: -113176.27,
      b2: -216.35088,
    },
  ],
};

export const OXYGEN_GAS: NasaSpecies = {
  name: 'oxygen gas',
  from: 200,
  ranges: [
    {
      phase: 'gas',
      upTo: 1000,
      a: [3.78245636, -0.00299673415, 9.847302e-6, -9.68129508e-9, 3.24372836e-12],
      b1: -1063.94356,
      b2: 3.65767573,
    },
    {
      phase: 'gas',
      upTo: 6000,
      a: [3.66096083, 0.000656365523, -1.41149485e-7, 2.05797658e-11, -1.29913248e-15],
      b1: -1215.97725,
      b2: 3.41536184,
    },
  ],
};

/** H/R = a1 T + a2 T^2/2 + a3 T^3/3 + a4 T^4/4 + a5 T^5/5 + b1 of one range [K]. */
function overGasConstant(range: NasaRange, T: number): number {
  const a = range.a;
  return range.b1 + T * (a[0] + T * (a[1] / 2 + T * (a[2] / 3 + T * (a[3] / 4 + (T * a[4]) / 5))));
}

/** Place of the range that holds a temperature [K]; the last beyond all. */
function rangeAt({ ranges }: NasaSpecies, T: number): number {
  let i = 0;
  while (T > ranges[i]!.upTo && i < ranges.length - 1) i++;
  return i;
}

/**
 * Molar enthalpy of a species in its stable phase, zero for the elements at 298.15 K.
 *
 * H = R (a1 T + a2 T^2/2 + a3 T^3/3 + a4 T^4/4 + a5 T^5/5 + b1). At a change of phase the value is that of
 * the phase stable below it.
 *
 * @param T temperature [K], from the species' `from` to the end of its last range
 * @returns [J/mol]
 * Source: NASA TM-4513, equation for H/RT of the seven-coefficient form.
 *
 * @example (molarEnthalpy(IRON, 1000) - molarEnthalpy(IRON, REFERENCE_TEMPERATURE)) / 1e3 // 24.2
 */
export function molarEnthalpy(species: NasaSpecies, T: number): number {
  const range = species.ranges[rangeAt(species, T)]!;
  if (!(T >= species.from)) throw tooLow(`temperature of ${species.name}`, `${T} K`, `${species.from} K`);
  if (T > range.upTo) throw tooHigh(`temperature of ${species.name}`, `${T} K`, `${range.upTo} K`);
  return GAS_CONSTANT * overGasConstant(range, T);
}

/** Molar enthalpy above a reference [J/mol] as one of a kilogram, by the molar mass [kg/mol]; result [J/kg]. */
export const aboveReference = (molar: number, reference: number, molarMass: number): number =>
  (molar - reference) / molarMass;

/** `aboveReference` of the molar enthalpies of many temperatures [K] at once; NaN outside the fit. */
export function enthalpies(
  into: Float64Array,
  temperatures: Float64Array,
  species: NasaSpecies,
  reference: number,
  molarMass: number,
): void {
  const { from, ranges } = species;
  let [range] = ranges;
  let above = Infinity;
  // Read once for all temperatures of a range.
  let [a1, a2, a3, a4, a5] = range.a;
  for (let i = 0; i < into.length; i++) {
    const T = temperatures[i]!;
    // Nearly always in the range of the one before.
    if (!(T >= from && T > above && T <= range.upTo)) {
      const at = rangeAt(species, T);
      range = ranges[at]!;
      above = ranges[at - 1]?.upTo ?? 0;
      [a1, a2, a3, a4, a5] = range.a;
      if (!(T >= from && T <= range.upTo)) {
        into[i] = NaN;
        continue;
      }
    }
    const molar = GAS_CONSTANT * (range.b1 + T * (a1 + T * (a2 / 2 + T * (a3 / 3 + T * (a4 / 4 + (T * a5) / 5)))));
    into[i] = (molar - reference) / molarMass;
  }
}

/**
 * Heat taken up when a species changes to its next phase, at the end of the range with this index.
 *
 * @returns [J/mol]
 */
export function molarTransition(species: NasaSpecies, index: number): number {
  const below = species.ranges[index];
  const above = species.ranges[index + 1];
  if (!below || !above) return 0;
  return GAS_CONSTANT * (overGasConstant(above, below.upTo) - overGasConstant(below, below.upTo));
}
