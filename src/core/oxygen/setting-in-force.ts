import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { PSI } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { waterPressure } from './ambient-pressure.ts';
import { hoseSetting } from './hose-setting.ts';
import { isotherm } from './oxygen-state.ts';
import { hoseInForce, readOverOutlet } from './supply-in-force.ts';

/** Highest regulator setting that counts, gauge [Pa]: far above what regulators and hoses for this work are made for. */
export const HIGHEST_SETTING = 1000 * PSI;

/** What a hose must deliver. SI, pressures gauge. */
export interface HoseDuty {
  /** Tip pressure over that of the water at the work, if any. Step `p`. */
  readonly tip: number;
  /** Step `m`. */
  readonly flow: number;
  /** Of the hose. */
  readonly length: number;
  readonly bore: number;
  /** Of the work under water. */
  readonly depth: number;
}

export interface Setting {
  /** What to set: as its gauge reads, flowing or standing as assumed. */
  readonly gauge: number;
  /** At its outlet while the oxygen flows. */
  readonly outlet: number;
}

/**
 * Gauge pressure [Pa] to set at the regulator for a tip pressure at the end of a hose: tip + water + hose loss, and the
 * regulator's droop where its setting is read standing.
 *
 * Real gas at the gas temperature; see `hoseSetting`. `#N/A` with the largest flow where the hose's end chokes or the setting
 * would be more than `HIGHEST_SETTING`.
 */
export function settingInForce({ tip, flow, length, bore, depth }: HoseDuty, { a }: Basis, trace?: Trace): Setting {
  trace?.add({
    name: 'hose length',
    symbol: 'L_hose',
    value: length,
    quantity: 'distance',
    formula: 'given or assumed',
    kind: 'input',
    source: '',
  });
  trace?.add({
    name: 'hose bore',
    symbol: 'd_hose',
    value: bore,
    quantity: 'length',
    formula: 'given or assumed',
    kind: 'input',
    source: '',
  });
  const hose = hoseInForce(a, length, bore, trace);
  const air = a.record('air pressure', 'p_air', trace);
  const temperature = a.record('gas temperature', 'T_gas', trace);
  trace?.add({
    name: 'depth of the work under water',
    symbol: 'h_water',
    value: depth,
    quantity: 'distance',
    formula: 'given or assumed',
    kind: 'input',
    source: '',
  });
  const water = waterPressure(a, depth, trace);
  const end = tip + water;
  const step = (name: string, symbol: string, value: number, formula: string, expression: string): void =>
    trace?.add({
      name,
      symbol,
      value,
      quantity: 'pressure',
      formula,
      expression,
      kind: 'calculated',
      source: expression.startsWith('solve(') ? 'isothermal pipe flow' : 'arithmetic',
    });
  step(
    'pressure at the end of the hose',
    'p_hose',
    end,
    'tip pressure + pressure of the water',
    depth === 0 ? 'p' : 'p + p_water',
  );
  const found = hoseSetting(hose, end + air, flow, isotherm(temperature), HIGHEST_SETTING + air);
  if (!found.passes) {
    const shown = (x: number, quantity: 'flow' | 'pressure'): string => showQuantity(x, quantity, a.system);
    const asked = [shown(flow, 'flow'), shown(found.largest, 'flow'), shown(end, 'pressure')] as const;
    throw found.chokes
      ? messages.hoseEndChokes(...asked)
      : messages.hoseNeedsTooMuch(...asked, shown(HIGHEST_SETTING, 'pressure'));
  }
  const outlet = found.setting - air;
  step(
    "pressure at the regulator's outlet",
    'p_out',
    outlet,
    'isothermal flow with friction of the real gas through hose and fittings, solved for the inlet',
    'solve(p_hose, m, L_hose, d_hose, K_hose, e_hose, p_air, T_gas)',
  );
  step(
    'pressure lost in the hose',
    'loss_hose',
    outlet - end,
    'pressure at the outlet - pressure at the end',
    'p_out - p_hose',
  );
  const over = readOverOutlet(a, flow, trace);
  const gauge = outlet + over;
  step(
    'regulator setting',
    'p_reg',
    gauge,
    over === 0 ? 'as at the outlet, read while oxygen flows' : 'pressure at the outlet + droop',
    over === 0 ? 'p_out' : 'p_out + p_droop',
  );
  return { gauge, outlet };
}
