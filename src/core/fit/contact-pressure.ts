/** Pin pressed or shrunk into a boss, by Lame's thick rings. */
import { mustBeLess, notAbove } from '../messages.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { elasticitySteps } from './fit-in-force.ts';

/** A pin in a boss: diameters [m], elasticity [Pa]. */
export interface PressFit {
  /** Diameter of the joint. */
  readonly diameter: number;
  /** Bore of the pin; 0 is a solid pin. */
  readonly hole: number;
  /** Bore of the pin before the work; solid where left out. */
  readonly existing?: number;
  /** Outside diameter of the boss. */
  readonly boss: number;
  readonly pinModulus: number;
  readonly pinPoisson: number;
  readonly bossModulus: number;
  readonly bossPoisson: number;
}

/** Refuses diameters that do not fit each other. */
export function checkPressFit(
  { diameter, hole, boss }: Pick<PressFit, 'diameter' | 'hole' | 'boss'>,
  system: UnitSystem,
): void {
  const show = (x: number): string => showQuantity(x, 'length', system);
  if (!(diameter > 0)) throw notAbove('diameter', show(diameter), show(0));
  if (!(hole < diameter)) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(boss > diameter && boss < Infinity)) throw notAbove('boss', show(boss), `the pin's ${show(diameter)}`);
}

const LAME = { kind: 'published', source: 'lame' } as const;

/** Shape of the boss as a thick ring; `D` and `D_o` stand before. */
export const bossShapeStep = calculated(
  'k_h',
  'shape of the boss',
  'ratio',
  '(D_o * D_o + D * D) / (D_o * D_o - D * D)',
  '(boss squared + diameter squared) / (boss squared - diameter squared)',
  LAME,
);

const pinShapeStep = calculated(
  'k_s',
  'shape of the pin',
  'ratio',
  '(D * D + d * d) / (D * D - d * d)',
  '(diameter squared + bore squared) / (diameter squared - bore squared)',
  LAME,
);

/** Contact pressure of a pin before the work, whose shape is 1 where it is solid; `D`, `b_old`, `delta`, the elasticity and `bossShapeStep` stand before. */
export const pressureBeforeSteps: readonly Step[] = [
  calculated(
    'k_0',
    'shape of the pin before the work',
    'ratio',
    '(D * D + b_old * b_old) / (D * D - b_old * b_old)',
    '(diameter squared + existing bore squared) / (diameter squared - existing bore squared); 1 for a solid pin',
    LAME,
  ),
  calculated(
    'p_0',
    'contact pressure before the work',
    'stress',
    'max(0, delta) / (D * ((k_h + nu_h) / E_h + (k_0 - nu_s) / E_s))',
    'interference / (diameter x ((shape of the boss + Poisson) / modulus of the boss + (shape of the pin - Poisson) / modulus of the pin)); 0 with clearance',
    LAME,
  ),
];

/** Steps of `contactPressure`, the pressure under the symbol named; `D`, `d`, `D_o`, the interference and the elasticity stand before. */
export function contactPressureSteps(pressure: string, interference = 'delta'): readonly Step[] {
  return [
    bossShapeStep,
    pinShapeStep,
    calculated(
      pressure,
      'contact pressure',
      'stress',
      `max(0, ${interference}) / (D * ((k_h + nu_h) / E_h + (k_s - nu_s) / E_s))`,
      'interference / (diameter x ((shape of the boss + Poisson) / modulus of the boss + (shape of the pin - Poisson) / modulus of the pin)); 0 with clearance',
      LAME,
    ),
  ];
}

