import { airDoesNotClear } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { LIMITS, recordOxygenLimit } from './limits.ts';
import { airRate, requireRoom, requireShare, type RoomAir } from './room-oxygen.ts';

/**
 * Time for fresh air to bring an enriched room back to a share of oxygen once the release has stopped.
 *
 *     t = K V / Q ln[ (x_0 - x_a) / (x_limit - x_a) ]
 *
 * The release of `room` is left out: the valve is shut. 0 where the start is within the limit. `#N/A` without fresh
 * air, or where the limit is not above the oxygen of the fresh air. Step symbols expected before: `V`, `Q`, `K`,
 * `x_a`, `x_0`. Measure before anyone goes back; clothing stays enriched for longer than the room.
 *
 * Source: solved from the balance in room-oxygen.ts; limit 29 CFR 1910.146(b).
 *
 * @returns t [s]
 */
export function oxygenClearTime(
  room: RoomAir,
  start: number,
  limit: number = LIMITS.oxygenHigh.value,
  trace?: Trace,
): number {
  const closed: RoomAir = { ...room, release: 0 };
  requireRoom(closed);
  requireShare('start', start);
  requireShare('limit', limit);
  if (start <= limit) {
    trace?.add({
      name: 'time to clear',
      symbol: 't',
      value: 0,
      quantity: 'time',
      formula: 'the room starts within the limit',
      kind: 'calculated',
      source: 'arithmetic',
    });
    return 0;
  }
  if (closed.freshAir === 0 || limit <= closed.outside) throw airDoesNotClear(limit, closed.freshAir);
  const time = Math.log((start - closed.outside) / (limit - closed.outside)) / airRate(closed);
  recordOxygenLimit(limit, trace);
  trace?.add({
    name: 'time to clear',
    symbol: 't',
    value: time,
    quantity: 'time',
    formula: 'mixing factor x volume / fresh air x ln((start - fresh air oxygen) / (limit - fresh air oxygen))',
    expression: 'K * V / Q * log((x_0 - x_a) / (x_limit - x_a))',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return time;
}
