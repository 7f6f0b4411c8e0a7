import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import * as messages from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { checkFill } from './check-fill.ts';
import { gaugeReading, FILL_TEMPERATURE } from './gauge-reading.ts';
import { checkOxygenRange, isotherm } from './oxygen-state.ts';

/**
 * Gauge pressure `p_full` of the cylinder as assumed, filled at 70 F to the assumed pressure and brought to the gas temperature.
 * Refuses a fill above what the cylinder is made for.
 */
export function fullCylinderSteps(a: Assumptions): readonly Step[] {
  return [
    assumed('V_cyl', 'cylinder volume'),
    assumed('p_fill', 'cylinder pressure'),
    assumed('p_rated', 'cylinder rating'),
    assumed('p_air', 'air pressure'),
    assumed('T_gas', 'gas temperature'),
    solved(
      'p_full',
      'pressure of the full cylinder at the gas temperature',
      'pressure',
      ['p_fill', 'T_gas', 'p_air', 'p_rated'],
      (fill, temperature, air, rating) => {
        checkFill('cylinder pressure', fill, FILL_TEMPERATURE, rating, FILL_TEMPERATURE, a);
        return gaugeReading('cylinder pressure', fill, temperature, air, a.system);
      },
      'same density as at the fill pressure and 70 F',
      'oxygen equation of state',
    ),
  ];
}

/** A full cylinder as assumed, standing at the gas temperature. */
export interface FullCylinder {
  /** Water volume [m3]. */
  readonly volume: number;
  /** Absolute [Pa], at `temperature` [K]. */
  readonly pressure: number;
  readonly temperature: number;
}

export function fullCylinder(a: Assumptions): FullCylinder {
  const list = new StepList(fullCylinderSteps(a), ['p_full', 'V_cyl']);
  const cylinder = new Evaluation(list, {}, a);
  return {
    volume: cylinder.number('V_cyl'),
    pressure: cylinder.number('p_full') + cylinder.number('p_air'),
    temperature: cylinder.number('T_gas'),
  };
}

function density(symbol: string, name: string, pressure: string): Step {
  return solved(
    symbol,
    name,
    'density',
    [pressure, 'p_air', 'T_gas'],
    (gauge, air, temperature) => {
      checkOxygenRange(temperature, gauge + air);
      return isotherm(temperature).density(gauge + air);
    },
    'of oxygen at this pressure and temperature',
    'oxygen equation of state',
    'published',
  );
}

/**
 * Oxygen `C_rest` that can be drawn slowly from a cylinder `V_cyl` at a gauge pressure, step `pressure`, down to `p_left`, all at
 * one temperature: V (rho(p) - rho(p_left)). `#VALUE!` where the cylinder holds less than is left.
 */
export function contentSteps(pressure: string, { system }: Assumptions): readonly Step[] {
  const shown = (p: number): string => showQuantity(p, 'pressure', system);
  return [
    density('rho_full', 'density of the oxygen in the cylinder', pressure),
    density('rho_left', 'density of the oxygen left in it', 'p_left'),
    calculated(
      'C_rest',
      'oxygen that can be drawn slowly',
      'oxygen',
      'V_cyl * (rho_full - rho_left)',
      'water volume x (density in the cylinder - density left)',
      {
        check: {
          // None at all may be left to draw.
          above: -Number.MIN_VALUE,
          otherwise: (_, of) =>
            messages.tooHigh('leftover pressure', shown(of('p_left')), `the cylinder's ${shown(of(pressure))}`),
        },
      },
    ),
  ];
}
