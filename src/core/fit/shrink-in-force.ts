import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import { checkPin } from '../heat/check-pin.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import { LONGEST } from '../heat/cooling-time.ts';
import {
  bossInForce,
  bossSteps,
  coolingInForce,
  heatingSteps,
  heatingSymbols,
  physicsInForce,
} from '../heat/heat-in-force.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, entered, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working, type Said } from '../model/working.ts';
import {
  bossSteelInForce,
  elasticitySteps,
  interferenceSteps,
  pinSteelInForce,
  strengthSteps,
} from './fit-in-force.ts';
import { shrinkPin, type Shrink, type ShrinkReason } from './shrink-pin.ts';

/** Why the pin loosens, or does not. */
const REASONS: Readonly<Record<ShrinkReason, string>> = {
  'pin yielded': 'the hot ring pressed against the cold boss, yielded, and shrank smaller than it was',
  'boss yielded': 'the boss yielded round the hot ring and stays wider',
  'pin and boss yielded': 'the hot ring yielded and shrank, and the boss stays wider',
  'stayed elastic':
    'neither pin nor boss yielded: for good nothing loosens, only while the pin is colder than the boss; a larger hole or more heat would',
  'still too hot': 'the pin does not reach the target',
};

/** A pin with the assumed interference, from before burning until it is pushed: at `target` [K], or at the one assumed. */
export function shrinkInForce(pin: PinInBoss, way: CoolingMethod, a: Assumptions, target?: number): Shrink {
  checkPin(pin, a.system);
  return shrinkPin(
    {
      pin,
      ...coolingInForce(pin, way, target, a),
      longest: LONGEST,
      interference: a.value('interference over diameter') * pin.diameter,
      pinSteel: pinSteelInForce(a),
      bossSteel: bossSteelInForce(a),
    },
    physicsInForce(a),
  );
}

/** What the contact of pin and boss is followed from, besides `heatingSymbols`. */
export const SHRINK_SYMBOLS = ['D', 'd', 'L', 'delta', 'E_s', 'E_h', 'nu_s', 'nu_h', 'f_s', 'f_h'];

/** Symbols of `shrinkSteps`, and of what cooled it. */
export const SHRINK_RESULTS = ['cooled', 'p_bored', 'p_hot', 'p_push', 'delta_push', 'delta_cold', 'why'];

/** How a pin loosened; `heatingSteps`, the interference `delta`, the elasticity and the strengths stand before. */
export function shrinkSteps(
  method: CoolingMethod,
  { pressureBored, pressureMost, pushed, cold, reason }: Shrink,
): readonly Step[] {
  const step = (symbol: string, name: string, value: number, quantity: 'stress' | 'length', words: string): Step =>
    solved(symbol, name, quantity, [...SHRINK_SYMBOLS, ...heatingSymbols(method)], () => value, words, 'hill');
  return [
    step(
      'p_bored',
      'contact pressure, bored and not yet heated',
      pressureBored,
      'stress',
      'pin ring and boss with the interference of before',
    ),
    step(
      'p_hot',
      'highest contact pressure while hot',
      pressureMost,
      'stress',
      'pin ring and boss yield as their steels do at their temperatures',
    ),
    step(
      'p_push',
      'contact pressure when pushed',
      pushed.pressure,
      'stress',
      'when the pin has cooled to the target and is even with its boss',
    ),
    step(
      'delta_push',
      'interference left when pushed',
      pushed.interference,
      'length',
      'on the diameter; negative is clearance',
    ),
    step(
      'delta_cold',
      "interference left when all is at the air's temperature",
      cold.interference,
      'length',
      'on the diameter; negative is clearance',
    ),
    entered('why', 'why', 'count', REASONS[reason], reason, 'calculated', 'hill'),
  ];
}

/**
 * What burning and cooling take off the interference of a pin, on the diameter [m], with the assumptions in force: `shrinkPin`.
 *
 * diameter, hole [m]; boss and length as assumed. Source: shrink-pin.ts.
 */
export function loosening(
  diameter: number,
  hole: number,
  method: CoolingMethod,
  a: Assumptions,
  said: Said = {},
): Working {
  const pin = { diameter, hole, boss: bossInForce(diameter, a), length: a.value('length over diameter') * diameter };
  const list = new StepList(
    [
      given('D', 'diameter', 'length'),
      given('d', 'hole', 'length'),
      assumed('q', 'length over diameter'),
      calculated('L', 'length', 'length', 'q * D', 'length over diameter x diameter'),
      ...bossSteps,
      ...heatingSteps(method),
      ...interferenceSteps('i'),
      ...elasticitySteps,
      ...strengthSteps,
      ...shrinkSteps(method, shrinkInForce(pin, method, a)),
      calculated(
        'loose',
        'taken off the interference',
        'length',
        'delta - delta_push',
        'interference before - interference left when pushed',
      ),
    ],
    ['loose', ...SHRINK_RESULTS],
  );
  return new Working(new Evaluation(list, { D: diameter, d: hole }, a), 'loose', SHRINK_RESULTS, said);
}
