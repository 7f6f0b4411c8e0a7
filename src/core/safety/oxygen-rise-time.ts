import { mustBeLess, oxygenLevelsOff, shown } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { LIMITS, recordOxygenLimit } from './limits.ts';
import { airRate, requireRoom, requireShare, settledOxygen, type RoomAir } from './room-oxygen.ts';

/**
 * Time until the average of a well-mixed room reaches a share of oxygen, 23.5 percent unless another is given.
 *
 *     t = V / (q + Q/K) ln[ (x_s - x_0) / (x_s - x_limit) ]
 *
 * 0 where the start is there already. `#N/A` where the room levels off below the limit; that is a statement about
 * the average only. Step symbols expected before: `V`, `q`, `Q`, `K`, `x_a`, `x_0`.
 *
 * Source: solved from the balance in room-oxygen.ts; limit 29 CFR 1910.146(b).
 *
 * @param room see RoomAir
 * @param start x_0, a share of 1
 * @param limit x_limit, a share of 1
 * @returns t [s]
 */
export function oxygenRiseTime(
  room: RoomAir,
  start: number,
  limit: number = LIMITS.oxygenHigh.value,
  trace?: Trace,
): number {
  requireRoom(room);
  requireShare('start', start);
  requireShare('limit', limit);
  if (limit >= 1) throw mustBeLess('limit', shown(limit), '1');
  if (start >= limit) {
    trace?.add({
      name: 'time until the limit',
      symbol: 't',
      value: 0,
      quantity: 'time',
      formula: 'the room starts at the limit or above it',
      kind: 'calculated',
      source: 'arithmetic',
    });
    return 0;
  }
  const settled = settledOxygen(room);
  if (settled === undefined || settled <= limit) throw oxygenLevelsOff(settled ?? start, limit);
  const time = Math.log((settled - start) / (settled - limit)) / airRate(room);
  trace?.add({
    name: 'oxygen the room settles at',
    symbol: 'x_s',
    value: settled,
    quantity: 'percent',
    formula: '(release + oxygen in the fresh air x fresh air / mixing factor) / (release + fresh air / mixing factor)',
    expression: '(q + x_a * Q / K) / (q + Q / K)',
    kind: 'calculated',
    source: 'arithmetic',
  });
  recordOxygenLimit(limit, trace);
  trace?.add({
    name: 'time until the limit',
    symbol: 't',
    value: time,
    quantity: 'time',
    formula: 'volume / (release + fresh air / mixing factor) x ln((settled - start) / (settled - limit))',
    expression: 'V / (q + Q / K) * log((x_s - x_0) / (x_s - x_limit))',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return time;
}
