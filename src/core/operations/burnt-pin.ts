/** A pin that was burnt out as a job would: how it cools, how it loosens, and what it takes to push it. */
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { gripAfterInForce, gripAfterSteps, GRIP_RESULTS, retainedInForce, type GripAfter } from '../fit/grip-after.ts';
import { elasticitySteps, interferenceSteps, strengthSteps } from '../fit/fit-in-force.ts';
import { CASES, looseningInCases, type Loosening } from '../fit/heated-cases.ts';
import { shrinkInForce, shrinkSteps, SHRINK_RESULTS, SHRINK_SYMBOLS } from '../fit/shrink-in-force.ts';
import { checkPin } from '../heat/check-pin.ts';
import { coolingCurve } from '../heat/cooling-curve.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import {
  bossInForce,
  bossSteps,
  coolingInForce,
  coolingSteps,
  heatingSteps,
  heatingSymbols,
  methodInForce,
  physicsInForce,
} from '../heat/heat-in-force.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import type { Working } from '../model/working.ts';
import { drawItem } from './draw-item.ts';
import { PIN } from './pin.ts';
import { sized, type Sized } from './sized.ts';

/** Where nothing has to cool, the curve still shows this much [s]. */
const SHORTEST = 600;

/** A pin of the usual length. */
const USUAL_PIN = {
  ...PIN,
  plans: {
    ...PIN.plans,
    length: [
      assumed('q', 'length over diameter'),
      calculated('L', 'length', 'length', 'q * D', 'length over diameter x diameter'),
    ],
  },
};

/** How a cooling was asked for. */
export interface Cooled {
  readonly method: CoolingMethod;
  /** Hottest part of the pin at which it is pushed [K]; as assumed where left out. */
  readonly target?: number | undefined;
  /** Assumptions that decided the method. */
  readonly decidedBy: readonly string[];
}

/**
 * Metal removed over time at the work [kg/s].
 *
 * @example paceOf(item) / (POUND / 60) // 0.5925
 */
export const paceOf = ({ removed, timeAtWork }: Sized): number => removed / timeAtWork;

/** Draws of the pace: the cases read no finer. */
const PACES = 128;

/** The same in draws of the item. */
function pacesOf(item: Sized, basis: Basis): Float64Array {
  return drawItem(item, PACES, basis).timeAtWork.map((time) => item.removed / time);
}

const givenBoss = given('D_o', 'boss', 'length');

/**
 * Cooling time of a pin after its own burning, `t_cool`: `coolingTime` without the plan's table. Boss as assumed where left out.
 *
 * lengths [m]; result [s].
 */
export function burntPinCooling(
  pin: Omit<PinInBoss, 'boss'> & { readonly boss?: number | undefined },
  { method, target, decidedBy }: Cooled,
  basis: Basis,
): Working {
  const { diameter, hole, length, boss } = pin;
  const whole = { diameter, hole, length, boss: boss ?? bossInForce(diameter, basis.a) };
  return sized({ operation: PIN, sizes: { diameter, hole, length }, basis }).working(
    't_cool',
    {
      steps: [],
      results: [],
      cooled: [...(boss === undefined ? bossSteps : [givenBoss]), ...coolingSteps(whole, method, target, basis)],
      values: { ...(boss !== undefined && { D_o: boss }), ...(target !== undefined && { T_push: target }) },
    },
    ['cooled'],
    decidedBy,
  );
}

/** Temperatures of a pin in its boss until it can be pushed, at moments that lie closer in the beginning. */
export function burntPinCurve(pin: PinInBoss, cooled: Cooled, points: number, basis: Basis) {
  const { a } = basis;
  const { evaluation, value } = burntPinCooling(pin, cooled, basis);
  const until = value || SHORTEST;
  const times = Array.from({ length: points }, (_, i) => until * (i / (points - 1)) ** 2);
  const cooling = coolingInForce(pin, cooled.method, undefined, evaluation.number('pace'), a);
  return coolingCurve({ ...cooling, times }, physicsInForce(a), undefined, a.system);
}

