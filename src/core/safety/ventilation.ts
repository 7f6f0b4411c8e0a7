import type { Trace } from '../model/trace.ts';
import { requireAbove, requireAtLeast } from './check.ts';
import { LIMITS, isOut } from './limits.ts';

export interface Ventilation {
  /** Whether the rule asks for mechanical ventilation. */
  readonly mechanical: boolean;
  /** Why, each in a few words; empty where it does not. */
  readonly reasons: readonly string[];
  /** Fresh air the rule asks for, all people together [m3/s]; 0 where natural ventilation is taken as enough. */
  readonly freshAir: number;
}

/**
 * Fresh air that 29 CFR 1910.252(c)(2) asks for: 2000 cfm for each person at the work, by fan, where there is less
 * than 10,000 cu ft for each, a ceiling under 16 ft, or a confined or partitioned space.
 *
 * Local exhaust or supplied air can take its place. It does not cover zinc, lead, beryllium, cadmium, stainless steel
 * and the others of (c)(5) to (c)(12), which have rules of their own. Step symbols expected before: `n`.
 *
 * @param volume of the room [m3]
 * @param ceiling height [m]
 * @param people at the work, n
 * @param obstructed a confined space, or partitions and balconies that hinder cross ventilation
 */
export function ventilation(
  volume: number,
  ceiling: number,
  people: number,
  obstructed: boolean,
  trace?: Trace,
): Ventilation {
  requireAbove('volume', volume, 0, 'm3');
  requireAbove('ceiling', ceiling, 0, 'm');
  requireAtLeast('people', people, 1);
  const reasons: string[] = [];
  if (isOut(volume / people, LIMITS.roomForEach)) reasons.push('less than 10,000 cu ft for each person at the work');
  if (isOut(ceiling, LIMITS.ceiling)) reasons.push('ceiling under 16 ft');
  if (obstructed) reasons.push('confined space or hindered cross ventilation');
  const mechanical = reasons.length > 0;
  const each = LIMITS.freshAirForEach;
  const freshAir = mechanical ? people * each.value : 0;
  if (mechanical) {
    trace?.add({
      name: each.name,
      symbol: 'Q_1',
      value: each.value,
      quantity: each.quantity,
      formula: each.clause,
      kind: 'published',
      source: each.source,
    });
    trace?.add({
      name: 'fresh air asked for',
      symbol: 'Q',
      value: freshAir,
      quantity: 'airflow',
      formula: 'people x fresh air for each',
      expression: 'n * Q_1',
      kind: 'calculated',
      source: each.source,
    });
  } else {
    trace?.add({
      name: 'fresh air asked for',
      symbol: 'Q',
      value: 0,
      quantity: 'airflow',
      formula: 'none by fan: the rule takes natural ventilation as enough',
      kind: 'published',
      source: each.source,
    });
  }
  return { mechanical, reasons, freshAir };
}
