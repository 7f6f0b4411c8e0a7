import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { materialFactors, type Material } from '../burn/materials.ts';
import { rodNames, type Rod } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { pertDraws } from '../estimate/draws.ts';
import { percentileOfSorted } from '../estimate/percentile.ts';
import { consume, ratesOf, type Rates } from './consumption.ts';
import type { Operation } from './operation.ts';
import { rodsFor, wholeUp } from './rod-fit.ts';
import { siteFactors } from './site.ts';
import type { Sizing } from './size-item.ts';
import { paceOf, timeAtWork, type Pace } from './work-ways.ts';

/** Draws for each estimate: a power of two, converged to 1 % of the value. */
export const DRAWS = 256;
const SEED = 20261125;

/** Low (P10) and high (P90) of one item; SI, rods whole. */
export interface Spread {
  readonly lowOxygen: number;
  readonly highOxygen: number;
  readonly lowRods: number;
  readonly highRods: number;
  readonly lowCrewTime: number;
  readonly highCrewTime: number;
}

/** Factors that all items of a call share: the same crew, the same gas, the same rods. */
const SHARED = [
  'product FeO share', 'heat lost share', 'slag temperature', 'advance limit', 'advance depth', 'pierce width', 'idle oxygen share',
  'burning duty', 'rod change time', 'set-up time', 'plate time', 'push-out time', 'clean-up time',
] as const satisfies readonly NumberName[];

/** One draw of everything that an item's geometry does not change. */
interface World {
  /** The assumptions of this draw; those that are not drawn stay as in force. */
  readonly read: ReadNumber;
  /** Undefined where nothing is left to remove the work. */
  readonly rates: Rates | undefined;
  readonly pace: Pace;
  /** Crew times that do not depend on the burning [s]. */
  readonly fixed: number;
  /** How this item departs from the others. */
  readonly own: number;
}

/** The draws of one operation, kind of rod and material. */
function worldsOf<G extends string>(operation: Operation<G>, rod: Rod, material: Material, { a, once }: Basis): readonly World[] {
  return once(`worlds ${operation.id} ${rod.kind} ${material.name}`, () => {
    const names = rodNames(rod);
    // Each name keeps its place, so that the same factor has the same draws for every item of a call.
    const drawn: readonly NumberName[] = [...SHARED, names.feed, names.burnt, 'item scatter', ...(operation.factors ?? []), ...siteFactors(a), ...materialFactors(material)];
    const { columns } = pertDraws(
      drawn.map((name) => {
        const { low, value, high } = a.inForce(name);
        return { name, low, likely: value, high };
      }),
      DRAWS,
      SEED,
    );
    return Array.from({ length: DRAWS }, (_, i): World => {
      const read: ReadNumber = (name) => columns.get(name)?.[i] ?? a.value(name);
      return { read, rates: ratesOrNone(rod, material, a, read), pace: paceOf(a, read), fixed: operation.crewTimes.reduce((sum, name) => sum + read(name), 0), own: read('item scatter') };
    });
  });
}

function ratesOrNone(rod: Rod, material: Material, a: Assumptions, read: ReadNumber): Rates | undefined {
  try {
    return ratesOf(rod, material, a, read);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

/**
 * How far one item may depart: P10 and P90 of oxygen, rods and crew time over quasi-random PERT draws of the
 * process factors with the item's own scatter. Flow, rod and method stay as planned. A draw in which the heat does not
 * suffice counts as more than any other; where more than a tenth do, the high is Infinity.
 */
export function spreadItem<G extends string>(operation: Operation<G>, sizing: Sizing, basis: Basis): Spread {
  const { rod, material, flow, method } = sizing;
  const worlds = worldsOf(operation, rod.rod, material, basis);
  const planned = sizing.planned as Readonly<Record<G, number>>;
  const cooling = operation.cooling?.(planned, basis) ?? 0;
  const oxygen = new Float64Array(DRAWS);
  const rods = new Float64Array(DRAWS);
  const crew = new Float64Array(DRAWS);
  worlds.forEach(({ read, rates, pace, fixed, own }, i) => {
    if (!rates) {
      oxygen[i] = rods[i] = crew[i] = Infinity;
      return;
    }
    const work = operation.work(planned, rod.rod, read, basis.a, undefined, method);
    const used = consume(work, rod.rod, flow, rates);
    const count = wholeUp(rodsFor(used.consumed * own, rod, work.reach, basis));
    rods[i] = count;
    oxygen[i] = used.burnOxygen * own * (1 + rates.idleShare) + Math.max(count, work.starts ?? 0) * flow * rates.lightingTime;
    crew[i] = fixed + cooling + timeAtWork(used.burnTime * own, count, work, pace, read);
  });
  const range = (values: Float64Array): readonly [number, number] => {
    values.sort();
    return [percentileOfSorted(values, 0.1), percentileOfSorted(values, 0.9)];
  };
  const [lowOxygen, highOxygen] = range(oxygen);
  const [lowRods, highRods] = range(rods);
  const [lowCrewTime, highCrewTime] = range(crew);
  return { lowOxygen, highOxygen, lowRods: Math.floor(lowRods + 1e-9), highRods: Number.isFinite(highRods) ? Math.ceil(highRods - 1e-9) : highRods, lowCrewTime, highCrewTime };
}
