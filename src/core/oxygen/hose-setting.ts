import { flowingOn } from './flowing-gas.ts';
import { hoseInlet, hosePassage, largestHoseFlow, type Hose } from './hose-loss.ts';
import type { Isotherm } from './oxygen-state.ts';

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
