import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions, Uncertain } from '../assumptions/assumptions.ts';
import type { CalcError } from '../errors.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import { heatingSymbols, methodInForce } from '../heat/heat-in-force.ts';
import { gripBeyondPriors, notAbove } from '../messages.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';
import { normalColumn, placeColumn } from '../spread/draws.ts';
import { johnson, johnsonCdf, johnsonColumn, johnsonQuantile } from '../spread/johnson.ts';
import { studentQuantile } from '../spread/student.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import {
  bossShapeStep,
  checkPressFit,
  contactPressureSteps,
  fitGiven,
  pressureBeforeSteps,
  type PressFit,
} from './contact-pressure.ts';
import { elasticitySteps, uncertainInForce } from './fit-in-force.ts';
import { gripForceStep } from './grip-force.ts';
import { CASES, retainedInCases, type Retained } from './heated-cases.ts';
import { SHRINK_RESULTS, SHRINK_SYMBOLS } from './shrink-in-force.ts';

/** Three levels of one uncertain thing. */
export interface Levels<T> {
  readonly low: T;
  readonly likely: T;
  readonly high: T;
}

/** What is believed of the joint before anything was tried. */
export interface GripPriors {
  /** Interference on the diameter [m], 0 or more. */
  readonly interference: Uncertain;
  readonly friction: Uncertain;
  /** Shear strength that rust adds [Pa]. */
  readonly bond: Uncertain;
  /** Share of the rust's strength left after heating and cooling, 0 to 1. */
  readonly bondLeft: Uncertain;
}

export interface GripAfterInputs {
  /** The bored pin in its boss; before the work it was solid. */
  readonly fit: PressFit;
  readonly length: number;
  /** Push that did not move it [N]; 0 where none was tried. */
  readonly tried: number;
  readonly priors: GripPriors;
  /** What burning and cooling leave of an interference, in cases that are alike probable. */
  readonly retained: readonly Retained[];
  /** Number of draws, a power of two, and the seed that picks them. */
  readonly draws: number;
  readonly seed: number;
}

/**
 * A chance, the weight of draws that hold over that of all, and how far it may be off for the number of cases. Draws of one case of heating
 * and cooling stand or fall together, so that it is counted over the cases: with H the weight of what holds in a case, W all its weight and
 * p the chance, t sqrt(n/(n - 1) sum (H - p W)^2) / sum W, t of Student at 97.5 % with n - 1 degrees. That is for cases at random and followed;
 * evenly spread ones are nearer, which makes up for those that are read between others: of 51 pins 98 of 100 chances lie within it of those
 * of 512 followed cases, with any of 60 scrambles.
 *
 * Source: ratio estimator over clusters: Cochran, Sampling Techniques, 3rd edition (1977), 9A.1, from memory.
 */
export interface Chance {
  /** 0 to 1. */
  readonly value: number;
  /** Half the width of the interval that holds the chance in 95 cases of 100. */
  readonly within: number;
}

export interface GripAfter {
  /** Force to start the pin before the work, given that the tried push did not [N]: 10, 50 and 90 in 100 are less. */
  readonly before: Levels<number>;
  /** Force after burning and cooling [N], likewise. */
  readonly after: Levels<number>;
  /** Share of the priors' cases that agree with the push that did not move it. */
  readonly agreement: number;
  /** Chance that burning and cooling take nothing off the interference. */
  readonly nothing: Chance;
  /** Chance that a push of that force moves the pin after burning and cooling. */
  chance(force: number): Chance;
}

/** Percentile of interference, friction and bond up to which a grip is thought possible. */
const MOST = 0.99;

/** Factors of a case, in the order in which they are given. */
const FACTORS = ['delta', 'mu', 'left', 'u', 'case'] as const;

