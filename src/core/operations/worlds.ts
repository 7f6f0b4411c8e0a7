/** The one set of draws that plan, spread, stock, fit and score share. */
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { materialFactors, type Material } from '../burn/materials.ts';
import { rodNames, type Rod } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { ratesOf, type Rates } from './consumption.ts';
import type { Operation } from './operation.ts';
import { siteFactors } from './site.ts';
import { paceOf } from './work-ways.ts';
import { pert, pertQuantiles } from '../spread/pert.ts';
import { sobolColumn } from '../spread/sobol.ts';

/**
 * One of 1200 scrambles: with it P10 and P90 of oxygen, burning and crew time of pins, holes, cuts, studs and grooves of many
 * sizes stand within 1 % of those of 65,536 draws at the default count of 1024; with most others within 1.6 %.
 */
const SEED = 438;

/** Factors that all items of a job share: the same crew, the same gas, the same rods. */
export const SHARED = [
  'heat lost share',
  'slag temperature',
  'flow factor',
  'burning duty',
  'product FeO share',
  'idle oxygen share',
  'advance limit',
  'pierce width',
  'advance depth',
  'rod change time',
  'set-up time',
  'plate time',
  'push-out time',
  'clean-up time',
] as const satisfies readonly NumberName[];

/**
 * Factors with a place of their own among the coordinates of the draws, so that each has the same draws for every item
 * of a call, whatever else is drawn. Those of an operation, a site or a material follow behind.
 */
const PLACED: readonly NumberName[] = [
  'item scatter',
  'oxygen burnt share',
  'rod feed ratio',
  ...SHARED,
  'bar oxygen burnt share',
  'bar feed ratio',
  'cylinder pressure',
  'leftover pressure',
  'strike current',
  'strike time',
  'plates per pin',
];

/** Every factor that the spread of an item draws, its own scatter left out. */
export function drawnFactors(
  operation: Operation,
  rod: Rod,
  material: Material,
  a: Assumptions,
): readonly NumberName[] {
  const { feed, burnt } = rodNames(rod);
  const further = [...(operation.factors ?? []), ...siteFactors(a), ...materialFactors(material)];
  return [...new Set<NumberName>([burnt, feed, ...SHARED, ...further])];
}

/** The PERT draws of one assumption in force. */
function drawn(name: NumberName, place: number, count: number, { a, once }: Basis): Float64Array {
  return once(`draws ${name} ${place} ${count}`, () => {
    const { low, value, high } = a.inForce(name);
    const distribution = pert(low, value, high);
    return distribution.shape
      ? pertQuantiles(distribution, sobolColumn(place, count, SEED))
      : new Float64Array(count).fill(value);
  });
}

/** `count` draws of an assumption that has a place: the same for every item of a call. */
export function drawsOfShared(name: NumberName, count: number, basis: Basis): Float64Array {
  return drawn(name, PLACED.indexOf(name), count, basis);
}

/** Draws of everything that an item's geometry does not change: one place of each column for each draw. */
export interface Worlds {
  readonly count: number;
  /** The assumptions of one draw; those that are not drawn stay as in force. */
  readonly read: (i: number) => ReadNumber;
  /** The draws of one assumption; the value in force where it is not drawn. */
  readonly drawn: (name: NumberName) => Float64Array;
  /** Draws in which nothing is left to remove the work. */
  readonly without: readonly number[];
  /** Burning time of a volume at the planned flow of 1 kg/s [s kg/(m3 s)]: density / metal removed per kg of oxygen, position and flow factor counted. */
  readonly slowness: Float64Array;
  /** Rod iron fed per kg of oxygen [kg/kg]. */
  readonly fed: Float64Array;
  readonly advanceLimit: Float64Array;
  readonly advanceDepth: Float64Array;
  /** 1 + idle share. */
  readonly drawnOverBurnt: Float64Array;
  /** Flow over the planned flow. */
  readonly flow: Float64Array;
  /** How one item of this world departs from the others. */
  readonly own: Float64Array;
  /** Crew times that do not depend on the burning [s]. */
  readonly fixed: Float64Array;
  /** Time at the work over the time a rod burns. */
  readonly perBurning: Float64Array;
  /** One rod change, position and access counted [s]. */
  readonly change: Float64Array;
  /** Factor of position and access on the time of tasks. */
  readonly handling: Float64Array;
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
 * `count` joint draws of one operation, kind of rod and material: scrambled Sobol points through the PERT quantiles of
 * the assumptions in force. The same call gives the same draws, and items of one call share them.
 */
export function worldsOf(operation: Operation, rod: Rod, material: Material, count: number, basis: Basis): Worlds {
  return basis.once(`worlds ${operation.id} ${rod.kind} ${material.name} ${count}`, () => {
    const { a } = basis;
    const columns = new Map<NumberName, Float64Array>();
    let behind = PLACED.length;
    for (const name of drawnFactors(operation, rod, material, a)) {
      const place = PLACED.indexOf(name);
      columns.set(name, drawn(name, place < 0 ? behind++ : place, count, basis));
    }
    const read =
      (i: number): ReadNumber =>
      (name) =>
        columns.get(name)?.[i] ?? a.value(name);
    const flow = a.value('flow factor');
    const column = (): Float64Array => new Float64Array(count);
    const without: number[] = [];
    const worlds: Worlds = {
      count,
      read,
      without,
      drawn: (name) => columns.get(name) ?? column().fill(a.value(name)),
      slowness: column(),
      fed: column(),
      advanceLimit: column(),
      advanceDepth: column(),
      drawnOverBurnt: column(),
      flow: drawsOfShared('flow factor', count, basis).map((x) => x / flow),
      own: drawsOfShared('item scatter', count, basis),
      fixed: column(),
      perBurning: column(),
      change: column(),
      handling: column(),
    };
    for (let i = 0; i < count; i++) {
      const one = read(i);
      const rates = ratesOrNone(rod, material, a, one);
      const pace = paceOf(a, one);
      if (!rates) without.push(i);
      worlds.slowness[i] = rates ? rates.density / (rates.process.removed * rates.removal * worlds.flow[i]!) : NaN;
      worlds.fed[i] = rates?.process.fed ?? NaN;
      worlds.advanceLimit[i] = rates?.advanceLimit ?? NaN;
      worlds.advanceDepth[i] = rates?.advanceDepth ?? NaN;
      worlds.drawnOverBurnt[i] = 1 + (rates?.idleShare ?? NaN);
      worlds.fixed[i] = operation.crewTimes.reduce((sum, name) => sum + one(name), 0);
      worlds.perBurning[i] = pace.handling / pace.duty;
      worlds.change[i] = pace.change * pace.handling;
      worlds.handling[i] = pace.handling;
    }
    return worlds;
  });
}
