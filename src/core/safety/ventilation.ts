import { calculated, entered, given, type Step } from '../model/step.ts';
import { workAll, type Working } from '../model/working.ts';
import { requireAbove, requireAtLeast } from './check.ts';
import { LIMITS, isOut, limitStep } from './limits.ts';

export interface Ventilation {
  /** Why the rule asks for mechanical ventilation, each in a few words; empty where it does not. */
  readonly reasons: readonly string[];
  /** Fresh air the rule asks for, all people together [m3/s]; 0 where natural ventilation is taken as enough. */
  readonly freshAir: number;
  /** How it is found: step `Q`. */
  readonly working: Working;
}

/**
 * Fresh air that 29 CFR 1910.252(c)(2) asks for: 2000 cfm for each person at the work, by fan, where there is less
 * than 10,000 cu ft for each, a ceiling under 16 ft, or a confined or partitioned space.
 *
 * Local exhaust or supplied air can take its place. It does not cover zinc, lead, beryllium, cadmium, stainless steel
 * and the others of (c)(5) to (c)(12), which have rules of their own.
 * @example ventilation(100, 4, 3, false).freshAir / (CUBIC_FOOT / 60) // 6000
 *
 * @param volume of the room [m3]
 * @param ceiling height [m]
 * @param people at the work, n
 * @param obstructed a confined space, or partitions and balconies that hinder cross ventilation
 */
export function ventilation(volume: number, ceiling: number, people: number, obstructed: boolean): Ventilation {
  requireAbove('volume', volume, 0, 'm3');
  requireAbove('ceiling', ceiling, 0, 'm');
  requireAtLeast('people', people, 1);
  const reasons: string[] = [];
  if (isOut(volume / people, LIMITS.roomForEach)) reasons.push('less than 10,000 cu ft for each person at the work');
  if (isOut(ceiling, LIMITS.ceiling)) reasons.push('ceiling under 16 ft');
  if (obstructed) reasons.push('confined space or hindered cross ventilation');
  const each = LIMITS.freshAirForEach;
  const name = 'fresh air asked for';
  const asked: readonly Step[] =
    reasons.length > 0
      ? [
          limitStep('Q_1', each),
          calculated('Q', name, 'airflow', 'n * Q_1', 'people x fresh air for each', { source: each.source }),
          entered('why', 'why', 'count', reasons.join('; '), '29 CFR 1910.252(c)(2)(i)', 'published', 'osha 1910.252'),
        ]
      : [
          entered(
            'Q',
            name,
            'airflow',
            0,
            'none by fan: the rule takes natural ventilation as enough',
            'published',
            each.source,
          ),
        ];
  const working = workAll(
    [given('V', 'volume', 'volume'), given('H', 'ceiling', 'distance'), given('n', 'people', 'count'), ...asked],
    { V: volume, H: ceiling, n: people },
    'Q',
  );
  return { reasons, freshAir: working.value, working };
}
