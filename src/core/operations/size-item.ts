import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { meanFlow } from '../burn/rod-line.ts';
import { rodName, type RodChoice } from '../burn/rods.ts';
import type { Trace } from '../trace/trace.ts';
import { consume, processInForce, ratesInForce } from './consumption.ts';
import type { Operation, Sizes, Work } from './operation.ts';
import { pickRod } from './pick-rod.ts';
import { recordRod, recordSizing } from './record-sizing.ts';
import { checkOpening, rodsFor, wholeUp, type FittedRod } from './rod-fit.ts';

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
  readonly crewTime: number;
  /** Work metal removed. */
  readonly removed: number;
  readonly work: Work;
  readonly material: Material;
  /** Sizes with those the operation planned. */
  readonly planned: Readonly<Record<string, number>>;
}

/**
 * Sizes one item of an operation: rod, pressure, flow, rods, oxygen, burning minutes and crew minutes.
 *
 * The work follows from the geometry and the rod; the flow from rod and tip pressure; what a kilogram of oxygen
 * removes from the heat balance; so time = metal / removal rate, with a pierce limited by slag getting out.
 * Oxygen = (flow x burning time) x (1 + idle share) + rods x flow x lighting time. With a trace the same path
 * records each step.
 */
export function sizeItem<G extends string>(
  operation: Operation<G>, sizes: Sizes<G>, choice: RodChoice | undefined, material: Material, basis: Basis, trace?: Trace,
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
  trace?.add({
    name: 'mean flow through the rod', symbol: 'm', value: flow, quantity: 'flow',
    formula: 'isothermal flow through holder and rod passages at the tip pressure, harmonic mean over the burned length', kind: 'calculated', source: 'isothermal pipe flow',
  });
  if (trace) processInForce(rod, material, basis, trace);
  const rates = ratesInForce(rod, material, basis);
  const work = operation.work(planned, rod, a.value('pierce width'), a, trace);
  const used = consume(work, rod, flow, material.density, rates);
  const rods = wholeUp(rodsFor(used.consumed, fitted, work.reach, basis));
  const oxygen = used.burnOxygen * (1 + rates.idleShare) + rods * flow * rates.lightingTime;
  const removed = material.density * (work.freeVolume + work.pierces * work.pierceDepth * (Math.PI / 4) * work.pierceWidth ** 2);
  const fixedTime = operation.crewTimes.reduce((sum, each) => sum + a.value(each), 0) + (operation.cooling?.(planned, basis) ?? 0);
  const crewTime = fixedTime + used.burnTime / a.value('burning duty') + rods * a.value('rod change time');
  const sizing = { rod: fitted, name, pressure, flow, consumed: used.consumed, rods, oxygen, burnTime: used.burnTime, crewTime, removed, work, material, planned };
  if (trace) recordSizing(operation, sizing, used, basis, trace);
  return sizing;
}
