import type { Assumptions } from '../assumptions/assumptions.ts';
import type { ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { consume, ratesInForce, type Consumption } from './consumption.ts';
import type { Operation, Work } from './operation.ts';
import { reaches, rodsFor, wholeUp, type FittedRod } from './rod-fit.ts';
import { siteOf } from './site.ts';

/** One way to do the work of one item with one rod. */
export interface Way {
  /** Its name, where the operation has several. */
  readonly method: string | undefined;
  readonly work: Work;
  readonly used: Consumption;
  readonly rods: number;
  /** Burning with its pauses, rod changes and tasks [s]. */
  readonly time: number;
}

/** What the time at the work depends on besides burning, rods and tasks. */
export interface Pace {
  /** Share of the time in which a rod burns. */
  readonly duty: number;
  /** One rod change [s]. */
  readonly change: number;
  /** Factor of position and access. */
  readonly handling: number;
}

export function paceOf(a: Assumptions, read: ReadNumber): Pace {
  return { duty: read('burning duty'), change: read('rod change time'), handling: siteOf(a, read).handling };
}

/** Time at the work [s]: (burning / duty + rods x change + tasks) x handling. */
export function timeAtWork(
  burnTime: number,
  rods: number,
  { tasks }: Work,
  { duty, change, handling }: Pace,
  read: ReadNumber,
): number {
  const handled = tasks?.reduce((sum, { time, count }) => sum + count * read(time), 0) ?? 0;
  return (burnTime / duty) * handling + handled * handling + rods * change * handling;
}

/**
 * The ways to do one item's work with one rod at a flow [kg/s], quickest first; only the one that the operation's word
 * asks for, where it names one. Empty where the rod does not reach.
 */
export function workWays<G extends string>(
  operation: Operation<G>,
  planned: Readonly<Record<G, number>>,
  fitted: FittedRod,
  flow: number,
  material: Material,
  basis: Basis,
): readonly Way[] {
  const { a } = basis;
  const read: ReadNumber = (name) => a.value(name);
  const wanted = operation.methods ? a.word(operation.methods.choice) : undefined;
  const named = operation.methods?.names.filter((name) => name === wanted) ?? [];
  const methods: readonly (string | undefined)[] = named.length > 0 ? named : (operation.methods?.names ?? [undefined]);
  const pace = basis.once('pace', () => paceOf(a, read));
  const ways = methods.flatMap((method): Way[] => {
    const work = operation.work(planned, fitted.rod, read, a, undefined, method);
    if (!reaches(fitted, work.reach, basis)) return [];
    const used = consume(work, fitted.rod, flow, ratesInForce(fitted.rod, material, basis));
    const rods = wholeUp(rodsFor(used.consumed, fitted, work.reach, basis));
    return [{ method, work, used, rods, time: timeAtWork(used.burnTime, rods, work, pace, read) }];
  });
  return ways.length > 1 ? [...ways].sort((x, y) => x.time - y.time) : ways;
}

/** The error of a rod that does not reach. */
export function unreachable<G extends string>(
  operation: Operation<G>,
  planned: Readonly<Record<G, number>>,
  fitted: FittedRod,
  basis: Basis,
): unknown {
  const work = operation.work(planned, fitted.rod, (name) => basis.a.value(name), basis.a);
  try {
    rodsFor(0, fitted, work.reach, basis);
  } catch (e) {
    return e;
  }
  return new Error(`${fitted.rod.name} reaches, and no way was found`);
}