/** Steps of `elasticPressureLimit`: `p_yield`. The shapes, `D`, `d` and the yield strengths `f_s` and `f_h` stand before. */
export const elasticLimitSteps: readonly Step[] = [
  calculated(
    'p_yield_h',
    'pressure at which the boss starts to yield',
    'stress',
    'f_h / sqrt(k_h * k_h + k_h + 1)',
    'yield strength of the boss / root of (its shape squared + its shape + 1): von Mises at its bore',
    LAME,
  ),
  calculated(
    'p_yield_s',
    'pressure at which the pin starts to yield',
    'stress',
    'if(d > 0, f_s / (k_s + 1), f_s)',
    'yield strength of the pin / (its shape + 1), at its bore; of a solid pin its yield strength',
    LAME,
  ),
  calculated(
    'p_yield',
    'pressure at which pin or boss starts to yield',
    'stress',
    'min(p_yield_h, p_yield_s)',
    "von Mises on Lame's stresses, at the bore of the boss or of the pin",
    LAME,
  ),
];

const GEOMETRY: readonly Step[] = [
  given('D', 'diameter', 'length'),
  given('d', 'hole', 'length'),
  given('D_o', 'boss', 'length'),
];
const PRESSURE = new StepList(
  [...GEOMETRY, given('delta', 'interference', 'length'), ...elasticitySteps, ...contactPressureSteps('p')],
  ['p'],
);
const LIMIT = new StepList(
  [
    ...GEOMETRY,
    given('f_s', 'pin yield strength', 'stress'),
    given('f_h', 'boss yield strength', 'stress'),
    bossShapeStep,
    pinShapeStep,
    ...elasticLimitSteps,
  ],
  ['p_yield'],
);

/** A fit in the symbols of the steps. */
export const fitGiven = (fit: PressFit) => ({
  D: fit.diameter,
  d: fit.hole,
  D_o: fit.boss,
  E_s: fit.pinModulus,
  nu_s: fit.pinPoisson,
  E_h: fit.bossModulus,
  nu_h: fit.bossPoisson,
});

/**
 * Contact pressure of a pin pressed or shrunk into a boss, solid or bored.
 *
 * p = delta / (d [ ((Do^2 + d^2) / (Do^2 - d^2) + nu_h) / E_h + ((d^2 + di^2) / (d^2 - di^2) - nu_s) / E_s ]).
 * diameters and interference (on the diameter) [m], moduli [Pa]; result [Pa], 0 where there is no interference.
 * Symbols of the working: D joint, d bore, D_o boss, delta interference, E and nu of boss (h) and pin (s).
 * Valid while both stay elastic (`elasticPressureLimit`), ends of pin and boss flush.
 * Source: Lame's thick rings, as in Marks' Calculations for Machine Design, interference fits, example 6: 4 in
 * pin, 6 in boss, 0.001 in, 30e6 psi, 0.3.
 * @example contactPressure({ diameter: 4 * INCH, hole: 0, boss: 6 * INCH, pinModulus: 30e6 * PSI, pinPoisson: 0.3,
 *   bossModulus: 30e6 * PSI, bossPoisson: 0.3 }, 0.001 * INCH) / PSI // 2083
 */
export function contactPressure(fit: PressFit, interference: number, system: UnitSystem = 'US'): number {
  checkPressFit(fit, system);
  return valueOf(PRESSURE, { ...fitGiven(fit), delta: interference });
}

/**
 * Contact pressure at which pin or boss starts to yield.
 *
 * Boss at the joint: p = f / sqrt(k^2 + k + 1), k = (Do^2 + d^2) / (Do^2 - d^2); bored pin at its bore:
 * p = f (d^2 - di^2) / (2 d^2); solid pin: p = f. The least of them.
 * diameters [m], yield strengths [Pa]; result [Pa]. Source: Lame's stresses without axial stress, von Mises yield.
 * @example elasticPressureLimit({ diameter: 4, hole: 2, boss: 8 }, 400e6, 250e6) / 1e6 // 107.1
 */
export function elasticPressureLimit(
  { diameter, hole, boss }: Pick<PressFit, 'diameter' | 'hole' | 'boss'>,
  pinYield: number,
  bossYield: number,
): number {
  return valueOf(LIMIT, { D: diameter, d: hole, D_o: boss, f_s: pinYield, f_h: bossYield });
}
