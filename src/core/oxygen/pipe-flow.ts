import * as messages from '../messages.ts';
import type { FlowingGas } from './flowing-gas.ts';
import { frictionFactor, type FrictionLaw } from './friction-factor.ts';

/** A passage of constant section. */
export interface Passage {
  /** [m] */
  readonly length: number;
  /** Flow area [m2]. */
  readonly area: number;
  /** Hydraulic diameter, 4 area / wetted perimeter [m]. */
  readonly diameter: number;
  /** Sum of the loss coefficients K of entry, exit and fittings. */
  readonly loss: number;
  /** Absolute roughness of the wall [m]. */
  readonly roughness: number;
  readonly law: FrictionLaw;
}

export interface PassageFlow {
  /** [kg/s] */
  readonly flow: number;
  /** Whether the exit is choked: a lower outlet pressure would not raise the flow. */
  readonly choked: boolean;
  /** Absolute pressure just inside the exit [Pa]: the outlet pressure, or higher where the exit is choked. */
  readonly exit: number;
}

export type PassageOutlet =
  /** Absolute outlet pressure [Pa]. */
  | { readonly passes: true; readonly outlet: number }
  /** The flow is more than the passage can pass from that inlet: its largest flow [kg/s]. */
  | { readonly passes: false; readonly largest: number };

/** A passage of round bore [m]. */
export function roundPassage(
  bore: number,
  length: number,
  loss = 0,
  roughness = 0,
  law: FrictionLaw = 'Colebrook',
): Passage {
  return { length, area: (Math.PI / 4) * bore * bore, diameter: bore, loss, roughness, law };
}

/** f L / D + K at a flow per area [kg/s m2]. */
export function resistance(passage: Passage, flux: number, viscosity: number): number {
  const reynolds = (flux * passage.diameter) / viscosity;
  return (
    (frictionFactor(reynolds, passage.roughness / passage.diameter, passage.law) * passage.length) / passage.diameter +
    passage.loss
  );
}

function check(passage: Passage): void {
  if (!(passage.diameter > 0 && passage.area > 0)) throw messages.blankOrZero('bore');
  if (!(passage.length >= 0)) throw messages.tooLow('length', `${messages.shown(passage.length)} m`, '0 m');
  if (!(passage.length > 0 || passage.loss > 0)) throw messages.blankOrZero('length');
}

/** y = (p1 / p2)^2 at the choking limit: y = 1 + N + ln(y), the larger root. */
function chokingRatioSquared(N: number): number {
  // Newton from above, where the function is convex: it never overshoots the root.
  let y = 1 + N + Math.sqrt(2 * N) + Math.log1p(N);
  for (let i = 0; i < 40; i++) {
    const next = y - (y - 1 - N - Math.log(y)) / (1 - 1 / y);
    if (!(y - next > 1e-13 * y)) return next;
    y = next;
  }
  return y;
}

/**
 * Mass flow through a passage between two pressures, isothermal with friction.
 *
 * G^2 = (p1^2 - p2^2) / (Z R T (f L / D + K + 2 ln(p1 / p2))), G flow per area. G is largest where p2 = G sqrt(Z R T):
 * the exit is choked there and its pressure stays above the outlet's.
 *
 * inlet, outlet [Pa]: absolute; inlet is the pressure inside the passage's entry. Steady flow, gas at one
 * temperature, Z and viscosity constant along the passage.
 * Source: isothermal compressible flow as in Crane TP-410 and fluids' isothermal_gas; the choking limit by
 * differentiation. Example: 1 km of 0.5 m pipe, f 0.00185, 1.0 to 0.9 MPa, 11.3 kg/m3: 145.48 kg/s.
 */
