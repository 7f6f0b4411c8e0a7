import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf, work, type Working } from '../model/working.ts';
import { requireAtLeast, requireAtMost } from './check.ts';
import { gaugeDiameter, gaugeNumber } from './wire-gauge.ts';

const HANDBOOK = 'nbs handbook 100';

/** Resistivity of annealed copper, `rho`. Step before: `T`. Source: NBS Handbook 100, 1.1a and 1.1b. */
const resistivitySteps: readonly Step[] = [
  entered(
    'rho_20',
    'resistivity of annealed copper at 20 C',
    'resistivity',
    1e-6 / 58,
    'a 58th of an ohm for a square millimetre and a metre (IACS)',
    'published',
    HANDBOOK,
  ),
  entered(
    'T_double',
    'rise from 20 C that doubles it',
    'temperatureDifference',
    1 / 0.00393,
    'one over its change with temperature, 0.00393 for a kelvin',
    'published',
    HANDBOOK,
  ),
  entered('T_20', 'temperature of the handbook', 'temperature', 293.15, '20 C', 'published', HANDBOOK),
  calculated(
    'rho',
    'resistivity of the copper',
    'resistivity',
    'rho_20 * (1 + (T - T_20) / T_double)',
    'resistivity at 20 C x (1 + (temperature - 20 C) / rise that doubles it)',
    { source: HANDBOOK },
  ),
];

/** Made where it is asked for: no function in a cell goes by it, so that a bundle leaves it out. */
const resistivityAlone = (): StepList =>
  new StepList([given('T', 'temperature', 'temperature'), ...resistivitySteps], ['rho']);

function requireCopper(temperature: number): void {
  requireAtLeast('temperature', temperature, 173.15, 'K');
  requireAtMost('temperature', temperature, 473.15, 'K');
}

/**
 * Resistivity of annealed copper: (1/58 ohm mm2/m) (1 + 0.00393 (T - 293.15)).
 *
 * T [K], 173 to 473; result [ohm m]. Source: NBS Handbook 100, 1.1a and 1.1b.
 * @example copperResistivity(293.15) * 1e8 // 1.7241
 */
export function copperResistivity(temperature: number): number {
  requireCopper(temperature);
  return valueOf(resistivityAlone(), { T: temperature });
}

/** Voltage lost, `V`. Steps before: `I`, `L`, `T`, `s`. */
function dropSteps(gauge: string): readonly Step[] {
  return [
    entered(
      'd',
      `diameter of ${gauge.trim()} gauge as solid wire`,
      'length',
      gaugeDiameter(gaugeNumber(gauge)),
      '0.005 in x 92 to the power ((36 - gauge number) / 39)',
      'published',
      'astm b258',
    ),
    calculated('A', 'copper across the lead', 'area', 'PI / 4 * d ^ 2', 'pi / 4 x diameter squared'),
    ...resistivitySteps,
    calculated(
      'V',
      'voltage lost',
      'voltage',
      'I * rho * s * L / A',
      'amps x resistivity of the copper x lay x length / copper across the lead',
      { source: HANDBOOK },
    ),
  ];
}

const leadGiven: readonly Step[] = [given('I', 'amps', 'current'), given('L', 'length', 'distance')];

/**
 * Voltage lost in a copper lead.
 *
 *     V = I rho(T) s L / A,   A = pi d^2 / 4
 *
 * `length` is all the copper the current runs through, out and back; joints, clamps and the battery itself lose more.
 *
 * Source: ASTM B258 for d, NBS Handbook 100 for rho.
 * @example leadDrop(150, 100 * FOOT, '2/0', 293.15, 1) // 1.17
 *
 * @param current I [A]
 * @param length L, out and back together [m]
 * @param gauge American wire gauge, such as `2/0`
 * @param temperature of the copper, T [K], 173 to 473
 * @param lay s, length of a strand over the length of the cable, 1 for solid wire
 * @returns V [V]
 */
export function leadDrop(current: number, length: number, gauge: string, temperature: number, lay: number): number {
  requireLead(current, length, temperature, lay);
  const list = new StepList(
    [...leadGiven, given('T', 'lead temperature', 'temperature'), given('s', 'lead lay', 'ratio'), ...dropSteps(gauge)],
    ['V'],
  );
  return valueOf(list, { I: current, L: length, T: temperature, s: lay });
}

function requireLead(current: number, length: number, temperature: number, lay: number): void {
  requireAtLeast('amps', current, 0, 'A');
  requireAtLeast('length', length, 0, 'm');
  requireAtLeast('lay', lay, 1);
  requireCopper(temperature);
}

/**
 * `leadDrop` at the temperature and with the lay in force: step `V`.
 *
 * @example leadDropInForce(150, 100 * FOOT, '2/0', basis.a).value // 1.3
 */
export function leadDropInForce(current: number, length: number, gauge: string, a: Assumptions): Working {
  requireLead(current, length, a.value('lead temperature'), a.value('lead lay'));
  const list = new StepList(
    [...leadGiven, assumed('T', 'lead temperature'), assumed('s', 'lead lay'), ...dropSteps(gauge)],
    ['V'],
  );
  return work(list, { I: current, L: length }, a);
}
