import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { requireAbove, requireAtLeast, requireAtMost } from './check.ts';

/** A room into which oxygen and fresh air flow. All flows at the room's own temperature and pressure. */
export interface RoomAir {
  /** V [m3] */
  readonly volume: number;
  /** Unburnt oxygen let into the room, q [m3/s]. */
  readonly release: number;
  /** Fresh air brought in, Q [m3/s]. */
  readonly freshAir: number;
  /** How far the fresh air falls short of good mixing, K: 1 mixes at once, 10 hardly. */
  readonly mixing: number;
  /** Oxygen in the fresh air, x_a, a share of 1. */
  readonly outside: number;
}

export function requireRoom(room: RoomAir): void {
  requireAbove('volume', room.volume, 0, 'm3');
  requireAtLeast('release', room.release, 0, 'm3/s');
  requireAtLeast('fresh air', room.freshAir, 0, 'm3/s');
  requireAtLeast('mixing factor', room.mixing, 1);
  requireAtLeast('oxygen in the fresh air', room.outside, 0);
  requireAtMost('oxygen in the fresh air', room.outside, 1);
}

export function requireShare(argument: string, share: number): void {
  requireAtLeast(argument, share, 0);
  requireAtMost(argument, share, 1);
}

/** What a room's air is worked out from, where all of it is given. */
export const roomGiven: readonly Step[] = [
  given('V', 'volume', 'volume'),
  given('Q', 'fresh air', 'airflow'),
  given('K', 'air mixing factor', 'ratio'),
  given('x_a', 'fresh air oxygen', 'percent'),
  given('q', 'oxygen let into the room, by volume', 'airflow'),
  given('x_0', 'oxygen at the start', 'percent'),
];

/** Values of these. */
export const roomValues = (room: RoomAir, start: number): Readonly<Record<string, number>> => ({
  V: room.volume,
  Q: room.freshAir,
  K: room.mixing,
  x_a: room.outside,
  q: room.release,
  x_0: start,
});

/** Fresh air that counts, `Q_K`, and the share of oxygen a room settles at, `x_s`. Steps before: `Q`, `K`, `q`, `x_a`. */
export const settledSteps: readonly Step[] = [
  calculated('Q_K', 'fresh air that counts', 'airflow', 'Q / K', 'fresh air / mixing factor', {
    source: 'acgih ventilation',
  }),
  calculated(
    'x_s',
    'oxygen the room settles at',
    'percent',
    '(q + x_a * Q_K) / (q + Q_K)',
    '(release + oxygen in the fresh air x fresh air that counts) / (release + fresh air that counts)',
  ),
];

const SETTLED = new StepList(
  [...roomGiven.filter(({ symbol }) => !['V', 'x_0'].includes(symbol)), ...settledSteps],
  ['x_s'],
);

/** Whether anything flows into a room, so that it settles at all. */
export const flowsIn = ({ release, freshAir }: Pick<RoomAir, 'release' | 'freshAir'>): boolean =>
  release > 0 || freshAir > 0;

/**
 * Share of oxygen a room settles at; undefined where nothing flows in.
 *
 *     x_s = (q + x_a Q/K) / (q + Q/K)
 *
 * @example settledOxygen({ volume: 60, release: 0.005, freshAir: 0.1, mixing: 1, outside: 0.209 }) // 0.2467
 */
export function settledOxygen(room: RoomAir): number | undefined {
  return flowsIn(room) ? valueOf(SETTLED, roomValues(room, 0)) : undefined;
}

/** Oxygen in a room after a time, `x`. Steps before: those of `roomGiven`, and `t`. */
export const roomOxygenSteps = (flows: boolean): readonly Step[] =>
  flows
    ? [
        ...settledSteps,
        // So written that what a slow leak into a large room adds does not drown in rounding.
        calculated(
          'x',
          'oxygen in the room',
          'percent',
          'x_0 + (x_s - x_0) * (1 - exp(-(q + Q_K) * t / V))',
          'start + (settled - start) x (1 - exp(-(release + fresh air that counts) x time / volume))',
        ),
      ]
    : [calculated('x', 'oxygen in the room', 'percent', 'x_0', 'start, since nothing flows in')];

/** Made where it is asked for: no function in a cell goes by it, so that a bundle leaves it out. */
const oxygenAfter = (): StepList =>
  new StepList([...roomGiven, given('t', 'minutes', 'time'), ...roomOxygenSteps(true)], ['x']);

/**
 * Share of oxygen in a well-mixed room after a time, while oxygen and fresh air flow in and mixed air flows out.
 *
 *     V dx/dt = q + x_a Q/K - (q + Q/K) x
 *     x(t) = x_0 + (x_s - x_0) (1 - exp(-(q + Q/K) t / V)),   x_s = (q + x_a Q/K) / (q + Q/K)
 *
 * Pressure and temperature of the room stay as they are, so as much flows out as comes in. The value is the
 * room's average: near the work, in corners and under clothing there is more. What people and fires use up is not
 * counted.
 *
 * Source: mass balance; mixing factor as in ACGIH, Industrial Ventilation, dilution ventilation.
 * @example roomOxygen({ volume: 60, release: 0.005, freshAir: 0.1, mixing: 1, outside: 0.209 }, 0.209, 600) // 0.2335
 *
 * @param room see RoomAir
 * @param start x_0, a share of 1
 * @param time t [s], not negative
 * @returns x(t), a share of 1
 */
export function roomOxygen(room: RoomAir, start: number, time: number): number {
  requireRoom(room);
  requireShare('start', start);
  requireAtLeast('minutes', time, 0, 's');
  return flowsIn(room) ? valueOf(oxygenAfter(), { ...roomValues(room, start), t: time }) : start;
}