/** One case: how it agrees with the push that did not move the pin, `w`, and the forces before and after, `F_0` and `F_1`. */
function caseList({ tried, priors: { bond: range }, retained }: GripAfterInputs): StepList {
  const bond = johnson(range);
  return new StepList(
    [
      given('D', 'diameter', 'length'),
      given('d', 'hole', 'length'),
      given('D_o', 'boss', 'length'),
      given('b_old', 'existing bore', 'length'),
      given('L', 'length', 'length'),
      given('T', 'force tried', 'force'),
      ...elasticitySteps,
      given('delta', 'interference', 'length'),
      given('mu', 'joint friction', 'ratio'),
      given('left', 'bond left after burning', 'ratio'),
      given('case', 'place among the cases of heating and cooling', 'ratio'),
      given('u', 'place in what is left of the range of the rust bond', 'ratio'),
      ...heldSteps('T'),
      bossShapeStep,
      ...pressureBeforeSteps,
      calculated(
        'tau_held',
        'least rust bond with which it held',
        'stress',
        'tau_min - mu * p_0',
        'least mean shear that held - friction x contact pressure before the work',
      ),
      solved(
        'w',
        'chance that the rust bond is that strong',
        'ratio',
        ['tau_held'],
        (least) => 1 - (tried > 0 ? johnsonCdf(bond, least) : 0),
        'share of the range of the rust bond above it; 1 where nothing was tried',
        'hadlock bickel',
      ),
      solved(
        'tau',
        'rust bond',
        'stress',
        ['tau_held', 'w', 'u'],
        (least, w, u) => Math.max(least, johnsonQuantile(bond, Math.min(1 - w + u * w, 1 - Number.EPSILON / 2))),
        'from what is left of its range',
        'hadlock bickel',
      ),
      gripForceStep({ force: 'F_0', friction: 'mu', pressure: 'p_0', bond: 'tau' }),
      solved(
        'delta_push',
        'interference left when pushed',
        'length',
        ['delta', 'case'],
        (delta, place) => retained[Math.floor(place * retained.length)]!(delta),
        'what burning and cooling leave of it in that case',
        'hill',
      ),
      ...contactPressureSteps('p_1', 'delta_push'),
      calculated('tau_left', 'rust bond left', 'stress', 'left * tau', 'share left after burning x rust bond'),
      gripForceStep({ force: 'F_1', friction: 'mu', pressure: 'p_1', bond: 'tau_left' }),
    ],
    ['w', 'F_0', 'F_1', 'delta_push'],
  );
}

/** Area of the joint and the least mean shear that held: `A`, `tau_min`. `D`, `L` and the force tried stand before. */
const heldSteps = (tried: string): readonly Step[] => [
  calculated('A', 'area of the joint', 'area', 'PI * D * L', 'pi x diameter x length'),
  calculated(
    'tau_min',
    'least mean shear that held',
    'stress',
    `${tried} / A`,
    'push that did not move it / area of the joint',
  ),
];

/**
 * Grip of a pin before and after its core is burnt out, from a push that did not move it.
 *
 * Each draw takes interference delta and friction mu from their ranges, and one of the cases of heating and cooling. Before, F = pi D L (mu p + tau) with
 * Lame's p of the solid pin; that the pin held at the tried force T means tau > T / (pi D L) - mu p, so the draw counts
 * with the probability of that and its tau is drawn from what is left of the range. After, p is that of the bored pin
 * with the interference retained, and tau is multiplied by the share left: F' = pi D L (mu p' + s tau).
 * Percentiles and chances are weighted over the draws (self-normalised importance sampling on scrambled Sobol points,
 * so the same call gives the same numbers).
 * lengths [m], forces [N], stresses [Pa]. Elastic before the work; ranges independent of one another.
 * Source: Bayes' rule; contact-pressure.ts, grip-force.ts, retained-interference.ts.
 */
