import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import { calculated, decidedBy, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import type { QuantityName } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { waterPressure, waterSteps } from './ambient-pressure.ts';
import { findRoot } from './find-root.ts';
import { hoseLoss, largestHoseFlow, type Hose } from './hose-loss.ts';
import { isotherm } from './oxygen-state.ts';
import { droopSteps, hoseSteps } from './supply-in-force.ts';

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
 * water at the end. Source: as `passageFlow`.
 *
 * @param length of the hose [m]
 * @param bore of the hose [m]
 * @example lossInForce((20 * SCF) / 60, 90 * PSI, 50 * FOOT, (3 / 8) * INCH, basis).value / PSI // 7.379
 */
export function lossInForce(flow: number, setting: number, length: number, bore: number, { a, once }: Basis): Working {
  checkSetting(setting, waterPressure(a, a.value('water depth')), a);
  const list = once('hose loss', () => lossList(a));
  return work(list, { m: flow, p_set: setting, L_hose: length, d_hose: bore }, a);
}

function lossList(a: Assumptions): StepList {
  const wet = a.value('water depth') > 0;
  const droops = droopSteps(a, 'm');
  const steps: readonly Step[] = [
    given('m', 'flow', 'flow'),
    given('p_set', 'regulator setting', 'pressure'),
    given('L_hose', 'hose length', 'distance'),
    given('d_hose', 'hose bore', 'length'),
    ...hoseSteps,
    assumed('p_air', 'air pressure'),
    assumed('T_gas', 'gas temperature'),
    ...(wet ? [assumed('h_water', 'water depth'), ...waterSteps(a)] : []),
    ...droops,
    decidedBy(
      calculated(
        'p_out',
        "pressure at the regulator's outlet",
        'pressure',
        droops.length > 0 ? 'p_set - p_droop' : 'p_set',
        droops.length > 0 ? 'regulator setting - droop' : 'regulator setting, read while oxygen flows',
      ),
      'regulator set',
    ),
    decidedBy(
      solved(
        'p_hose',
        'pressure at the end of the hose',
        'pressure',
        ['p_out', 'p_set', 'm', 'L_hose', 'd_hose', 'K_hose', 'e_hose', 'p_air', 'T_gas', ...(wet ? ['p_water'] : [])],
        (outlet, setting, flow, length, bore, loss, roughness, air, temperature, water = 0) =>
          outlet - lost({ length, bore, loss, roughness }, { outlet, setting, flow, air, temperature, water }, a),
        'isothermal flow with friction of the real gas through hose and fittings',
        'isothermal pipe flow',
      ),
      'water depth',
    ),
    calculated(
      'loss_hose',
      'pressure lost in the hose',
      'pressure',
      'p_out - p_hose',
      'pressure at the outlet - pressure at the end',
    ),
  ];
  return new StepList(steps, ['loss_hose']);
}

/** Flow through a hose; SI, pressures gauge but for the air's. */
interface HoseFlow {
  readonly outlet: number;
  readonly setting: number;
  readonly flow: number;
  readonly air: number;
  readonly temperature: number;
  readonly water: number;
}

function lost(
  hose: Hose,
  { outlet, setting, flow, air, temperature, water }: HoseFlow,
  { system }: Assumptions,
): number {
  const lowest = water + air;
  const oxygen = isotherm(temperature);
  const found = outlet > water ? hoseLoss(hose, outlet + air, flow, oxygen, lowest) : undefined;
  if (found?.passes) return found.loss;
  // The outlet droops as the flow rises, so the largest flow is where both agree.
  const over = setting - outlet;
  const most = (f: number): number =>
    setting - (over * f) / flow > water
      ? largestHoseFlow(hose, setting - (over * f) / flow + air, oxygen, lowest).flow
      : 0;
  const largest = over === 0 ? most(0) : findRoot((f) => most(f) - f, 0, flow, 1e-9);
  const shown = (x: number, quantity: QuantityName): string => showQuantity(x, quantity, system);
  throw messages.hoseCannotPass(shown(flow, 'flow'), shown(largest, 'flow'), shown(setting, 'pressure'));
}
