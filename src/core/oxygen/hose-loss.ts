import * as messages from '../messages.ts';
import { flowingOn } from './flowing-gas.ts';
import { OXYGEN_RANGE, type Isotherm } from './oxygen-state.ts';
import {
  passageFlow,
  passageInlet,
  passageOutlet,
  roundPassage,
  type Passage,
  type PassageOutlet,
} from './pipe-flow.ts';

/** A hose with its fittings. Lengths in m. */
export interface Hose {
  readonly bore: number;
  readonly length: number;
  /** Sum of the loss coefficients K of entry, couplings, arrestor and valve, on the hose's bore. */
  readonly loss: number;
  /** Absolute roughness of the bore. */
  readonly roughness: number;
}

export function hosePassage(hose: Hose): Passage {
  if (!(hose.bore > 0)) throw messages.blankOrZero('bore');
  return roundPassage(hose.bore, hose.length, hose.loss, hose.roughness);
}

/** Mean pressure along an isothermal passage, from the parabola of its squares. */
const meanPressure = (inlet: number, outlet: number): number =>
  (2 / 3) * (inlet + outlet - (inlet * outlet) / (inlet + outlet));

/** A value that a function of it gives back: repeated until it stands still. The gas properties change little, so few rounds do. */
function settle(start: number, next: (x: number) => number): number {
  let x = start;
  for (let i = 0; i < 40; i++) {
    const y = next(x);
    if (Math.abs(y - x) <= 1e-11 * Math.abs(y)) return y;
    x = y;
  }
  return x;
}

/**
 * The largest flow [kg/s] a hose can pass from an absolute inlet pressure [Pa] into an absolute outlet pressure [Pa], and the
 * absolute pressure at its exit: the outlet's, or higher where the exit is choked.
 */
export function largestHoseFlow(
  hose: Hose,
  inlet: number,
  oxygen: Isotherm,
  outlet = 0,
): { readonly flow: number; readonly exit: number } {
  const passage = hosePassage(hose);
  const into = (exit: number): ReturnType<typeof passageFlow> =>
    passageFlow(passage, inlet, outlet, flowingOn(oxygen, meanPressure(inlet, exit)));
  const exit = settle(Math.max(outlet, inlet / 2), (x) => into(x).exit);
  return { flow: into(exit).flow, exit };
}

/**
 * Absolute pressure [Pa] at the end of a hose for a flow [kg/s], or the largest flow where that cannot pass.
 *
 * Isothermal compressible flow with friction (`passageOutlet`, Colebrook) of the real gas, its properties at the mean pressure of the hose.
 * inlet [Pa] absolute; oxygen: the equation of state at the hose's temperature; lowest [Pa] absolute: around the end, which the
 * outlet cannot be below. Range as `isotherm`.
 * Source: as `passageFlow`. Example: 20 scfm, 50 ft of 3/8 in smooth hose, 90 psig, 70 F: 7.4 psi lost.
 */
export function hoseOutlet(hose: Hose, inlet: number, flow: number, oxygen: Isotherm, lowest = 0): PassageOutlet {
  const most = largestHoseFlow(hose, inlet, oxygen, lowest);
  if (flow > most.flow) return { passes: false, largest: most.flow };
  const passage = hosePassage(hose);
  const outlet = settle(inlet, (x) => {
    const result = passageOutlet(passage, inlet, flow, flowingOn(oxygen, meanPressure(inlet, x)));
    return result.passes ? result.outlet : most.exit;
  });
  return { passes: true, outlet };
}

/**
 * Absolute pressure [Pa] at the start of a hose that drives a flow [kg/s] out of it into an absolute pressure [Pa]: the inverse of
 * `hoseOutlet`. Beyond the range of the equation of state the gas is taken at its end, since no supply has that pressure anyway.
 *
 * @example hoseInlet({ bore: (3 / 8) * INCH, length: 50 * FOOT, loss: 0, roughness: 0 }, 104.7 * PSI, (15 * SCF) / 60,
 *   isotherm(294.26)) / PSI // 108.9
 */
export function hoseInlet(hose: Hose, outlet: number, flow: number, oxygen: Isotherm): number {
  const passage = hosePassage(hose);
  return settle(outlet, (x) =>
    passageInlet(
      passage,
      outlet,
      flow,
      flowingOn(oxygen, Math.min(meanPressure(x, outlet), OXYGEN_RANGE.equationHighest)),
    ),
  );
}

export type HoseLoss =
  /** Pressure lost [Pa]. */
  | { readonly passes: true; readonly loss: number }
  /** Largest flow [kg/s] that can pass. */
  | { readonly passes: false; readonly largest: number };

/** Pressure lost [Pa] in a hose at a flow [kg/s] from an absolute setting [Pa]: see `hoseOutlet`. */
export function hoseLoss(hose: Hose, setting: number, flow: number, oxygen: Isotherm, lowest = 0): HoseLoss {
  const end = hoseOutlet(hose, setting, flow, oxygen, lowest);
  return end.passes ? { passes: true, loss: setting - end.outlet } : end;
}

/**
 * Oxygen [kg] that fills a hose to an absolute pressure [Pa], beyond the ambient it held.
 *
 * @example hoseFill({ bore: (3 / 8) * INCH, length: 50 * FOOT, loss: 0, roughness: 0 }, 104.7 * PSI, 14.7 * PSI,
 *   isotherm(294.26)) / SCF // 0.236
 */
export function hoseFill(hose: Hose, pressure: number, ambient: number, oxygen: Isotherm): number {
  const { area, length } = hosePassage(hose);
  return area * length * (oxygen.density(pressure) - oxygen.density(ambient));
}
