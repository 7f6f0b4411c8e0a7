import { assumed } from '../assumptions/assumed.ts';
import { calculated, solved, type Step } from '../model/step.ts';
import { isotherm } from './oxygen-state.ts';
import { leastSupply } from './regulator.ts';
import { droopRate } from './supply-in-force.ts';

/**
 * Gauge pressure `p_left` at which a cylinder is changed: the assumption `leftover pressure`, or more where the regulator needs
 * more to keep feeding a flow `m_feed` at the pressure `p_del` of its outlet.
 */
export const leftoverSteps: readonly Step[] = [
  assumed('p_low', 'leftover pressure'),
  assumed('p_air', 'air pressure'),
  assumed('T_gas', 'gas temperature'),
  ...droopRate,
  assumed('d_valve', 'regulator valve'),
  solved(
    'p_valve',
    'cylinder pressure that its open valve needs',
    'pressure',
    ['p_del', 'm_feed', 'd_valve', 'p_air', 'T_gas'],
    (delivery, flow, diameter, air, temperature) =>
      leastSupply({ valve: { diameter, dischargeCoefficient: 1 } }, delivery + air, flow, isotherm(temperature)) - air,
    "drives the flow through the regulator's valve, wide open",
    'orifice flow',
  ),
  calculated(
    'p_left',
    'pressure left in the cylinder',
    'pressure',
    'max(p_low, p_del + droop * m_feed / m_droop, p_valve)',
    'the largest of leftover pressure, delivery pressure + droop, and what the open valve needs',
  ),
];
