import { FIT_ASSUMPTIONS } from '../../../src/core/assumptions/fit.ts';
import type { CoolingMethod, PinInBoss } from '../../../src/core/heat/cool-pin.ts';
import { gripAfter, type GripAfter, type GripPriors } from '../../../src/core/fit/grip-after.ts';
import { contactPressureSteps, fitGiven, type PressFit } from '../../../src/core/fit/contact-pressure.ts';
import { elasticitySteps, uncertainInForce } from '../../../src/core/fit/fit-in-force.ts';
import { given } from '../../../src/core/model/step.ts';
import { StepList } from '../../../src/core/model/step-list.ts';
import { work } from '../../../src/core/model/working.ts';
import { Assumptions, type Override, type Uncertain } from '../../../src/core/assumptions/assumptions.ts';
import { retainedInCases } from '../../../src/core/fit/heated-cases.ts';
import type { SteelStrength } from '../../../src/core/fit/ring-steel.ts';
import { POUND_FORCE } from '../../../src/core/units/quantities.ts';
import { toSi } from '../../../src/core/units/parse-quantity.ts';
import { PIN, type Level } from '../heat/physics.ts';

type Name = (typeof FIT_ASSUMPTIONS)[number]['name'];

/** A default of the fit assumptions in SI. */
export function fitAssumed(name: Name, level: Level = 'value'): number {
  const row = FIT_ASSUMPTIONS.find((a) => a.name === name)!;
  return toSi(row[level], row.quantity, 'US', row.unit);
}

const levels = (name: Name, scale = 1): Uncertain => uncertainInForce(name, Assumptions.defaults(), scale);

export const SHORT_TON = 2000 * POUND_FORCE;
export const PIN_STEEL: SteelStrength = {
  modulus: fitAssumed('pin modulus'),
  yield: fitAssumed('pin yield strength'),
  poisson: fitAssumed('poisson ratio'),
};
export const BOSS_STEEL: SteelStrength = {
  modulus: fitAssumed('boss modulus'),
  yield: fitAssumed('boss yield strength'),
  poisson: fitAssumed('poisson ratio'),
};

export const priorsFor = (diameter: number): GripPriors => ({
  interference: levels('interference over diameter', diameter),
  friction: levels('joint friction'),
  bond: levels('rust bond'),
  bondLeft: levels('bond left after burning'),
});

export const pressFit = ({ diameter, hole, boss }: PinInBoss): PressFit => ({
  diameter,
  hole,
  boss,
  pinModulus: PIN_STEEL.modulus,
  pinPoisson: PIN_STEEL.poisson,
  bossModulus: BOSS_STEEL.modulus,
  bossPoisson: BOSS_STEEL.poisson,
});

export interface Job {
  readonly pin?: PinInBoss;
  readonly tons: number;
  readonly method?: CoolingMethod;
  readonly priors?: GripPriors;
  readonly draws?: number;
  /** Cases of heating and cooling, each of them followed; as many as usual, read between a few, where left out. */
  readonly cases?: number | undefined;
  /** Paces of burning that are alike probable [kg/s]; those about which pins of some inches come out. */
  readonly paces?: readonly number[];
}

/** Around a pound a minute, as the pins of a plan are burnt. */
export const PACES = Array.from({ length: 64 }, (_, i) => 0.004 + (0.005 * i) / 63);

/** Grip before and after with every default assumption. */
export function gripOf({
  pin = PIN,
  tons,
  method = 'air',
  priors = priorsFor(pin.diameter),
  draws = 512,
  cases,
  paces = PACES,
}: Job): GripAfter {
  const most = priors.interference.high;
  const a = Assumptions.defaults();
  const each = cases === undefined ? undefined : new Array<number>(cases).fill(1);
  const retained = retainedInCases(pin, method, Float64Array.from(paces), most, a, cases, each);
  return gripAfter({
    fit: pressFit(pin),
    length: pin.length,
    tried: tons * SHORT_TON,
    priors,
    retained,
    draws,
    seed: 50,
  });
}

/** The defaults with some numbers changed [SI]. */
export const changed = (numbers: Partial<Record<Name, number>>): Assumptions =>
  Assumptions.from(
    Object.entries(numbers).map(([name, value]): Override => ({ name: name as Name, value, kind: 'your value' })),
  );

const SHAPES = new StepList(
  [
    given('D', 'diameter', 'length'),
    given('d', 'hole', 'length'),
    given('D_o', 'boss', 'length'),
    given('delta', 'interference', 'length'),
    ...elasticitySteps,
    ...contactPressureSteps('p'),
  ],
  ['p', 'k_h', 'k_s'],
);

/**
 * Hoop stresses of a press fit under a contact pressure [Pa], from the shapes that the contact pressure rests on: Lame's
 * p (Do^2 + d^2) / (Do^2 - d^2) in the boss at the joint, -p (d^2 + di^2) / (d^2 - di^2) in the pin there, and as much more
 * at its bore as the pressure.
 */
export function hoopStresses(fit: PressFit, pressure: number) {
  const { evaluation } = work(SHAPES, { ...fitGiven(fit), delta: 0 });
  const pin = -pressure * evaluation.number('k_s');
  return { boss: pressure * evaluation.number('k_h'), pin, pinBore: fit.hole > 0 ? pin - pressure : pin };
}
