import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { waterPressure } from './ambient-pressure.ts';
import { findRoot } from './find-root.ts';
import { hoseLoss, largestHoseFlow } from './hose-loss.ts';
import { isotherm } from './oxygen-state.ts';
import { hoseInForce, readOverOutlet } from './supply-in-force.ts';

/** Refuses a gauge setting [Pa] that cannot give the tip pressure of the assumptions, over the water [Pa] at the work. */
export function checkSetting(setting: number, water: number, a: Assumptions): void {
  const shown = (p: number): string => showQuantity(p, 'pressure', a.system);
  const tip = a.value('tip pressure');
  if (tip > 0 && setting < tip + water)
    throw messages.settingBelowTip(
      shown(setting),
      water > 0 ? `${shown(tip)} over the ${shown(water)} of the water` : shown(tip),
    );
  if (water > 0 && setting <= water) throw messages.settingBelowWater(shown(setting), shown(water));
}

/**
 * Pressure lost [Pa] in a hose at a flow [kg/s], from a gauge setting [Pa] at the regulator, read flowing or standing as assumed.
 *
 * Real gas at the gas temperature; see `hoseOutlet`. `#N/A` with the largest flow where that cannot pass into the air or the
 * water at the end. Steps `m`, `p_set`, `L_hose` and `d_hose` are recorded already.
 */
export function lossInForce(
  flow: number,
  setting: number,
  length: number,
  bore: number,
  { a }: Basis,
  trace?: Trace,
): number {
  const hose = hoseInForce(a, length, bore, trace);
  const air = a.record('air pressure', 'p_air', trace);
  const temperature = a.record('gas temperature', 'T_gas', trace);
  const water = waterPressure(a, a.value('water depth'));
  checkSetting(setting, water, a);
  const over = readOverOutlet(a, flow, trace);
  const outlet = setting - over;
  const lowest = water + air;
  const oxygen = isotherm(temperature);
  const found = outlet > water ? hoseLoss(hose, outlet + air, flow, oxygen, lowest) : undefined;
  if (!found?.passes) {
    // The outlet droops as the flow rises, so the largest flow is where both agree.
    const most = (f: number): number =>
      setting - (over * f) / flow > water
        ? largestHoseFlow(hose, setting - (over * f) / flow + air, oxygen, lowest).flow
        : 0;
    const largest = over === 0 ? most(0) : findRoot((f) => most(f) - f, 0, flow, 1e-9);
    const shown = (x: number, quantity: 'flow' | 'pressure'): string => showQuantity(x, quantity, a.system);
    throw messages.hoseCannotPass(shown(flow, 'flow'), shown(largest, 'flow'), shown(setting, 'pressure'));
  }
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
    "pressure at the regulator's outlet",
    'p_out',
    outlet,
    over === 0 ? 'regulator setting, read while oxygen flows' : 'regulator setting - droop',
    over === 0 ? 'p_set' : 'p_set - p_droop',
  );
  const end = outlet - found.loss;
  step(
    'pressure at the end of the hose',
    'p_hose',
    end,
    'isothermal flow with friction of the real gas through hose and fittings',
    'solve(p_out, m, L_hose, d_hose, K_hose, e_hose, p_air, T_gas)',
  );
  const loss = outlet - end;
  step(
    'pressure lost in the hose',
    'loss_hose',
    loss,
    'pressure at the outlet - pressure at the end',
    'p_out - p_hose',
  );
  return loss;
}