/** Steps of how a pin loosened, from `heatingSteps` on; `D`, `d`, `L`, `M`, `t_work` and the boss stand before. */
function loosenedSteps(pin: PinInBoss, method: CoolingMethod, item: Sized, basis: Basis) {
  return [
    ...heatingSteps(method),
    ...interferenceSteps('i'),
    ...elasticitySteps,
    ...strengthSteps,
    ...shrinkSteps(method, shrinkInForce(pin, method, paceOf(item), basis.a)),
  ];
}

/**
 * What burning and cooling take off the interference of a pin, on the diameter, in the middle of the cases: `loose`, with low,
 * high, and the chance that nothing loosens.
 *
 * diameter, hole [m]; boss and length as assumed. Source: heated-cases.ts, shrink-pin.ts.
 */
export function burntPinLoosening(
  { diameter, hole }: { readonly diameter: number; readonly hole: number },
  { method, decidedBy }: Cooled,
  basis: Basis,
): Working {
  const { a } = basis;
  const item = sized({ operation: USUAL_PIN, sizes: { diameter, hole }, basis });
  const { length = NaN } = item.planned;
  const pin = { diameter, hole, length, boss: bossInForce(diameter, a) };
  const steps = loosenedSteps(pin, method, item, basis);
  const found = basis.once(`loosened ${diameter} ${hole} ${method}`, () =>
    looseningInCases(pin, method, pacesOf(item, basis), a),
  );
  return item.working(
    'loose',
    { cooled: [], steps: [...bossSteps, ...steps, ...casesSteps(method, found)], results: ['loose', ...LOOSE_BESIDES] },
    LOOSE_BESIDES,
    decidedBy,
  );
}

const LOOSE_BESIDES = [...SHRINK_RESULTS, 'loose_low', 'loose_high', 'p_nothing'];

function casesSteps(method: CoolingMethod, { low, likely, high, nothing }: Loosening): readonly Step[] {
  const drawn = (symbol: string, name: string, quantity: 'length' | 'ratio', value: number, words: string): Step =>
    solved(
      symbol,
      name,
      quantity,
      [...heatingSymbols(method), ...SHRINK_SYMBOLS, 'b', 'i'],
      () => value,
      words,
      'hill',
    );
  const of = `of ${CASES.loosening} cases, in which heat, heated zone, pace, joint, boss, interference, strength of the pin and how it is cooled are drawn from their ranges`;
  return [
    drawn('loose', 'taken off the interference, middle of the cases', 'length', likely, of),
    drawn('loose_low', 'taken off, low', 'length', low, `one case in ten is less; ${of}`),
    drawn('loose_high', 'taken off, high', 'length', high, `one case in ten is more; ${of}`),
    drawn('p_nothing', 'chance that nothing loosens', 'ratio', nothing, `share ${of}`),
  ];
}

/** A grip after burning with the assumptions in force. */
export interface BurntPinGrip {
  readonly grip: GripAfter;
  readonly method: CoolingMethod;
  /** Cases of heating and cooling that were followed, and in how many of them a tight pin or its boss yields. */
  readonly cases: { readonly all: number; readonly yielding: number };
  /** With how it loosens with everything at its value, which is followed only for this. */
  working(): Working;
}

/** Grip of a pin in its boss after a push of so much [N] that did not move it, with the assumptions in force: see `gripAfter`. */
export function burntPinGrip(pin: PinInBoss, tried: number, basis: Basis): BurntPinGrip {
  const { a } = basis;
  const { diameter, hole, length, boss } = pin;
  const method = methodInForce(a);
  const item = sized({ operation: PIN, sizes: { diameter, hole, length }, basis });
  checkPin(pin, a.system, a.value('bushing wall'));
  const retained = basis.once(`retained ${diameter} ${hole} ${length} ${boss}`, () =>
    retainedInForce(pin, pacesOf(item, basis), a),
  );
  const grip = gripAfterInForce(pin, tried, retained, a);
  const [first, ...others] = GRIP_RESULTS;
  return {
    grip,
    method,
    cases: { all: retained.length, yielding: retained.filter(({ elastic }) => !elastic).length },
    working: () =>
      item.working(
        first,
        {
          cooled: [],
          steps: [givenBoss, ...loosenedSteps(pin, method, item, basis), ...gripAfterSteps(method, grip)],
          results: GRIP_RESULTS,
          values: { D_o: boss, F_tried: tried },
        },
        others,
        ['cooling method'],
      ),
  };
}
