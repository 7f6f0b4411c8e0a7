import type { Basis } from '../basis.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { ChoiceName, NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
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

/** Something the crew does several times over in one item. */
export interface Task {
  /** Assumption that says how long it takes once. */
  readonly time: NumberName;
  readonly count: number;
  /** Step that holds the count in the working. */
  readonly symbol: string;
}

/** The metal to remove from one item with one rod. Its depths follow from the sizes alone: they are the same in every draw. */
export interface Work {
  /** Holes pierced at the rod's own width, limited by slag getting out. Steps `w`, `x`, `n` of the working. */
  readonly pierceWidth: number;
  readonly pierceDepth: number;
  readonly pierces: number;
  /** Volume removed besides, not limited by slag [m3]. Step `V`. */
  readonly freeVolume: number;
  /** How deep in the work the tip gets: a rod must still reach from the holder to there [m]. Step `reach`. */
  readonly reach: number;
  /** Places where a rod is lit anew; each rod is lit at least once. Step `starts`. */
  readonly starts?: number;
  readonly tasks?: readonly Task[];
}

/** What of the work of one item a draw changes, one value for each draw. */
export interface WorkDraws {
  readonly pierceWidth: Float64Array;
  readonly pierces: Float64Array;
  readonly freeVolume: Float64Array;
  /** 0 where the work names no places to start at. */
  readonly starts: Float64Array;
  /** Time of all tasks [s]. */
  readonly tasks: Float64Array;
}

/** Something the rod's work must fit into. */
export interface Opening {
  readonly width: number;
  /** Size it is, for messages. */
  readonly name: string;
  /** Width the rod makes over its outside diameter; `pierce width` where left out. */
  readonly ratio?: NumberName;
  /** What the rod does to it, in words; `pierces` where left out. */
  readonly does?: string;
}

/** How a family of functions is declared: everything else follows from it. */
export interface Operation<G extends string = string> {
  /** Name in the functions: `PIN`. */
  readonly id: string;
  readonly summary: string;
  readonly sizes: Readonly<Record<G, SizeParameter>>;
  /** Names of `sizes` in the order of the arguments. */
  readonly order: readonly G[];
  /** Word that names the material where the function does not; `material` where left out. */
  readonly material?: ChoiceName;
  /** Refuses sizes that do not fit each other and fills in what the operation plans. */
  plan(sizes: Sizes<G>, a: Assumptions, trace?: Trace): Readonly<Record<G, number>>;
  /** Narrowest opening the rod must pass, or undefined where there is none. */
  opening(sizes: Readonly<Record<G, number>>): Opening | undefined;
  /** Ways to do it, where there is more than one, and the word that chooses; `quickest` takes the one with the least time. */
  readonly methods?: { readonly choice: ChoiceName; readonly names: readonly string[] };
  /** `read` gives the assumptions in force, or one draw of them. */
  work(
    sizes: Readonly<Record<G, number>>,
    rod: Rod,
    read: ReadNumber,
    a: Assumptions,
    trace?: Trace,
    method?: string,
  ): Work;
  /**
   * `work` for all draws at once: fills `into`, whose columns come as those of the work in force, with the time of its tasks drawn. `drawn` gives the draws of
   * an assumption. Written out where lists must be quick; `work` is asked for each draw where it is left out.
   */
  draw?(
    sizes: Readonly<Record<G, number>>,
    rod: Rod,
    drawn: (name: NumberName) => Float64Array,
    a: Assumptions,
    into: WorkDraws,
    method?: string,
  ): void;
  /** Assumptions besides those of all operations that `work` and its tasks rest on, so that the spread draws them. */
  readonly factors?: readonly NumberName[];
  /** Gauge pressure at the holder [Pa]. */
  pressure(sizes: Readonly<Record<G, number>>, a: Assumptions, trace?: Trace): number;
  /** Crew times that do not depend on the burning, all in s. */
  readonly crewTimes: readonly NumberName[];
  /** Time the item cools before the next step [s]; the crew waits through it unless a schedule says otherwise. */
  cooling?(sizes: Readonly<Record<G, number>>, basis: Basis, trace?: Trace): number;
  /** Rating of the ram that pushes the item out [N]. */
  ram?(sizes: Readonly<Record<G, number>>, basis: Basis, trace?: Trace): number;
  readonly cautions: readonly string[];
}

export function defineOperation<const G extends string>(operation: Operation<G>): Operation<G> {
  return operation;
}

/** Records the sizes as given: step symbols from `symbols`. */
export function recordSizes<G extends string>(
  operation: { readonly sizes: Readonly<Record<G, SizeParameter>> },
  sizes: Sizes<G>,
  symbols: Readonly<Record<G, string>>,
  trace: Trace | undefined,
): void {
  if (!trace) return;
  for (const name of Object.keys(symbols) as G[]) {
    const value = sizes[name];
    if (value !== undefined)
      trace.add({
        name,
        symbol: symbols[name],
        value,
        quantity: operation.sizes[name].quantity,
        formula: 'given',
        kind: 'input',
        source: '',
      });
  }
}