export function gripAfter(inputs: GripAfterInputs, system: UnitSystem = 'US'): GripAfter {
  const { fit, length, tried, priors, retained, draws: count, seed } = inputs;
  checkPressFit(fit, system);
  if (!(length > 0))
    throw notAbove('length', showQuantity(length, 'length', system), showQuantity(0, 'length', system));
  const list = caseList(inputs);
  const cases = work(list, { ...fitGiven(fit), b_old: fit.existing ?? 0, L: length, T: tried }).evaluation;
  const { interference, friction, bond, bondLeft } = priors;
  const most = cases
    .over(['delta', 'mu', 'tau'])
    .give([interference, friction, bond].map((range) => johnsonQuantile(johnson(range), MOST)))
    .number('F_0');
  const beyond = (): CalcError =>
    gripBeyondPriors(showQuantity(tried, 'force', system), showQuantity(most, 'force', system));
  if (!(most > tried)) throw beyond();

  const drawn = [interference, friction, bondLeft].map((range, k) =>
    johnsonColumn(johnson(range), normalColumn(k, count, seed)),
  );
  const places = placeColumn(4, count, seed);
  const drawing = cases.over(FACTORS).give([...drawn, placeColumn(3, count, seed), places]);
  const [weights, before, after, left] = ['w', 'F_0', 'F_1', 'delta_push'].map((symbol) => drawing.column(symbol)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const agreement = weights.reduce((sum, w) => sum + w, 0) / count;
  if (!(agreement > 0)) throw beyond();
  const levels = (values: Float64Array): Levels<number> => {
    const read = weighted(values, weights);
    return { low: read(0.1), likely: read(0.5), high: read(0.9) };
  };
  const of = Uint32Array.from(places, (place) => Math.floor(place * retained.length));
  const n = retained.length;
  const whole = weightsOf(weights, of, n);
  const all = sum(whole);
  // Once for all chances.
  const wide = n > 1 ? (studentQuantile(0.975, n - 1) * Math.sqrt(n / (n - 1))) / all : NaN;
  const chance = (values: Float64Array, limit: number): Chance => {
    const holding = weightsOf(weights, of, n, values, limit);
    const value = sum(holding) / all;
    return { value, within: n > 1 ? wide * Math.sqrt(sum(holding.map((h, k) => (h - value * whole[k]!) ** 2))) : 1 };
  };
  return {
    before: levels(before),
    after: levels(after),
    agreement,
    nothing: chance(
      left.map((d, i) => drawn[0]![i]! - d),
      0,
    ),
    chance: (force) => chance(after, force),
  };
}

/** Draws of a grip after burning. */
const DRAWS = 512;
/** One of 60 scrambles: see `retainedInCases`. */
const SEED = 50;
/** Percentile of the interference up to which its loosening is followed; beyond, straight on. */
const LARGEST = 0.99;

/** `retainedInCases` of a pin with the assumptions in force; the pace of burning has the draws given [kg/s]. */
export function retainedInForce(pin: PinInBoss, paces: Float64Array, a: Assumptions): readonly Retained[] {
  const interference = johnson(uncertainInForce('interference over diameter', a, pin.diameter));
  return retainedInCases(pin, methodInForce(a), paces, johnsonQuantile(interference, LARGEST), a);
}

/** `gripAfter` of a pin in its boss after a push of so much [N] that did not move it, with the assumptions in force. */
export function gripAfterInForce(
  pin: PinInBoss,
  tried: number,
  retained: readonly Retained[],
  a: Assumptions,
): GripAfter {
  checkPressFit(pin, a.system);
  const interference = uncertainInForce('interference over diameter', a, pin.diameter);
  const poisson = a.value('poisson ratio');
  return gripAfter(
    {
      fit: {
        ...pin,
        existing: a.value('existing bore'),
        pinModulus: a.value('pin modulus'),
        pinPoisson: poisson,
        bossModulus: a.value('boss modulus'),
        bossPoisson: poisson,
      },
      length: pin.length,
      tried,
      retained,
      draws: DRAWS,
      seed: SEED,
      priors: {
        interference,
        friction: uncertainInForce('joint friction', a),
        bond: uncertainInForce('rust bond', a),
        bondLeft: uncertainInForce('bond left after burning', a),
      },
    },
    a.system,
  );
}

/** Steps of `gripAfterInForce`: forces, agreement and chance. `heatingSteps`, `shrinkSteps` and what they rest on stand before. */
export function gripAfterSteps(method: CoolingMethod, grip: GripAfter): readonly Step[] {
  const drawn = (symbol: string, name: string, quantity: 'force' | 'ratio', value: number, words: string): Step =>
    solved(
      symbol,
      name,
      quantity,
      [...heatingSymbols(method), ...SHRINK_SYMBOLS, 'F_tried', 'i', 'mu_grip', 'tau', 'left'],
      () => value,
      words,
      'importance sampling',
    );
  return [
    given('F_tried', 'force tried', 'force'),
    assumed('mu_grip', 'joint friction'),
    assumed('tau', 'rust bond'),
    assumed('left', 'bond left after burning'),
    ...heldSteps('F_tried'),
    drawn(
      'w_agree',
      'share of cases that agree with the push',
      'ratio',
      grip.agreement,
      `of ${DRAWS} draws of interference, friction and rust bond`,
    ),
    drawn(
      'F_0',
      'force before, middle of the cases',
      'force',
      grip.before.likely,
      'area x (friction x pressure before the work + rust bond), weighted by agreement',
    ),
    drawn(
      'F_1',
      'force after, middle of the cases',
      'force',
      grip.after.likely,
      `area x (friction x pressure of the bored pin with what is left of its interference in ${CASES.grip} cases of heating and cooling, read between some that are followed, + share of the rust bond left), all drawn from their ranges, the pace from those of the pin's own work, weighted by agreement`,
    ),
    drawn(
      'p_nothing',
      'chance that nothing loosens',
      'ratio',
      grip.nothing.value,
      'share of the draws in which burning and cooling take nothing off the interference, weighted by agreement',
    ),
    assumed('use', 'ram use'),
  ];
}

/** Results of `gripAfterSteps`, the force after first. */
export const GRIP_RESULTS = ['F_1', 'F_0', 'w_agree', 'tau_min', 'p_nothing', ...SHRINK_RESULTS, 'use'] as const;

/** The weight of the draws of each case, or of those up to a limit. */
function weightsOf(
  weights: Float64Array,
  cases: Uint32Array,
  count: number,
  values: Float64Array = weights,
  limit = Infinity,
): Float64Array {
  const into = new Float64Array(count);
  for (let i = 0; i < weights.length; i++) {
    const at = cases[i]!;
    if (values[i]! <= limit) into[at] = into[at]! + weights[i]!;
  }
  return into;
}

const sum = (column: Float64Array): number => column.reduce((all, x) => all + x, 0);

/** Reads the value that a share of the weight does not exceed. */
function weighted(values: Float64Array, weights: Float64Array): (share: number) => number {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  const total = weights.reduce((sum, w) => sum + w, 0);
  return (share) => {
    let sum = 0;
    for (const i of order) {
      sum += weights[i]!;
      if (sum >= share * total) return values[i]!;
    }
    return values[order[order.length - 1]!]!;
  };
}
