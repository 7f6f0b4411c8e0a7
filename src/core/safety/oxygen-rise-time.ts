import { mustBeLess, oxygenLevelsOff, shown } from '../messages.ts';
import { calculated, entered, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { LIMITS, oxygenLimitStep } from './limits.ts';
import {
  requireRoom,
  requireShare,
  roomGiven,
  roomValues,
  settledOxygen,
  settledSteps,
  type RoomAir,
} from './room-oxygen.ts';

/**
 * Time until a room reaches a share of oxygen, `t`, for a room that does, and what it rests on besides the steps of `roomGiven`.
 * Throws where the room levels off below.
 */
export function oxygenRiseSteps(
  room: RoomAir,
  start: number,
  limit: number = LIMITS.oxygenHigh.value,
): readonly Step[] {
  requireRoom(room);
  requireShare('start', start);
  requireShare('limit', limit);
  if (limit >= 1) throw mustBeLess('limit', shown(limit), '1');
  const name = 'time until the limit';
  if (start >= limit)
    return [entered('t', name, 'time', 0, 'the room starts at the limit or above it', 'calculated', 'arithmetic')];
  const settled = settledOxygen(room);
  if (settled === undefined || settled <= limit) throw oxygenLevelsOff(settled ?? start, limit);
  return [
    ...settledSteps,
    oxygenLimitStep(limit),
    calculated(
      't',
      name,
      'time',
      'V / (q + Q_K) * ln((x_s - x_0) / (x_s - x_limit))',
      'volume / (release + fresh air that counts) x ln((settled - start) / (settled - limit))',
    ),
  ];
}

/**
 * Time until the average of a well-mixed room reaches a share of oxygen, 23.5 percent unless another is given.
 *
 *     t = V / (q + Q/K) ln[ (x_s - x_0) / (x_s - x_limit) ]
 *
 * 0 where the start is there already. `#N/A` where the room levels off below the limit; that is a statement about
 * the average only.
 *
 * Source: solved from the balance in room-oxygen.ts; limit 29 CFR 1910.146(b).
 * @example oxygenRiseTime({ volume: 60, release: 0.005, freshAir: 0.1, mixing: 1, outside: 0.209 }, 0.209) / 60 // 11.2
 *
 * @param room see RoomAir
 * @param start x_0, a share of 1
 * @param limit x_limit, a share of 1
 * @returns t [s]
 */
export function oxygenRiseTime(room: RoomAir, start: number, limit?: number): number {
  const list = new StepList(
    [...roomGiven, ...oxygenRiseSteps(room, start, limit)],
    ['t', ...roomGiven.map((s) => s.symbol)],
  );
  return valueOf(list, roomValues(room, start));
}
