import type { Trace } from '../model/trace.ts';
import { requireAtLeast, requireAtMost } from './check.ts';
import { gaugeDiameter, gaugeNumber } from './wire-gauge.ts';

/** Resistivity of annealed copper at 20 C [ohm m]: 1/58 ohm mm2/m (IACS). Source: NBS Handbook 100, 1.1a. */
const COPPER_20 = 1e-6 / 58;
/** Its change with temperature, on the value at 20 C [1/K]. Source: NBS Handbook 100, 1.1b. */
const COPPER_SLOPE = 0.00393;
const ROOM = 293.15;

/** Resistivity of annealed copper at T [K]: (1/58 ohm mm2/m) (1 + 0.00393 (T - 293.15)), from 173 to 473 K. [ohm m] */
export function copperResistivity(temperature: number): number {
  requireAtLeast('temperature', temperature, 173.15, 'K');
  requireAtMost('temperature', temperature, 473.15, 'K');
  return COPPER_20 * (1 + COPPER_SLOPE * (temperature - ROOM));
}

/**
 * Voltage lost in a copper lead.
 *
 *     V = I rho(T) s L / A,   A = pi d^2 / 4
 *
 * `length` is all the copper the current runs through, out and back; joints, clamps and the battery itself lose
 * more. Step symbols expected before: `I`, `L`, `T`, `s`.
 *
 * Source: ASTM B258 for d, NBS Handbook 100 for rho.
 *
 * @param current I [A]
 * @param length L, out and back together [m]
 * @param gauge American wire gauge, such as `2/0`
 * @param temperature of the copper, T [K], 173 to 473
 * @param lay s, length of a strand over the length of the cable, 1 for solid wire
 * @returns V [V]
 */
export function leadDrop(
  current: number,
  length: number,
  gauge: string,
  temperature: number,
  lay: number,
  trace?: Trace,
): number {
  requireAtLeast('amps', current, 0, 'A');
  requireAtLeast('length', length, 0, 'm');
  requireAtLeast('lay', lay, 1);
  const d = gaugeDiameter(gaugeNumber(gauge));
  const area = (Math.PI / 4) * d * d;
  const rho = copperResistivity(temperature);
  const volts = (current * rho * lay * length) / area;
  if (trace) {
    trace.add({
      name: `diameter of ${gauge.trim()} gauge as solid wire`,
      symbol: 'd',
      value: d,
      quantity: 'length',
      formula: '0.005 in x 92 to the power ((36 - gauge number) / 39)',
      kind: 'published',
      source: 'astm b258',
    });
    trace.add({
      name: 'copper across the lead',
      symbol: 'A',
      value: area,
      quantity: 'area',
      formula: 'pi / 4 x diameter squared',
      expression: 'PI / 4 * d * d',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'voltage lost',
      symbol: 'V',
      value: volts,
      quantity: 'voltage',
      formula: 'amps x resistivity of copper at its temperature x lay x length / copper across the lead',
      expression: `I * (${COPPER_20} * (1 + ${COPPER_SLOPE} * (T - ${ROOM}))) * s * L / A`,
      kind: 'calculated',
      source: 'nbs handbook 100',
    });
  }
  return volts;
}
