import type { Assumptions } from '../assumptions/assumptions.ts';
import * as messages from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { checkFill } from './check-fill.ts';
import { drawnTo } from './cylinder-content.ts';
import { gaugeReading, FILL_TEMPERATURE } from './gauge-reading.ts';
import { isotherm } from './oxygen-state.ts';

/** A full cylinder as assumed, standing at the gas temperature. */
export interface FullCylinder {
  /** Water volume [m3]. */
  readonly volume: number;
  /** Absolute [Pa], at `temperature` [K]. */
  readonly pressure: number;
  readonly temperature: number;
}

/** The cylinder as assumed, filled at 70 F to the assumed pressure and brought to the gas temperature; records its steps. */
export function fullCylinder(a: Assumptions, trace?: Trace): FullCylinder {
  const volume = a.record('cylinder volume', 'V_cyl', trace);
  const fill = a.record('cylinder pressure', 'p_fill', trace);
  const air = a.record('air pressure', 'p_air', trace);
  const temperature = a.record('gas temperature', 'T_gas', trace);
  checkFill('cylinder pressure', fill, FILL_TEMPERATURE, a.value('cylinder rating'), FILL_TEMPERATURE, a);
  const reading = gaugeReading('cylinder pressure', fill, temperature, air, a.system);
  trace?.add({
    name: 'pressure of the full cylinder at the gas temperature',
    symbol: 'p_full',
    value: reading,
    quantity: 'pressure',
    formula: 'same density as at the fill pressure and 70 F',
    expression: 'solve(p_fill, T_gas, p_air)',
    kind: 'calculated',
    source: 'oxygen equation of state',
  });
  return { volume, pressure: reading + air, temperature };
}

/**
 * Oxygen [kg] that can be drawn slowly from a cylinder down to a gauge pressure [Pa]: V (rho(p) - rho(p_left)).
 *
 * Steps `V_cyl`, `p_left` and `rho_full` hold what the formula asks for. `#VALUE!` where the cylinder holds less than is left.
 */
export function contentAtRest(cylinder: FullCylinder, leftover: number, a: Assumptions, trace?: Trace): number {
  const { volume, pressure, temperature } = cylinder;
  const air = a.value('air pressure');
  checkLeftover(leftover, pressure - air, a);
  const value = drawnTo(volume, pressure, temperature, leftover + air);
  if (trace) {
    const oxygen = isotherm(temperature);
    const density = (name: string, symbol: string, p: number): void =>
      trace.add({
        name,
        symbol,
        value: oxygen.density(p),
        quantity: 'density',
        formula: 'of oxygen at this pressure and temperature',
        kind: 'published',
        source: 'oxygen equation of state',
      });
    density('density of the oxygen in the cylinder', 'rho_full', pressure);
    density('density of the oxygen left in it', 'rho_left', leftover + air);
    trace.add({
      name: 'oxygen that can be drawn slowly',
      symbol: 'C_rest',
      value,
      quantity: 'oxygen',
      formula: 'water volume x (density in the cylinder - density left)',
      expression: 'V_cyl * (rho_full - rho_left)',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return value;
}

/** Refuses a leftover above what the cylinder shows; both gauge [Pa]. */
function checkLeftover(leftover: number, pressure: number, { system }: Assumptions): void {
  if (leftover > pressure)
    throw messages.tooHigh(
      'leftover pressure',
      showQuantity(leftover, 'pressure', system),
      `the cylinder's ${showQuantity(pressure, 'pressure', system)}`,
    );
}
