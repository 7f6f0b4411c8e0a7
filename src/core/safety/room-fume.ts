import { requireAbove, requireAtLeast } from './check.ts';

/** A room in which fume collects; as RoomAir, without the oxygen. */
export interface FumeRoom {
  /** V [m3] */
  readonly volume: number;
  /** Q [m3/s] */
  readonly freshAir: number;
  /** K, 1 or more */
  readonly mixing: number;
}

export interface RoomFume {
  /** At the end of the task, which is the highest [kg/m3]. */
  readonly end: number;
  /** Average over the task [kg/m3]. */
  readonly average: number;
  /** Highest average over 15 minutes; a shorter task is spread over 15 minutes [kg/m3]. */
  readonly shortTerm: number;
  /** Average over 8 hours with nothing before and after the task [kg/m3]. */
  readonly eightHours: number;
}

const SHORT_TERM = 15 * 60;
const SHIFT = 8 * 3600;
/** Below it the series is exact to rounding and the closed form is not. */
const SMALL = 1e-3;

/** (1 - exp(-x)) / x */
const mean1 = (x: number): number => (x < SMALL ? 1 - x / 2 + (x * x) / 6 : -Math.expm1(-x) / x);
/** (1 - mean1(x)) / x */
const mean2 = (x: number): number => (x < SMALL ? 1 / 2 - x / 6 + (x * x) / 24 : (1 - mean1(x)) / x);

/**
 * Concentration of a fume in a well-mixed room that starts clean, while a steady source gives it off.
 *
 *     V dC/dt = G - (Q/K) C,   C(t) = (G t / V) (1 - exp(-x)) / x,   x = Q t / (K V)
 *     average over the task = (G t / V) (1 - (1 - exp(-x)) / x) / x
 *
 * The averages of part of the task follow from the same integral. It is the room's average: the plume over the work
 * holds far more, and nothing settles.
 *
 * Source: mass balance; averaging over 8 hours as in 29 CFR 1910.1000(d)(1)(i).
 *
 * @param release G [kg/s]
 * @param room see FumeRoom
 * @param time of the task, t [s]
 */
export function roomFume(release: number, room: FumeRoom, time: number): RoomFume {
  requireAtLeast('fume', release, 0, 'kg/s');
  requireAbove('volume', room.volume, 0, 'm3');
  requireAtLeast('fresh air', room.freshAir, 0, 'm3/s');
  requireAtLeast('mixing factor', room.mixing, 1);
  requireAtLeast('minutes', time, 0, 's');
  const rate = room.freshAir / (room.mixing * room.volume);
  const still = release / room.volume;
  const integral = (t: number): number => still * t * t * mean2(rate * t);
  const from = Math.max(0, time - SHORT_TERM);
  return {
    end: still * time * mean1(rate * time),
    average: still * time * mean2(rate * time),
    shortTerm: (integral(time) - integral(from)) / SHORT_TERM,
    eightHours: integral(time) / SHIFT,
  };
}
