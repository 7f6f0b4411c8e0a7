import * as messages from '../messages.ts';
import { flowingOn } from './flowing-gas.ts';
import { orificeInlet, type Orifice } from './orifice.ts';
import type { Isotherm } from './oxygen-state.ts';

/** A pressure regulator as its curves describe it. */
export interface Regulator {
  /** Absolute outlet pressure set [Pa], at `setFlow` out of a cylinder at `setSupply`. */
  readonly setting: number;
  /** Flow [kg/s] at which the setting was read: 0 where it was read with nothing flowing. */
  readonly setFlow: number;
  /** Absolute cylinder pressure [Pa] at which the setting was read. */
  readonly setSupply: number;
  /** Fall of the outlet with flow [Pa s/kg]. */
  readonly droop: number;
  /** Rise of the outlet over the fall of the cylinder. */
  readonly supplyEffect: number;
  /** The valve wide open. */
  readonly valve: Orifice;
}

/** Absolute outlet pressure [Pa] that the regulator's spring asks for at a flow [kg/s] and an absolute cylinder pressure [Pa]. */
export function regulatorOutlet(regulator: Regulator, flow: number, cylinder: number): number {
  const { setting, setFlow, setSupply, droop, supplyEffect } = regulator;
  return setting - droop * (flow - setFlow) + supplyEffect * (setSupply - cylinder);
}

/** Absolute cylinder pressure [Pa] below which the wide-open valve cannot pass a flow [kg/s] at an absolute outlet pressure [Pa]. */
export function leastSupply(
  { valve }: Pick<Regulator, 'valve'>,
  outlet: number,
  flow: number,
  oxygen: Isotherm,
): number {
  return orificeInlet(valve, outlet, flow, flowingOn(oxygen, outlet));
}

/**
 * Absolute cylinder pressure [Pa] that must be left so that the regulator keeps feeding.
 *
 * The larger of delivery pressure + droop at that flow, and what the wide-open valve needs to pass the flow.
 * delivery: absolute outlet pressure while a flow [kg/s] passes.
 */
export function leftoverPressure(regulator: Regulator, delivery: number, flow: number, oxygen: Isotherm): number {
  if (!(flow >= 0)) throw messages.tooLow('flow', `${messages.shown(flow)} kg/s`, '0 kg/s');
  return Math.max(delivery + regulator.droop * flow, leastSupply(regulator, delivery, flow, oxygen));
}
