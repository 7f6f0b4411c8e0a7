import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import type { Given } from '../model/evaluation.ts';
import { calculated, decidedBy, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { PSI, type QuantityName } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { waterSteps } from './ambient-pressure.ts';
import { flowingOn } from './flowing-gas.ts';
import { hoseInlet, hosePassage, largestHoseFlow, type Hose } from './hose-loss.ts';
import { isotherm, type Isotherm } from './oxygen-state.ts';
import { droopSteps, hoseSteps } from './supply-in-force.ts';

/** Highest regulator setting that counts, gauge [Pa]: far above what regulators and hoses for this work are made for. */
export const HIGHEST_SETTING = 1000 * PSI;

export type HoseSetting =
  /** Absolute pressure at the regulator [Pa]. */
  | { readonly passes: true; readonly setting: number }
  /** The hose's end would choke, or the setting be more than `highest`: the largest flow [kg/s] at that tip pressure. */
  | { readonly passes: false; readonly chokes: boolean; readonly largest: number };

/**
 * Absolute pressure [Pa] at the regulator that keeps an absolute tip pressure [Pa] at the end of a hose at a flow [kg/s].
 *
 * Equation and range as `hoseOutlet`, whose inverse it is. The tip pressure of work at depth is air + water column +
 * the gauge pressure wanted over the bottom's. No setting gives a flow beyond G = p / sqrt(Z R T) at the hose's end.
 * highest: the highest absolute setting [Pa] that counts.
 * Source: as `passageFlow`. Example: no flow, 90 psi over the bottom at 60 ft of sea water: 116.7 psig.
 */
export function hoseSetting(hose: Hose, tip: number, flow: number, oxygen: Isotherm, highest = Infinity): HoseSetting {
  const largest = (hosePassage(hose).area * tip) / Math.sqrt(flowingOn(oxygen, tip).zrt);
  if (flow > largest) return { passes: false, chokes: true, largest };
  if (highest < Infinity) {
    const most = highest > tip ? largestHoseFlow(hose, highest, oxygen, tip).flow : 0;
    if (flow > most) return { passes: false, chokes: false, largest: most };
  }
  return { passes: true, setting: hoseInlet(hose, tip, flow, oxygen) };
}

/**
 * Gauge pressure `p_reg` to set at the regulator for a tip pressure `p` over that of the water at the work, at the end of a hose
 * that passes a flow `m`: p_reg = p + p_water + loss_hose, and the regulator's droop where its setting is read standing.
 *
 * Hose and depth are those assumed, or handed over with the call; of the depth only whether there is one matters here, and it
 * is assumed where the call leaves it out. Real gas at the gas temperature, see `hoseSetting`. `#N/A` with the largest flow
 * where the hose's end chokes or the setting would be more than `HIGHEST_SETTING`.
 */
export function settingSteps(a: Assumptions, handed?: { readonly depth: number | undefined }): readonly Step[] {
  const wet = (handed?.depth ?? a.value('water depth')) > 0;
  const depth =
    handed?.depth === undefined
      ? assumed('h_water', 'water depth')
      : given('h_water', 'depth of the work under water', 'distance');
  const droops = droopSteps(a, 'm');
  return [
    handed ? given('L_hose', 'hose length', 'distance') : assumed('L_hose', 'hose length'),
    handed ? given('d_hose', 'hose bore', 'length') : assumed('d_hose', 'hose bore'),
    ...hoseSteps,
    assumed('p_air', 'air pressure'),
    assumed('T_gas', 'gas temperature'),
    ...(wet ? [depth, ...waterSteps(a)] : []),
    decidedBy(
      calculated(
        'p_hose',
        'pressure at the end of the hose',
        'pressure',
        wet ? 'p + p_water' : 'p',
        'tip pressure + pressure of the water',
      ),
      ...(handed?.depth === undefined ? ['water depth'] : []),
    ),
    solved(
      'p_out',
      "pressure at the regulator's outlet",
      'pressure',
      ['p_hose', 'm', 'L_hose', 'd_hose', 'K_hose', 'e_hose', 'p_air', 'T_gas'],
      (end, flow, length, bore, loss, roughness, air, temperature) =>
        outletFor({ length, bore, loss, roughness }, end, flow, air, temperature, a),
      'isothermal flow with friction of the real gas through hose and fittings, solved for the inlet',
      'isothermal pipe flow',
    ),
    calculated(
      'loss_hose',
      'pressure lost in the hose',
      'pressure',
      'p_out - p_hose',
      'pressure at the outlet - pressure at the end',
    ),
    ...droops,
    decidedBy(
      calculated(
        'p_reg',
        'regulator setting',
        'pressure',
        droops.length > 0 ? 'p_hose + loss_hose + p_droop' : 'p_hose + loss_hose',
        `pressure at the end + pressure lost in the hose${droops.length > 0 ? ' + droop' : ', read while oxygen flows'}`,
      ),
      'regulator set',
    ),
  ];
}

/** What a hose must deliver. SI, pressures gauge. */
export interface HoseDuty {
  /** Tip pressure over that of the water at the work, if any. */
  readonly tip: number;
  readonly flow: number;
  /** Of the hose. */
  readonly length: number;
  readonly bore: number;
  /** Of the work under water; as assumed where left out. */
  readonly depth: number | undefined;
}

/**
 * Gauge pressure [Pa] to set at the regulator for a tip pressure at the end of a hose: see `settingSteps`.
 *
 * @example settingInForce({ tip: 90 * PSI, flow: (15 * SCF) / 60, length: 50 * FOOT, bore: (3 / 8) * INCH, depth: 0 },
 *   basis).value / PSI // 94.17
 */
export function settingInForce({ tip, flow, length, bore, depth }: HoseDuty, { a, once }: Basis): Working {
  const list = once(
    `setting through a hose ${depth === undefined ? '' : depth > 0}`,
    () =>
      new StepList(
        [given('p', 'tip pressure', 'pressure'), given('m', 'flow', 'flow'), ...settingSteps(a, { depth })],
        ['p_reg'],
      ),
  );
  const handed: Given = depth === undefined ? {} : { h_water: depth };
  return work(list, { p: tip, m: flow, L_hose: length, d_hose: bore, ...handed }, a);
}

/** Gauge pressure [Pa] at the start of a hose that keeps a gauge pressure [Pa] at its end. */
function outletFor(
  hose: Hose,
  end: number,
  flow: number,
  air: number,
  temperature: number,
  { system }: Assumptions,
): number {
  const found = hoseSetting(hose, end + air, flow, isotherm(temperature), HIGHEST_SETTING + air);
  if (found.passes) return found.setting - air;
  const shown = (x: number, quantity: QuantityName): string => showQuantity(x, quantity, system);
  const asked = [shown(flow, 'flow'), shown(found.largest, 'flow'), shown(end, 'pressure')] as const;
  throw found.chokes
    ? messages.hoseEndChokes(...asked)
    : messages.hoseNeedsTooMuch(...asked, shown(HIGHEST_SETTING, 'pressure'));
}
