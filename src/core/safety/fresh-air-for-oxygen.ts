import { airDoesNotClear, mustBeLess, shown } from '../messages.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { requireAtLeast } from './check.ts';
import { LIMITS, oxygenLimitStep } from './limits.ts';
import { requireShare } from './room-oxygen.ts';

/** Fresh air for a limit of oxygen, `Q`. Steps before: `q`, `K`, `x_a`. Throws where `outside` air [share of 1] cannot hold the limit. */
export function freshAirSteps(outside: number, limit: number = LIMITS.oxygenHigh.value): readonly Step[] {
  requireShare('oxygen in the fresh air', outside);
  requireShare('limit', limit);
  if (limit >= 1) throw mustBeLess('limit', shown(limit), '1');
  if (limit <= outside) throw airDoesNotClear(limit, Infinity);
  return [
    oxygenLimitStep(limit),
    calculated(
      'Q',
      'fresh air needed',
      'airflow',
      'K * q * (1 - x_limit) / (x_limit - x_a)',
      'mixing factor x release x (1 - limit) / (limit - oxygen in the fresh air)',
    ),
  ];
}

/**
 * Fresh air that keeps the average of a room with a steady release of oxygen at a limit for as long as it lasts.
 *
 *     Q = K q (1 - x_limit) / (x_limit - x_a)
 *
 * It is the rate for oxygen alone: fume and 29 CFR 1910.252(c) may ask for more. `#N/A` where the limit is not
 * above the oxygen of the fresh air.
 *
 * Source: steady state of the balance in room-oxygen.ts; limit 29 CFR 1910.146(b).
 * Example: 1 scfm let into air of 20.9 percent needs 29.4 cfm to stay at 23.5 percent, well mixed.
 * @example freshAirForOxygen(1, 1, 0.209) // 29.4
 *
 * @param release q [m3/s at room conditions]
 * @param mixing K, 1 or more
 * @param outside x_a, a share of 1
 * @param limit x_limit, a share of 1
 * @returns Q [m3/s]
 */
export function freshAirForOxygen(release: number, mixing: number, outside: number, limit?: number): number {
  requireAtLeast('release', release, 0, 'm3/s');
  requireAtLeast('mixing factor', mixing, 1);
  const list = new StepList(
    [
      given('q', 'oxygen let into the room, by volume', 'airflow'),
      given('K', 'air mixing factor', 'ratio'),
      given('x_a', 'fresh air oxygen', 'percent'),
      ...freshAirSteps(outside, limit),
    ],
    ['Q'],
  );
  return valueOf(list, { q: release, K: mixing, x_a: outside });
}
