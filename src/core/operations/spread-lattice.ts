import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { CalcError } from '../errors.ts';
import { overSimplex } from '../model/simplex.ts';
import type { Drawable } from './draw-item.ts';
import type { Operation, Sizes } from './operation.ts';
import { wholeUp } from './rod-fit.ts';
import { sized, type Sized } from './sized.ts';
import { spreadEnds, type Spread } from './spread-item.ts';
import type { Way } from './ways.ts';

/** Steps of the lattice in the logarithms of the sizes: finer where two sizes vary than where more do. */
const STEPS = { few: 1 / 12, many: 1 / 6 } as const;
/** Places of the lattice to either side of 1 m that a key can hold. */
const PLACES = 2 ** 10;

/** Sizes of a list by name. */
export interface SizesOfList {
  /** Not left to the plan. */
  readonly given: readonly string[];
  /** Not the same in the whole list. */
  readonly varying: readonly string[];
}

/** Logarithms of low and high at one point of the lattice; undefined where the item is none there, or has no low or high. */
type Point = Float64Array | undefined;

/**
 * Reads low and high of items of a long list between items of the same rod and way on a lattice of the sizes that vary in the list:
 * straight lines in the logarithms over the simplex that holds the item. Undefined where that cannot be, at the edge of what the
 * rod can do.
 *
 * Undefined too where work is counted in whole passes, holes or starts: its low and high jump from one size to the next.
 *
 * An item's low and high are percentiles of draws, which wander by some tenths of a percent from one size to the next: so much may
 * stand between this and `spreadItem`; `test/core/operations/item-columns.test.ts` measures it. Rods are the whole count of those
 * not rounded.
 */
export function spreadBetween(
  operation: Operation,
  { given, varying }: SizesOfList,
  basis: Basis,
): (item: Sized) => Spread | undefined {
  if (isCounted(operation, basis)) return () => undefined;
  const axes = given.filter((name) => varying.includes(name) && !operation.sizes[name]!.whole);
  const same = given.filter((name) => !axes.includes(name));
  const step = axes.length > 2 ? STEPS.many : STEPS.few;
  const lattice = `low and high of ${operation.id} ${axes.join()}`;
  const at = axes.map(() => 0);
  const sums = new Float64Array(6);
  /** Of the rods, materials and ways that came up, and the sizes that are the same. */
  const known: Lattice[] = [];
  const latticeOf = (item: Sized): Lattice => {
    for (const each of known) if (isOf(each, item)) return each;
    const sizes = same.map((name) => item.planned[name]);
    const held = `${lattice} ${item.name} ${item.material.name} ${item.method} ${sizes.join(' ')}`;
    const points = basis.reading(held, () => new Map<number, Point>());
    const made = { name: item.name, material: item.material, method: item.method, sizes, points };
    known.push(made);
    return made;
  };
  const isOf = (each: Lattice, { name, material, method, planned }: Sized): boolean =>
    each.name === name &&
    each.material === material &&
    each.method === method &&
    same.every((size, k) => planned[size] === each.sizes[k]);
  let points: Lattice['points'];
  let item: Sized;
  const visit = (place: readonly number[], weight: number): boolean => {
    let key = 0;
    for (let k = 0; k < place.length; k++) key = key * 2 * PLACES + place[k]! + PLACES;
    let point = points.get(key);
    if (point === undefined && !points.has(key)) {
      const sizes = Object.fromEntries(given.map((name) => [name, item.planned[name]!]));
      axes.forEach((name, i) => (sizes[name] = Math.exp(place[i]! * step)));
      point = pointAt(item, sizes, basis);
      points.set(key, point);
    }
    if (!point) return false;
    for (let i = 0; i < 6; i++) sums[i] = sums[i]! + weight * point[i]!;
    return true;
  };
  const of = (i: number): number => Math.exp(sums[i]!);
  return (each) => {
    item = each;
    points = latticeOf(item).points;
    for (let i = 0; i < at.length; i++) at[i] = Math.log(item.planned[axes[i]!]!) / step;
    sums.fill(0);
    if (!overSimplex(at, visit)) return undefined;
    return {
      lowOxygen: of(0),
      highOxygen: of(1),
      lowCrewTime: of(2),
      highCrewTime: of(3),
      lowRods: wholeUp(of(4)),
      highRods: wholeUp(of(5)),
    };
  };
}

/** The points for one rod, material and way. */
interface Lattice {
  readonly name: string;
  readonly material: Material;
  readonly method: string | undefined;
  /** Sizes that are the same in all of it. */
  readonly sizes: readonly (number | undefined)[];
  readonly points: Map<number, Point>;
}

const isCounted = (operation: Operation, basis: Basis): boolean =>
  basis.once(`counted ${operation.id}`, () =>
    (operation.methods?.names ?? [undefined]).some((method) => {
      const { tasks = [], steps } = operation.work(basis.a, method);
      return tasks.some(({ even }) => even) || steps.some(({ symbol }) => symbol === 'starts');
    }),
  );

/** What the draws of an item start from where another of its ways is taken. */
const drawnOf = (item: Sized, { method, removed, time, used, oxygen, burnTime, fixedTime }: Way): Drawable => ({
  operation: item.operation,
  rod: item.rod,
  material: item.material,
  method,
  planned: item.planned,
  pressure: item.pressure,
  widenPressure: item.widenPressure,
  removed,
  timeAtWork: time,
  cooling: item.cooling,
  used,
  oxygen,
  burnTime,
  workTime: fixedTime + time,
  crewTime: fixedTime + time + item.cooling,
});

function pointAt({ operation, rod, material, method }: Sized, sizes: Sizes, basis: Basis): Point {
  try {
    const all = sized({ operation, sizes, rod, material, basis });
    const { otherWays } = all;
    const way = all.method === method ? undefined : otherWays.find((each) => each.method === method);
    if (all.method !== method && !way) return undefined;
    const item = way ? drawnOf(all, way) : all;
    const { lowOxygen, highOxygen, lowCrewTime, highCrewTime, used } = spreadEnds(item, basis);
    const logs = Float64Array.of(lowOxygen, highOxygen, lowCrewTime, highCrewTime, ...used).map(Math.log);
    return logs.every(Number.isFinite) ? logs : undefined;
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}
