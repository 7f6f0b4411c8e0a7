import type { Trace } from '../model/trace.ts';
import { requireAbove, requireAtLeast, requireAtMost } from './check.ts';

/** Time over which a battery's ampere hours are rated, H [s]: 20 h, as vehicle batteries are. */
const RATED_TIME = 20 * 3600;
/** Counts round down after this, so that a whole number of strikes is not lost to rounding. */
const TOLERANCE = 1e-9;

export interface BatteryStrikes {
  /** Whole ignitions. */
  readonly strikes: number;
  /** Charge the battery gives at that current before it is to be recharged [C]. */
  readonly charge: number;
}

/**
 * How many rods a lead-acid battery lights before it is to be recharged.
 *
 *     C_I = C (C / (I H))^(k - 1),   n = floor( share C_I / (I t) )
 *
 * Peukert's law is for a steady current; between strikes a battery recovers, so the count errs on the low side. Cold
 * and age lower it further. Step symbols expected before: `C`, `I`, `t`, `share`, `k`.
 *
 * Source: Peukert 1897, with the rated current C/H as reference. Range: currents above the rated C / 20 h.
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
  trace?: Trace,
): BatteryStrikes {
  requireAbove('amp hours', capacity / 3600, 0, 'Ah');
  requireAbove('amps', current, 0, 'A');
  requireAbove('seconds', time, 0, 's');
  requireAtLeast('battery usable share', usable, 0);
  requireAtMost('battery usable share', usable, 1);
  requireAtLeast('peukert exponent', exponent, 1);
  requireAtMost('peukert exponent', exponent, 2);
  const full = capacity * (capacity / (current * RATED_TIME)) ** (exponent - 1);
  const charge = usable * full;
  const strikes = Math.floor(charge / (current * time) + TOLERANCE);
  if (trace) {
    trace.add({
      name: 'charge at that current',
      symbol: 'C_I',
      value: full,
      quantity: 'charge',
      formula: 'rated charge x (rated charge / (amps x 20 h)) to the power (exponent - 1)',
      expression: `C * pow(C / (I * ${RATED_TIME}), k - 1)`,
      kind: 'calculated',
      source: 'peukert 1897',
    });
    trace.add({
      name: 'charge to use',
      symbol: 'C_use',
      value: charge,
      quantity: 'charge',
      formula: 'usable share x charge at that current',
      expression: 'share * C_I',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'ignitions',
      symbol: 'n',
      value: strikes,
      quantity: 'count',
      formula: 'charge to use / (amps x seconds), rounded down',
      expression: `floor(C_use / (I * t) + ${TOLERANCE})`,
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return { strikes, charge };
}
