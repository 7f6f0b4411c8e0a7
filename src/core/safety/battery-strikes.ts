import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { requireAbove, requireAtLeast, requireAtMost } from './check.ts';

export interface BatteryStrikes {
  /** Whole ignitions. */
  readonly strikes: number;
  /** Charge the battery gives at that current before it is to be recharged [C]. */
  readonly charge: number;
}

/** Ignitions, `n`, of the charge to use, `C_use`. Steps before: `C`, `I`, `t`, `share`, `k`. */
const strikeSteps: readonly Step[] = [
  entered(
    'H',
    'time the charge is rated over',
    'hours',
    20 * 3600,
    'as of vehicle batteries',
    'convention',
    'peukert 1897',
  ),
  calculated(
    'C_I',
    'charge at that current',
    'charge',
    'C * (C / (I * H)) ^ (k - 1)',
    'rated charge x (rated charge / (amps x 20 h)) to the power (exponent - 1)',
    { source: 'peukert 1897' },
  ),
  calculated('C_use', 'charge to use', 'charge', 'share * C_I', 'usable share x charge at that current'),
  // A whole number of strikes is not lost to rounding.
  calculated(
    'n',
    'ignitions',
    'count',
    'floor(C_use / (I * t) + 1e-9)',
    'charge to use / (amps x seconds), rounded down',
  ),
];

const C = given('C', 'amp hours', 'charge');
const I = given('I', 'amps', 'current');
const T = given('t', 'seconds', 'seconds');

const STRIKES = new StepList(
  [C, I, T, given('share', 'battery usable share', 'percent'), given('k', 'peukert exponent', 'ratio'), ...strikeSteps],
  ['n'],
);

function requireBattery(capacity: number, current: number, time: number, usable: number, exponent: number): void {
  requireAbove('amp hours', capacity / 3600, 0, 'Ah');
  requireAbove('amps', current, 0, 'A');
  requireAbove('seconds', time, 0, 's');
  requireAtLeast('battery usable share', usable, 0);
  requireAtMost('battery usable share', usable, 1);
  requireAtLeast('peukert exponent', exponent, 1);
  requireAtMost('peukert exponent', exponent, 2);
}

/**
 * How many rods a lead-acid battery lights before it is to be recharged.
 *
 *     C_I = C (C / (I H))^(k - 1),   n = floor( share C_I / (I t) )
 *
 * Peukert's law is for a steady current; between strikes a battery recovers, so the count errs on the low side. Cold
 * and age lower it further.
 *
 * Source: Peukert 1897, with the rated current C/H as reference. Range: currents above the rated C / 20 h.
 * @example batteryStrikes(100 * 3600, 100, 2, 0.5, 1.25).strikes // 425
 *
 * @param capacity C, rated over 20 h [C]
 * @param current I drawn while the rod lights [A]
 * @param time t of one strike [s]
 * @param usable share of the charge to use before recharging, 0 to 1
 * @param exponent k, 1 to 2
 */
export function batteryStrikes(
  capacity: number,
  current: number,
  time: number,
  usable: number,
  exponent: number,
): BatteryStrikes {
  requireBattery(capacity, current, time, usable, exponent);
  const at = work(STRIKES, { C: capacity, I: current, t: time, share: usable, k: exponent }).evaluation;
  return { strikes: at.number('n'), charge: at.number('C_use') };
}

/**
 * `batteryStrikes` with the share and the exponent in force, and the current [A] and time [s] of a strike in force where they
 * are not given: step `n`.
 *
 * @example batteryStrikesInForce(100 * 3600, 100, 2, basis.a).value // 425
 */
export function batteryStrikesInForce(
  capacity: number,
  current: number | undefined,
  time: number | undefined,
  a: Assumptions,
): Working {
  requireBattery(
    capacity,
    current ?? a.value('strike current'),
    time ?? a.value('strike time'),
    a.value('battery usable share'),
    a.value('peukert exponent'),
  );
  const list = new StepList(
    [
      C,
      current === undefined ? assumed('I', 'strike current') : I,
      time === undefined ? assumed('t', 'strike time') : T,
      assumed('share', 'battery usable share'),
      assumed('k', 'peukert exponent'),
      ...strikeSteps,
    ],
    ['n'],
  );
  return work(
    list,
    { C: capacity, ...(current !== undefined && { I: current }), ...(time !== undefined && { t: time }) },
    a,
  );
}
