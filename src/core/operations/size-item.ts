import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { MEAN_FLOW } from '../burn/record-rod-line.ts';
import { meanFlow } from '../burn/rod-line.ts';
import { rodName, type RodChoice } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
import { ratesInForce, recordProcess } from './consumption.ts';
import type { Operation, Sizes, Work } from './operation.ts';
import { pickRod } from './pick-rod.ts';
import { recordRod, recordSizing } from './record-sizing.ts';
import { checkOpening, type FittedRod } from './rod-fit.ts';
import { unreachable, workWays, type Way } from './work-ways.ts';

/** What one item takes; SI. */
export interface Sizing {
  readonly rod: FittedRod;
  readonly name: string;
  /** Gauge, at the holder's inlet. */
  readonly pressure: number;
  /** Mean over a rod. */
  readonly flow: number;
  /** Length of rod consumed, not rounded. */
  readonly consumed: number;
  readonly rods: number;
  readonly oxygen: number;
  readonly burnTime: number;
  /** From set-up to clean-up, cooling included; worked out when it is asked for, since cooling costs more than all the rest. */
  readonly crewTime: number;
  /** Cooling before the next step [s]; 0 where the operation has none. */
  readonly cooling: number;
  /** Work metal removed. */
  readonly removed: number;
  readonly work: Work;
  /** How it is done, where there are several ways, and the others with their time [s]. */
  readonly method: string | undefined;
  readonly otherWays: readonly Way[];
  /** Burning with its pauses, rod changes and tasks [s]. */
  readonly timeAtWork: number;
  readonly material: Material;
  /** Sizes with those the operation planned. */
  readonly planned: Readonly<Record<string, number>>;
}

/**
 * Sizes one item of an operation: rod, pressure, flow, rods, oxygen, burning minutes and crew minutes.
 *
 * The work follows from the geometry and the rod; the flow from rod and tip pressure; what a kilogram of oxygen
 * removes from the heat balance; so time = metal / removal rate, with a pierce limited by slag getting out.
 * Oxygen = (flow x burning time) x (1 + idle share) + lightings x flow x lighting time, as many lightings as rods or
 * places to start at. Of several ways the quickest is taken. With a trace the same path records each step.
 */
export function sizeItem<G extends string>(
  operation: Operation<G>,
  sizes: Sizes<G>,
  choice: RodChoice | undefined,
  material: Material,
  basis: Basis,
  trace?: Trace,
): Sizing {
  const { a } = basis;
  const planned = operation.plan(sizes, a, trace);
  const pressure = operation.pressure(planned, a, trace);
  if (choice) checkOpening(operation.opening(planned), choice.rod, basis);
  const fitted = pickRod(operation, planned, choice, material, pressure, basis);
  const { rod, length, coupled } = fitted;
  const name = rodName(rod, length, coupled);
  if (trace) recordRod(fitted, name, material, basis, trace);
  const flow = meanFlow(rod, length, pressure, basis);
  a.record('flow factor', 'm_over', trace);
  trace?.add({
    name: 'mean flow through the rod',
    symbol: 'm',
    value: flow,
    quantity: 'flow',
    formula:
      'isothermal flow through holder and rod passages at the tip pressure, harmonic mean over the burned length, x flow factor',
    expression: MEAN_FLOW,
    kind: 'calculated',
    source: 'isothermal pipe flow',
  });
  if (trace) recordProcess(rod, material, basis, trace);
  const rates = ratesInForce(rod, material, basis);
  const [way, ...otherWays] = workWays(operation, planned, fitted, flow, material, basis);
  if (!way) throw unreachable(operation, planned, fitted, basis);
  const { method, work, used, rods } = way;
  if (trace) operation.work(planned, rod, (each) => a.value(each), a, trace, method);
  const lightings = Math.max(rods, work.starts ?? 0);
  const oxygen = used.burnOxygen * (1 + rates.idleShare) + lightings * flow * rates.lightingTime;
  const removed =
    rates.density * (work.freeVolume + work.pierces * work.pierceDepth * (Math.PI / 4) * work.pierceWidth ** 2);
  const fixedTime = operation.crewTimes.reduce((sum, each) => sum + a.value(each), 0);
  let cooled: number | undefined;
  const sizing: Sizing = {
    rod: fitted,
    name,
    pressure,
    flow,
    consumed: used.consumed,
    rods,
    oxygen,
    burnTime: used.burnTime,
    get cooling() {
      return (cooled ??= operation.cooling?.(planned, basis) ?? 0);
    },
    get crewTime() {
      return fixedTime + this.cooling + way.time;
    },
    removed,
    work,
    method,
    otherWays,
    timeAtWork: way.time,
    material,
    planned,
  };
  if (trace) recordSizing(operation, sizing, used, basis, trace);
  return sizing;
}
