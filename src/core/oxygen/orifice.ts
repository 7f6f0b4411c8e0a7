import * as messages from '../messages.ts';
import { findRoot } from './find-root.ts';
import type { FlowingGas } from './flowing-gas.ts';

/** A short restriction. An equivalent diameter has a discharge coefficient of 1. */
export interface Orifice {
  /** [m] */
  readonly diameter: number;
  readonly dischargeCoefficient: number;
}

/**
 * Outlet over inlet pressure at and below which an orifice is choked.
 *
 * @example criticalPressureRatio(1.4) // 0.5283
 */
export function criticalPressureRatio(exponent: number): number {
  return (2 / (exponent + 1)) ** (exponent / (exponent - 1));
}

const effectiveArea = (orifice: Orifice): number =>
  orifice.dischargeCoefficient * (Math.PI / 4) * orifice.diameter ** 2;

/** Flow [kg/s] through an orifice as a function of its outlet pressure, for one inlet: what a search calls again and again. */
export function orificeFlowFrom(orifice: Orifice, inlet: number, gas: FlowingGas): (outlet: number) => number {
  if (!(orifice.diameter > 0 && orifice.dischargeCoefficient > 0)) throw messages.blankOrZero('orifice');
  const k = gas.exponent;
  const critical = criticalPressureRatio(k);
  const scale = effectiveArea(orifice) * inlet * Math.sqrt((2 * k) / ((k - 1) * gas.zrt));
  return (outlet) => {
    const r = Math.max(critical, outlet / inlet);
    if (r >= 1) return 0;
    const s = r ** (1 / k);
    return scale * Math.sqrt(s * (s - r));
  };
}

/**
 * Mass flow [kg/s] through an orifice from an absolute inlet to an absolute outlet pressure [Pa].
 *
 * m = Cd A p1 sqrt(2 k / ((k - 1) Z R T) (r^(2/k) - r^((k+1)/k))), r = p2 / p1 but not below the critical ratio
 * (2 / (k + 1))^(k / (k - 1)): isentropic flow to the throat, inlet at rest.
 *
 * Range: gas of constant Z and k across the orifice. Source: ISO 9300 and gas dynamics textbooks.
 *
 * @example orificeFlow({ diameter: 0.08 * INCH, dischargeCoefficient: 0.85 }, 104.7 * PSI, 14.7 * PSI,
 *   flowingOxygen(294.26, 60 * PSI)) / (SCF / 60) // 7.883
 */
export function orificeFlow(orifice: Orifice, inlet: number, outlet: number, gas: FlowingGas): number {
  if (!(inlet >= outlet))
    throw messages.tooLow(
      'inlet',
      `${messages.shown(inlet)} Pa absolute`,
      `the outlet's ${messages.shown(outlet)} Pa absolute`,
    );
  return inlet === outlet ? 0 : orificeFlowFrom(orifice, inlet, gas)(outlet);
}

/**
 * Absolute inlet pressure [Pa] that drives a flow [kg/s] through an orifice into an absolute outlet pressure [Pa].
 *
 * @example orificeInlet({ diameter: 0.08 * INCH, dischargeCoefficient: 0.85 }, 14.7 * PSI, (8 * SCF) / 60,
 *   flowingOxygen(294.26, 60 * PSI)) / PSI // 106.3
 */
export function orificeInlet(orifice: Orifice, outlet: number, flow: number, gas: FlowingGas): number {
  if (!(flow >= 0)) throw messages.tooLow('flow', `${messages.shown(flow)} kg/s`, '0 kg/s');
  if (flow === 0) return outlet;
  const choked = flow / orificeFlowFrom(orifice, 1, gas)(0);
  const critical = criticalPressureRatio(gas.exponent);
  if (outlet <= choked * critical) return choked;
  // Choked flow is the largest, so the inlet is at least `choked`; at outlet / critical ratio the orifice passes more than asked.
  const low = Math.max(choked, outlet);
  return findRoot((inlet) => orificeFlow(orifice, inlet, outlet, gas) - flow, low, outlet / critical);
}

/**
 * Absolute outlet pressure [Pa] of an orifice for a flow [kg/s]; undefined where it is choked or cannot pass that flow.
 *
 * @example orificeOutlet({ diameter: 0.08 * INCH, dischargeCoefficient: 0.85 }, 104.7 * PSI, (5 * SCF) / 60,
 *   flowingOxygen(294.26, 60 * PSI)) / PSI // 93.56
 */
export function orificeOutlet(orifice: Orifice, inlet: number, flow: number, gas: FlowingGas): number | undefined {
  if (!(flow >= 0)) throw messages.tooLow('flow', `${messages.shown(flow)} kg/s`, '0 kg/s');
  const at = orificeFlowFrom(orifice, inlet, gas);
  const lowest = inlet * criticalPressureRatio(gas.exponent);
  if (flow >= at(lowest)) return undefined;
  return findRoot((outlet) => at(outlet) - flow, lowest, inlet);
}
