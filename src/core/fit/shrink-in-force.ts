import type { Assumptions } from '../assumptions/assumptions.ts';
import { checkPin } from '../heat/check-pin.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import { LONGEST } from '../heat/cooling-time.ts';
import { coolingInForce, heatingSymbols, physicsInForce } from '../heat/heat-in-force.ts';
import { entered, solved, type Step } from '../model/step.ts';
import { bossSteelInForce, pinSteelInForce } from './fit-in-force.ts';
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

/** A pin with the assumed interference, burnt out at a pace [kg/s], until it is pushed: at `target` [K], or at the one assumed. */
export function shrinkInForce(
  pin: PinInBoss,
  way: CoolingMethod,
  pace: number,
  a: Assumptions,
  target?: number,
): Shrink {
  checkPin(pin, a.system, a.value('bushing wall'));
  return shrinkPin(
    {
      pin,
      ...coolingInForce(pin, way, target, pace, a),
      longest: LONGEST,
      interference: a.value('interference over diameter') * pin.diameter,
      pinSteel: pinSteelInForce(a),
      bossSteel: bossSteelInForce(a),
    },
    physicsInForce(a),
  );
}

/** What the contact of pin and boss is followed from, after `heatingSymbols`. */
export const SHRINK_SYMBOLS = ['delta', 'E_s', 'E_h', 'nu_s', 'nu_h', 'f_s', 'f_h'];

/** Symbols of `shrinkSteps`, and of what cooled it. */
export const SHRINK_RESULTS = ['cooled', 'p_bored', 'p_hot', 'p_push', 'delta_push', 'delta_cold', 'why'];

/** How a pin loosened; `heatingSteps`, the interference `delta`, the elasticity and the strengths stand before. */
export function shrinkSteps(
  method: CoolingMethod,
  { pressureBored, pressureMost, pushed, cold, reason }: Shrink,
): readonly Step[] {
  const step = (symbol: string, name: string, value: number, quantity: 'stress' | 'length', words: string): Step =>
    solved(symbol, name, quantity, [...heatingSymbols(method), ...SHRINK_SYMBOLS], () => value, words, 'hill');
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