export function passageFlow(passage: Passage, inlet: number, outlet: number, gas: FlowingGas): PassageFlow {
  check(passage);
  if (!(outlet >= 0)) throw messages.tooLow('outlet', `${messages.shown(outlet)} Pa absolute`, '0 Pa absolute');
  if (!(inlet >= outlet))
    throw messages.tooLow(
      'inlet',
      `${messages.shown(inlet)} Pa absolute`,
      `the outlet's ${messages.shown(outlet)} Pa absolute`,
    );
  if (inlet === outlet) return { flow: 0, choked: false, exit: outlet };

  let exit = outlet;
  /** Flow per area that the pressures drive through the resistance met at another flow per area. */
  const driven = (flux: number): number => {
    const N = resistance(passage, flux, gas.viscosity);
    exit = outlet;
    // The choking ratio is below sqrt(1 + N + ...): no need to solve for it where the outlet is clearly higher.
    const ratioSquared = (inlet / outlet) ** 2;
    if (ratioSquared > 1 + N) {
      const y = chokingRatioSquared(N);
      if (ratioSquared > y) exit = inlet / Math.sqrt(y);
    }
    return Math.sqrt((inlet * inlet - exit * exit) / (gas.zrt * (N + 2 * Math.log(inlet / exit))));
  };

  // driven(G) - G falls with G throughout, so there is one root; secant steps kept between bounds.
  let low = 0;
  let high = Infinity;
  let flux = driven((4000 * gas.viscosity) / passage.diameter);
  let miss = driven(flux) - flux;
  let next = flux + miss;
  for (let i = 0; i < 60; i++) {
    if (miss > 0) low = flux;
    else high = flux;
    if (!(next > low && next < high)) next = high < Infinity ? (low + high) / 2 : 2 * low;
    if (Math.abs(next - flux) <= 1e-12 * flux) break;
    const before = flux;
    const missBefore = miss;
    flux = next;
    miss = driven(flux) - flux;
    next = miss === missBefore ? flux : flux - (miss * (flux - before)) / (miss - missBefore);
  }
  return { flow: flux * passage.area, choked: exit > outlet, exit };
}

/**
 * The largest flow [kg/s] that a passage can pass from an absolute inlet pressure [Pa], its exit choked.
 *
 * @example largestFlow(roundPassage((3 / 8) * INCH, 50 * FOOT, 0, 0), 104.7 * PSI, flowingOxygen(294.26,
 *   60 * PSI)) / (SCF / 60) // 55.51
 */
export function largestFlow(passage: Passage, inlet: number, gas: FlowingGas): number {
  return passageFlow(passage, inlet, 0, gas).flow;
}

/**
 * Absolute pressure [Pa] at a passage's outlet for a flow [kg/s], or the largest flow where that flow cannot pass.
 *
 * Equation, range and source as `passageFlow`; the subsonic root.
 */
export function passageOutlet(passage: Passage, inlet: number, flow: number, gas: FlowingGas): PassageOutlet {
  check(passage);
  if (!(flow >= 0)) throw messages.tooLow('flow', `${messages.shown(flow)} kg/s`, '0 kg/s');
  if (flow === 0) return { passes: true, outlet: inlet };
  const flux = flow / passage.area;
  const N = resistance(passage, flux, gas.viscosity);
  const g = (gas.zrt * flux * flux) / (inlet * inlet);
  // w = (p2 / p1)^2 solves 1 - w = g (N - ln w). The curve is concave with its top at w = g: below 0 there, nothing passes.
  if (!(g < 1) || 1 - g - g * N + g * Math.log(g) < 0)
    return { passes: false, largest: largestFlow(passage, inlet, gas) };
  let w = 1;
  for (let i = 0; i < 80; i++) {
    const next = w - (1 - w - g * N + g * Math.log(w)) / (g / w - 1);
    if (!(next < w && next > g)) break;
    const step = w - next;
    w = next;
    if (step <= 1e-14 * w) break;
  }
  return { passes: true, outlet: inlet * Math.sqrt(w) };
}

/**
 * Absolute pressure [Pa] needed at a passage's entry so that a flow [kg/s] leaves into an absolute outlet pressure [Pa].
 *
 * Inverse of `passageFlow`; where the exit chokes, its pressure is G sqrt(Z R T), above the outlet's.
 *
 * @example passageInlet(roundPassage((3 / 8) * INCH, 50 * FOOT, 0, 0), 104.7 * PSI, (15 * SCF) / 60,
 *   flowingOxygen(294.26, 106 * PSI)) / PSI // 108.9
 */
export function passageInlet(passage: Passage, outlet: number, flow: number, gas: FlowingGas): number {
  check(passage);
  if (!(flow >= 0)) throw messages.tooLow('flow', `${messages.shown(flow)} kg/s`, '0 kg/s');
  if (flow === 0) return outlet;
  const flux = flow / passage.area;
  const N = resistance(passage, flux, gas.viscosity);
  const square = gas.zrt * flux * flux;
  const exit = Math.max(outlet, Math.sqrt(square));
  // y = (p1 / exit)^2 solves y - g ln y = 1 + g N with g <= 1: convex and rising, so Newton from above is monotone.
  const g = square / (exit * exit);
  let y = 1 + g * N + Math.sqrt(2 * g * N) + g * Math.log1p(N);
  for (let i = 0; i < 60; i++) {
    const next = y - (y - 1 - g * N - g * Math.log(y)) / (1 - g / y);
    if (!(y - next > 1e-14 * y)) break;
    y = next;
  }
  return exit * Math.sqrt(y);
}
