import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Trace } from '../model/trace.ts';
import { isotherm } from './oxygen-state.ts';
import { leastSupply, leftoverPressure } from './regulator.ts';
import { regulatorInForce } from './supply-in-force.ts';

/**
 * Gauge pressure [Pa] at which a cylinder is changed: the assumption `leftover pressure`, or more where the regulator needs
 * more to keep feeding (`leftoverPressure`).
 *
 * delivery: gauge pressure at the regulator's outlet [Pa] while a flow [kg/s] passes. Steps `p_del` and `m_feed` hold them.
 */
export function leftoverInForce(a: Assumptions, delivery: number, flow: number, trace?: Trace): number {
  const low = a.record('leftover pressure', 'p_low', trace);
  const air = a.value('air pressure');
  const regulator = regulatorInForce(a, delivery + air, 0, trace);
  const oxygen = isotherm(a.value('gas temperature'));
  const value = Math.max(low, leftoverPressure(regulator, delivery + air, flow, oxygen) - air);
  trace?.add({
    name: 'cylinder pressure that its open valve needs',
    symbol: 'p_valve',
    value: leastSupply(regulator, delivery + air, flow, oxygen) - air,
    quantity: 'pressure',
    formula: "drives the flow through the regulator's valve, wide open",
    expression: 'solve(p_del, m_feed, droop, m_droop, rise_reg, d_valve, p_air, T_gas)',
    kind: 'calculated',
    source: 'orifice flow',
  });
  trace?.add({
    name: 'pressure left in the cylinder',
    symbol: 'p_left',
    value,
    quantity: 'pressure',
    formula: 'the largest of leftover pressure, delivery pressure + droop, and what the open valve needs',
    expression: 'max(p_low, p_del + droop * m_feed / m_droop, p_valve)',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return value;
}
