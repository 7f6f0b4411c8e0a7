import { ATMOSPHERE, GAS_CONSTANT } from '../units/quantities.ts';
import type { Trace } from '../trace/trace.ts';
import { requireAbove, requireAtLeast } from './check.ts';
import { requireShare } from './room-oxygen.ts';

/** Molar mass of oxygen, O2 [kg/mol]: twice 15.999 (IUPAC 2021, abridged). */
const OXYGEN_MOLAR_MASS = 2 * 15.999e-3;

/**
 * Oxygen that the work lets into a room unburnt, as a volume at the room's own temperature and pressure.
 *
 *     q = [(1 - eta) m + m_leak] R T / (M p)
 *
 * Ideal gas: at room conditions oxygen departs from it by less than 0.1 percent. Step symbols expected before:
 * `m`, `eta`, `m_leak`, `T`.
 *
 * @param flow oxygen through the rod, m [kg/s]
 * @param burnt share of it that burns iron, eta, a share of 1
 * @param leak oxygen from leaks and open valves, m_leak [kg/s]
 * @param temperature of the room, T [K]
 * @param pressure of the room, p [Pa absolute]
 * @returns q [m3/s]
 */
export function oxygenRelease(flow: number, burnt: number, leak: number, temperature: number, pressure: number = ATMOSPHERE, trace?: Trace): number {
  requireAtLeast('flow', flow, 0, 'kg/s');
  requireShare('oxygen burnt share', burnt);
  requireAtLeast('leak', leak, 0, 'kg/s');
  requireAbove('temperature', temperature, 0, 'K');
  requireAbove('pressure', pressure, 0, 'Pa absolute');
  const mass = (1 - burnt) * flow + leak;
  const volume = (mass * GAS_CONSTANT * temperature) / (OXYGEN_MOLAR_MASS * pressure);
  trace?.add({ name: 'oxygen let into the room', symbol: 'm_free', value: mass, quantity: 'flow', formula: '(1 - oxygen burnt share) x flow + leaks', expression: '(1 - eta) * m + m_leak', kind: 'calculated', source: 'arithmetic' });
  trace?.add({
    name: 'oxygen let into the room, by volume', symbol: 'q', value: volume, quantity: 'airflow', formula: 'ideal gas at the room\'s temperature and pressure',
    expression: `m_free * ${GAS_CONSTANT} * T / (${OXYGEN_MOLAR_MASS} * ${pressure})`, kind: 'calculated', source: 'arithmetic',
  });
  return volume;
}
