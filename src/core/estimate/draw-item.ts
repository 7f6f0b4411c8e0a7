import type { Basis } from '../basis.ts';
import { rodMassPerLength } from '../burn/rods.ts';
import { heatAdvance, piercesTime } from '../operations/consumption.ts';
import type { Operation } from '../operations/operation.ts';
import { rodYield, rodsFor, wholeUp } from '../operations/rod-fit.ts';
import type { Sizing } from '../operations/size-item.ts';
import { timeAtWork } from '../operations/work-ways.ts';
import { worldsOf } from './worlds.ts';

/** What one item takes in each world, in the order of the worlds; SI, rods whole. Infinity where the heat does not suffice. */
export interface ItemDraws {
  readonly rods: Float64Array;
  /** Times a rod is lit. */
  readonly lightings: Float64Array;
  readonly oxygen: Float64Array;
  readonly burnTime: Float64Array;
  readonly crewTime: Float64Array;
}

export function emptyDraws(count: number): ItemDraws {
  const empty = (): Float64Array => new Float64Array(count);
  return { rods: empty(), lightings: empty(), oxygen: empty(), burnTime: empty(), crewTime: empty() };
}

/**
 * Draws what one sized item takes. Rod and method stay as planned; the flow departs by the flow factor.
 *
 * The equations are those of `sizeItem`, in plain numbers, since they run for every item and world.
 *
 * @param into filled with one value for each world
 * @param own  how the item departs from the others, one for each world; the draws of `item scatter` where left out
 */
export function drawItem(operation: Operation, sizing: Sizing, basis: Basis, into: ItemDraws, own?: Float64Array): void {
  const { rod, material, method, planned } = sizing;
  const count = into.rods.length;
  const worlds = worldsOf(operation, rod.rod, material, count, basis);
  const { cooling } = sizing;
  const mass = rodMassPerLength(rod.rod);
  let reach = NaN;
  let yields: ReturnType<typeof rodYield>;
  for (let i = 0; i < count; i++) {
    const world = worlds[i];
    if (!world?.rates) {
      into.rods[i] = into.lightings[i] = into.oxygen[i] = into.burnTime[i] = into.crewTime[i] = Infinity;
      continue;
    }
    const { read, rates, removed } = world;
    const flow = sizing.flow * world.flow;
    const work = operation.work(planned, rod.rod, read, basis.a, undefined, method);
    if (work.reach !== reach) {
      reach = work.reach;
      yields = rodYield(rod, reach, basis);
    }
    const removal = removed * flow;
    const pierces = piercesTime(work, heatAdvance(work, removal, rates.density), rates.advanceLimit, rates.advanceDepth);
    const burnTime = (pierces + (rates.density * work.freeVolume) / removal) * (own?.[i] ?? world.own);
    const burnOxygen = flow * burnTime;
    const consumed = (rates.process.fed * burnOxygen) / mass;
    const rods = wholeUp(yields ? (consumed + yields.lost) / yields.each : rodsFor(consumed, rod, reach, basis));
    const lightings = Math.max(rods, work.starts ?? 0);
    into.rods[i] = rods;
    into.lightings[i] = lightings;
    into.oxygen[i] = burnOxygen * (1 + rates.idleShare) + lightings * flow * rates.lightingTime;
    into.burnTime[i] = burnTime;
    into.crewTime[i] = world.fixed + cooling + timeAtWork(burnTime, rods, work, world.pace, read);
  }
}
