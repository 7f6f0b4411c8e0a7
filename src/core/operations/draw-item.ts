import type { Basis } from '../basis.ts';
import { rodMassPerLength } from '../burn/rods.ts';
import type { Operation, WorkDraws } from './operation.ts';
import { rodYield, rodsAt, wholeUp } from './rod-fit.ts';
import type { Sizing } from './size-item.ts';
import { worldsOf, type Worlds } from './worlds.ts';

/** What one item takes in each world, in the order of the worlds; SI, rods whole. Infinity where the heat does not suffice. */
export interface ItemDraws {
  readonly rods: Float64Array;
  /** Length of rod consumed; the rods rise with it. */
  readonly consumed: Float64Array;
  /** Times a rod is lit. */
  readonly lightings: Float64Array;
  readonly oxygen: Float64Array;
  readonly burnTime: Float64Array;
  readonly crewTime: Float64Array;
}

const empty = (count: number): Float64Array => new Float64Array(count);

export function emptyDraws(count: number): ItemDraws {
  return {
    rods: empty(count),
    consumed: empty(count),
    lightings: empty(count),
    oxygen: empty(count),
    burnTime: empty(count),
    crewTime: empty(count),
  };
}

const emptyWork = (count: number): WorkDraws => ({
  pierceWidth: empty(count),
  pierces: empty(count),
  freeVolume: empty(count),
  starts: empty(count),
  tasks: empty(count),
});

/** The work of one item in each world. */
function drawWork(
  operation: Operation,
  { rod: { rod }, work, planned, method }: Sizing,
  worlds: Worlds,
  basis: Basis,
  into: WorkDraws,
): void {
  const { a } = basis;
  into.pierceWidth.fill(work.pierceWidth);
  into.pierces.fill(work.pierces);
  into.freeVolume.fill(work.freeVolume);
  into.starts.fill(work.starts ?? 0);
  into.tasks.fill(0);
  for (const { time, count } of work.tasks ?? []) {
    const each = worlds.drawn(time);
    for (let i = 0; i < each.length; i++) into.tasks[i]! += count * each[i]!;
  }
  if (operation.draw) {
    operation.draw(planned, rod, worlds.drawn, a, into, method);
    return;
  }
  for (let i = 0; i < worlds.count; i++) {
    const read = worlds.read(i);
    const one = operation.work(planned, rod, read, a, undefined, method);
    into.pierceWidth[i] = one.pierceWidth;
    into.pierces[i] = one.pierces;
    into.freeVolume[i] = one.freeVolume;
    into.starts[i] = one.starts ?? 0;
    into.tasks[i] = one.tasks?.reduce((sum, { time, count }) => sum + count * read(time), 0) ?? 0;
  }
}

/**
 * Draws what one sized item takes. Rod and method stay as planned; the flow departs by the flow factor.
 *
 * The equations are those of `sizeItem`, in plain numbers with what the item does not change worked out before, since they
 * run for every item and world, in loops that touch few columns each.
 *
 * @param into filled with one value for each world
 * @param own  how the item departs from the others, one for each world; the draws of `item scatter` where left out
 */
export function drawItem(
  operation: Operation,
  sizing: Sizing,
  basis: Basis,
  into: ItemDraws,
  own?: Float64Array,
): void {
  const {
    rod,
    material,
    flow: planned,
    work: { pierceDepth: depth, reach },
  } = sizing;
  const count = into.rods.length;
  const worlds = worldsOf(operation, rod.rod, material, count, basis);
  const work = basis.once(`work draws ${count}`, () => emptyWork(count));
  drawWork(operation, sizing, worlds, basis, work);
  const { rods, consumed, lightings, oxygen, burnTime, crewTime } = into;
  drawBurning(work, worlds, planned, depth, own ?? worlds.own, burnTime);
  const { fed, drawnOverBurnt, flow, fixed, perBurning, change, handling } = worlds;
  const { starts, tasks } = work;
  const { cooling } = sizing;
  const fedLength = planned / rodMassPerLength(rod.rod);
  const lightingTime = basis.a.value('lighting time');
  const yields = rodYield(rod, reach, basis);
  for (let i = 0; i < count; i++) {
    const length = fed[i]! * flow[i]! * burnTime[i]! * fedLength;
    consumed[i] = length;
    rods[i] = wholeUp(rodsAt(length, yields));
  }
  for (let i = 0; i < count; i++) {
    const lit = Math.max(rods[i]!, starts[i]!);
    lightings[i] = lit;
    oxygen[i] = planned * flow[i]! * (burnTime[i]! * drawnOverBurnt[i]! + lit * lightingTime);
  }
  for (let i = 0; i < count; i++)
    crewTime[i] =
      fixed[i]! + cooling + burnTime[i]! * perBurning[i]! + tasks[i]! * handling[i]! + rods[i]! * change[i]!;
  for (const i of worlds.without)
    rods[i] = consumed[i] = lightings[i] = oxygen[i] = burnTime[i] = crewTime[i] = Infinity;
}

/**
 * Burning time in each world [s], the item's own scatter counted. With q the time that a volume takes at the planned flow,
 * 1 / v = q pi / 4 w^2 in `pierceTime`.
 */
function drawBurning(
  { pierceWidth, pierces, freeVolume }: WorkDraws,
  { slowness, advanceLimit, advanceDepth }: Worlds,
  planned: number,
  depth: number,
  scatter: Float64Array,
  into: Float64Array,
): void {
  const perPlanned = 1 / planned;
  for (let i = 0; i < into.length; i++) {
    const q = slowness[i]! * perPlanned;
    let time = q * freeVolume[i]!;
    const n = pierces[i]!;
    if (n > 0) {
      const w = pierceWidth[i]!;
      const c = advanceLimit[i]!;
      const s = advanceDepth[i]! * w;
      const perAdvance = q * (Math.PI / 4) * w * w;
      const free = Math.min(Math.max((c * perAdvance - 1) * s, 0), depth);
      time += n * (free * perAdvance + (depth - free + (depth * depth - free * free) / (2 * s)) / c);
    }
    into[i] = time * scatter[i]!;
  }
}
