import type { Trace } from '../model/trace.ts';
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

/** Fresh air that counts, Q/K [m3/s]. */
export const usefulAir = (room: RoomAir): number => room.freshAir / room.mixing;

/** Rate at which the room forgets its start, (Q/K + q)/V [1/s]. */
export const airRate = (room: RoomAir): number => (usefulAir(room) + room.release) / room.volume;

/** Share of oxygen a room settles at, (q + x_a Q/K)/(q + Q/K); undefined where nothing flows in. */
export function settledOxygen(room: RoomAir): number | undefined {
  const inflow = usefulAir(room) + room.release;
  return inflow === 0 ? undefined : (room.release + room.outside * usefulAir(room)) / inflow;
}

/**
 * Share of oxygen in a well-mixed room after a time, while oxygen and fresh air flow in and mixed air flows out.
 *
 *     V dx/dt = q + x_a Q/K - (q + Q/K) x
 *     x(t) = x_s + (x_0 - x_s) exp(-(q + Q/K) t / V),   x_s = (q + x_a Q/K) / (q + Q/K)
 *
 * Pressure and temperature of the room stay as they are, so as much flows out as comes in. The value is the
 * room's average: near the work, in corners and under clothing there is more. What people and fires use up is not
 * counted. Step symbols expected before: `V`, `q`, `Q`, `K`, `x_a`, `x_0`, `t`.
 *
 * Source: mass balance; mixing factor as in ACGIH, Industrial Ventilation, dilution ventilation.
 *
 * @param room see RoomAir
 * @param start x_0, a share of 1
 * @param time t [s], not negative
 * @returns x(t), a share of 1
 */
export function roomOxygen(room: RoomAir, start: number, time: number, trace?: Trace): number {
  requireRoom(room);
  requireShare('start', start);
  requireAtLeast('minutes', time, 0, 's');
  const settled = settledOxygen(room);
  // expm1 keeps what a slow leak into a large room adds from drowning in rounding.
  const x = settled === undefined ? start : start + (start - settled) * Math.expm1(-airRate(room) * time);
  if (settled === undefined) {
    trace?.add({
      name: 'oxygen in the room',
      symbol: 'x',
      value: x,
      quantity: 'percent',
      formula: 'start, since nothing flows in',
      expression: 'x_0',
      kind: 'calculated',
      source: 'arithmetic',
    });
  } else if (trace) {
    trace.add({
      name: 'fresh air that counts',
      symbol: 'Q_K',
      value: usefulAir(room),
      quantity: 'airflow',
      formula: 'fresh air / mixing factor',
      expression: 'Q / K',
      kind: 'calculated',
      source: 'acgih ventilation',
    });
    trace.add({
      name: 'oxygen the room settles at',
      symbol: 'x_s',
      value: settled,
      quantity: 'percent',
      formula: '(release + oxygen in the fresh air x fresh air that counts) / (release + fresh air that counts)',
      expression: '(q + x_a * Q_K) / (q + Q_K)',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'oxygen in the room',
      symbol: 'x',
      value: x,
      quantity: 'percent',
      formula: 'settled + (start - settled) x exp(-(release + fresh air that counts) x time / volume)',
      expression: 'x_s + (x_0 - x_s) * exp(-(q + Q_K) * t / V)',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return x;
}
