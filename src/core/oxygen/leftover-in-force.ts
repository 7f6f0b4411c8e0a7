import { assumed } from '../assumptions/assumed.ts';
import { calculated, solved, type Step } from '../model/step.ts';
import { isotherm } from './oxygen-state.ts';
import { leastSupply } from './regulator.ts';
import { droopRate } from './supply-in-force.ts';

/**
 * Gauge pressure `p_left` at which a cylinder is changed: the assumption `leftover pressure`, or more where the regulator needs
 * more to keep feeding a flow `m_feed` at the pressure `p_del` of its outlet. After `p_air` and the gas temperature there.
 */
export function leftoverSteps(temperature = 'T_gas'): readonly Step[] {
  return [
    assumed('p_low', 'leftover pressure'),
    ...droopRate,
    assumed('d_valve', 'regulator valve'),
    solved(
      'p_valve',
      'cylinder pressure that its open valve needs',
      'pressure',
      ['p_del', 'm_feed', 'd_valve', 'p_air', temperature],
      (delivery, flow, diameter, air, at) =>
        leastSupply({ valve: { diameter, dischargeCoefficient: 1 } }, delivery + air, flow, isotherm(at)) - air,
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
}
