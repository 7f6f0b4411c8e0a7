import type { Basis } from '../basis.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../trace/trace.ts';
import type { QuantityName } from '../units/quantities.ts';

/** One size of an operation, as the functions take it. Limits in SI. */
export interface SizeParameter {
  readonly summary: string;
  readonly quantity: QuantityName;
  /** Lowest accepted value; the value itself is refused where `above` is set instead. */
  readonly above: number;
  readonly max: number;
  readonly optional?: true;
  /** Value used where an optional size is left out; absent where the operation plans it itself. */
  readonly default?: number;
  readonly whole?: true;
  readonly example: string;
}

/** Names of an operation's sizes with their SI values; those planned by the operation may be absent. */
export type Sizes<G extends string = string> = { readonly [K in G]?: number | undefined };

/** The metal to remove from one item with one rod. */
export interface Work {
  /** Holes pierced at the rod's own width, limited by slag getting out. */
  readonly pierceWidth: number;
  readonly pierceDepth: number;
  readonly pierces: number;
  /** Volume removed besides, not limited by slag [m3]. */
  readonly freeVolume: number;
  /** How deep in the work the tip gets: a rod must still reach from the holder to there [m]. */
  readonly reach: number;
}

/** How a family of functions is declared: everything else follows from it. */
export interface Operation<G extends string = string> {
  /** Name in the functions: `PIN`. */
  readonly id: string;
  readonly summary: string;
  readonly sizes: Readonly<Record<G, SizeParameter>>;
  /** Names of `sizes` in the order of the arguments. */
  readonly order: readonly G[];
  /** Refuses sizes that do not fit each other and fills in what the operation plans. */
  plan(sizes: Sizes<G>, a: Assumptions, trace?: Trace): Readonly<Record<G, number>>;
  /** Narrowest opening the rod must pass, or undefined where there is none. */
  opening(sizes: Readonly<Record<G, number>>): { readonly width: number; readonly name: string } | undefined;
  /** `pierceWidthRatio` is passed so that draws of it need no new assumptions. */
  work(sizes: Readonly<Record<G, number>>, rod: Rod, pierceWidthRatio: number, a: Assumptions, trace?: Trace): Work;
  /** Gauge pressure at the holder [Pa]. */
  pressure(sizes: Readonly<Record<G, number>>, a: Assumptions, trace?: Trace): number;
  /** Crew times that do not depend on the burning, all in s. */
  readonly crewTimes: readonly NumberName[];
  /** Time the item cools before the next step [s]. */
  cooling?(sizes: Readonly<Record<G, number>>, basis: Basis, trace?: Trace): number;
  readonly cautions: readonly string[];
}

export function defineOperation<const G extends string>(operation: Operation<G>): Operation<G> {
  return operation;
}
