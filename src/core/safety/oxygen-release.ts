import { CUBIC_FOOT, PSI, SCF } from '../units/quantities.ts';
import type { Trace } from '../model/trace.ts';
import { requireAbove, requireAtLeast } from './check.ts';
import { requireShare } from './room-oxygen.ts';

/** Where a standard cubic foot is a cubic foot: 70 F and 14.696 psia. Convention of the US compressed-gas trade. */
export const STANDARD_STATE = { temperature: ((70 + 459.67) * 5) / 9, pressure: 14.696 * PSI } as const;

/**
 * Volume that an oxygen flow takes up at a room's temperature and pressure.
 *
 *     q = m / rho_s x (T / T_s) x (p_s / p)
 *
 * rho_s is the density at 70 F and 14.696 psia, so that 1 scfm is 1 cfm there. From there to the room oxygen follows
 * the gas law within 0.05 percent (-8 to 43 C, down to 0.8 atm). Step symbols expected before: `m_free`, `T`, `p_air`.
 *
 * @param flow m [kg/s]
 * @param temperature of the room, T [K]
 * @param pressure of the room, p [Pa absolute]
 * @returns q [m3/s]
 */
export function oxygenByVolume(flow: number, temperature: number, pressure: number, trace?: Trace): number {
  requireAtLeast('release', flow, 0, 'kg/s');
  requireAbove('room temperature', temperature, 0, 'K');
  requireAbove('air pressure', pressure, 0, 'Pa absolute');
  const { temperature: T, pressure: p } = STANDARD_STATE;
  const volume = (flow / (SCF / CUBIC_FOOT)) * (temperature / T) * (p / pressure);
  trace?.add({
    name: 'oxygen let into the room, by volume',
    symbol: 'q',
    value: volume,
    quantity: 'airflow',
    formula: 'standard volume x temperature / 70 F x 14.696 psia / air pressure, both absolute',
    expression: `m_free / ${SCF / CUBIC_FOOT} * (T / ${T}) * (${p} / p_air)`,
    kind: 'calculated',
    source: 'arithmetic',
  });
  return volume;
}

/**
 * Oxygen that the work lets into a room: what the rod leaves unburnt, and leaks.
 *
 *     m_free = (1 - eta) m + m_leak
 *
 * Step symbols expected before: `m`, `eta`, `m_leak`.
 *
 * @param flow oxygen through the rod, m [kg/s]
 * @param burnt share of it that burns iron, eta, a share of 1
 * @param leak oxygen from leaks and open valves, m_leak [kg/s]
 * @returns m_free [kg/s]
 */
export function oxygenRelease(flow: number, burnt: number, leak: number, trace?: Trace): number {
  requireAtLeast('flow', flow, 0, 'kg/s');
  requireShare('oxygen burnt share', burnt);
  requireAtLeast('leak flow', leak, 0, 'kg/s');
  const release = (1 - burnt) * flow + leak;
  trace?.add({
    name: 'oxygen let into the room',
    symbol: 'm_free',
    value: release,
    quantity: 'flow',
    formula: '(1 - oxygen burnt share) x flow + leaks',
    expression: '(1 - eta) * m + m_leak',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return release;
}
