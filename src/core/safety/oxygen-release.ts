import type { Assumptions } from '../assumptions/assumptions.ts';
import { numberAssumption, type NumberName } from '../assumptions/registry.ts';
import { calculated, decidedBy, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { CUBIC_FOOT, PSI, SCF } from '../units/quantities.ts';
import { requireAbove, requireAtLeast } from './check.ts';
import { requireShare } from './room-oxygen.ts';

/** Where a standard cubic foot is a cubic foot: 70 F and 14.696 psia. Convention of the US compressed-gas trade. */
export const STANDARD_STATE = { temperature: ((70 + 459.67) * 5) / 9, pressure: 14.696 * PSI } as const;

const standard = (
  symbol: string,
  name: string,
  quantity: 'density' | 'temperature' | 'pressure',
  value: number,
): Step => entered(symbol, name, quantity, value, 'of the US compressed-gas trade', 'convention', 'common practice');

/** Volume that oxygen takes up in a room, `q`. Steps before: `m_free`, `T`, `p_air`. */
export const oxygenVolumeSteps: readonly Step[] = [
  standard('rho_s', 'oxygen in a standard volume', 'density', SCF / CUBIC_FOOT),
  standard('T_s', 'standard temperature', 'temperature', STANDARD_STATE.temperature),
  standard('p_s', 'standard pressure, absolute', 'pressure', STANDARD_STATE.pressure),
  calculated(
    'q',
    'oxygen let into the room, by volume',
    'airflow',
    'm_free / rho_s * (T / T_s) * (p_s / p_air)',
    'standard volume x temperature / 70 F x 14.696 psia / air pressure, both absolute',
  ),
];

const VOLUME = new StepList(
  [
    given('m_free', 'oxygen let into the room', 'flow'),
    given('T', 'room temperature', 'temperature'),
    given('p_air', 'air pressure', 'pressure'),
    ...oxygenVolumeSteps,
  ],
  ['q'],
);

/**
 * Volume that an oxygen flow takes up at a room's temperature and pressure.
 *
 *     q = m / rho_s x (T / T_s) x (p_s / p)
 *
 * rho_s is the density at 70 F and 14.696 psia, so that 1 scfm is 1 cfm there. From there to the room oxygen follows
 * the gas law within 0.05 percent (-8 to 43 C, down to 0.8 atm).
 * @example oxygenByVolume(SCF, STANDARD_STATE.temperature, STANDARD_STATE.pressure) / CUBIC_FOOT // 1.000
 *
 * @param flow m [kg/s]
 * @param temperature of the room, T [K]
 * @param pressure of the room, p [Pa absolute]
 * @returns q [m3/s]
 */
export function oxygenByVolume(flow: number, temperature: number, pressure: number): number {
  requireAtLeast('release', flow, 0, 'kg/s');
  requireAbove('room temperature', temperature, 0, 'K');
  requireAbove('air pressure', pressure, 0, 'Pa absolute');
  return valueOf(VOLUME, { m_free: flow, T: temperature, p_air: pressure });
}

/**
 * Share of the oxygen that burns, step `eta`: the low of what is in force of an assumption. Of a room's air the dangerous error is
 * to count too little of the oxygen that does not burn, so that the least that may burn is taken, not the middle.
 */
export function leastBurntStep(burnt: NumberName, a: Assumptions): Step {
  const { low, kind, source } = a.inForce(burnt);
  return decidedBy(
    entered(
      'eta',
      `${burnt}, low`,
      numberAssumption(burnt).quantity,
      low,
      'the low of its range, which is the safe side: what does not burn enriches the air',
      kind,
      source,
    ),
    burnt,
  );
}

/** Oxygen that the work lets into a room, `m_free`. Steps before: `m`, `eta`, `m_leak`. */
export const oxygenReleaseStep: Step = calculated(
  'm_free',
  'oxygen let into the room',
  'flow',
  '(1 - eta) * m + m_leak',
  '(1 - oxygen burnt share) x flow + leaks',
);

const RELEASE = new StepList(
  [
    given('m', 'flow', 'flow'),
    given('eta', 'oxygen burnt share', 'percent'),
    given('m_leak', 'leak flow', 'flow'),
    oxygenReleaseStep,
  ],
  ['m_free'],
);

/**
 * Oxygen that the work lets into a room: what the rod leaves unburnt, and leaks.
 *
 *     m_free = (1 - eta) m + m_leak
 *
 * @example oxygenRelease(8, 0.25, 0.5) // 6.5
 *
 * @param flow oxygen through the rod, m [kg/s]
 * @param burnt share of it that burns iron, eta, a share of 1
 * @param leak oxygen from leaks and open valves, m_leak [kg/s]
 * @returns m_free [kg/s]
 */
export function oxygenRelease(flow: number, burnt: number, leak: number): number {
  requireAtLeast('flow', flow, 0, 'kg/s');
  requireShare('oxygen burnt share', burnt);
  requireAtLeast('leak flow', leak, 0, 'kg/s');
  return valueOf(RELEASE, { m: flow, eta: burnt, m_leak: leak });
}
