import { airDoesNotClear } from '../messages.ts';
import { calculated, entered, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { LIMITS, oxygenLimitStep } from './limits.ts';
import { requireRoom, requireShare, roomGiven, roomValues, type RoomAir } from './room-oxygen.ts';

/** A room whose valve is shut. */
export type ClosedRoom = Omit<RoomAir, 'release'>;

/**
 * Time to clear a room, `t`, and what it rests on besides `V`, `Q`, `K`, `x_a`, `x_0`. Throws where fresh air cannot bring it to
 * the limit.
 */
export function oxygenClearSteps(
  room: ClosedRoom,
  start: number,
  limit: number = LIMITS.oxygenHigh.value,
): readonly Step[] {
  requireRoom({ ...room, release: 0 });
  requireShare('start', start);
  requireShare('limit', limit);
  const name = 'time to clear';
  if (start <= limit)
    return [entered('t', name, 'time', 0, 'the room starts within the limit', 'calculated', 'arithmetic')];
  if (room.freshAir === 0 || limit <= room.outside) throw airDoesNotClear(limit, room.freshAir);
  return [
    oxygenLimitStep(limit),
    calculated(
      't',
      name,
      'time',
      'K * V / Q * ln((x_0 - x_a) / (x_limit - x_a))',
      'mixing factor x volume / fresh air x ln((start - fresh air oxygen) / (limit - fresh air oxygen))',
    ),
  ];
}

/**
 * Time for fresh air to bring an enriched room back to a share of oxygen once the release has stopped.
 *
 *     t = K V / Q ln[ (x_0 - x_a) / (x_limit - x_a) ]
 *
 * 0 where the start is within the limit. `#N/A` without fresh air, or where the limit is not above the oxygen of the fresh air.
 * Measure before anyone goes back; clothing stays enriched for longer than the room.
 *
 * Source: solved from the balance in room-oxygen.ts; limit 29 CFR 1910.146(b).
 * @example oxygenClearTime({ volume: 60, freshAir: 0.1, mixing: 3, outside: 0.209 }, 0.28) / 60 // 30.1
 *
 * @returns t [s]
 */
export function oxygenClearTime(room: ClosedRoom, start: number, limit?: number): number {
  const before = roomGiven.filter(({ symbol }) => symbol !== 'q');
  const list = new StepList(
    [...before, ...oxygenClearSteps(room, start, limit)],
    ['t', ...before.map((s) => s.symbol)],
  );
  return valueOf(list, roomValues({ ...room, release: 0 }, start));
}
