import type { Assumptions } from '../assumptions/assumptions.ts';
import type { ChoiceName, NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import type { Step } from '../model/step.ts';
import type { QuantityName } from '../units/quantities.ts';

/** One size of an operation, as the functions take it. Limits in SI. */
export interface SizeParameter {
  readonly summary: string;
  /** Symbol of its step. */
  readonly symbol: string;
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
/** All sizes, with those that the operation planned. */
export type Planned<G extends string = string> = Readonly<Record<G, number>>;

/** Something the crew does several times over in one item. */
export interface Task {
  /** Assumption that says how long it takes once. */
  readonly time: NumberName;
  /** Step that holds how often. */
  readonly symbol: string;
  /** Step of that before it was rounded up, where it was: ways are weighed by this. */
  readonly even?: string;
}

/** Steps of the metal to remove from one item with one rod, and what goes with them. */
export interface Work {
  /**
   * In symbols of the sizes, `d_rod` and assumptions: `V`, the volume removed that slag does not limit, `reach`, how deep in the
   * work the tip gets, `starts`, places where a rod is lit anew, where there are such; and, where holes are pierced at a width
   * that slag must leave by, their width `w`, depth `x` and number `n`.
   */
  readonly steps: readonly Step[];
  readonly tasks?: readonly Task[];
  /** Step of `starts` before they were rounded up, where they were: ways are weighed by this. */
  readonly even?: string;
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

/** How an operation sets its tip pressure. */
export interface PressureRule {
  /** Ends with the step `p`, or that of a second phase. */
  readonly steps: readonly Step[];
  /** Step that holds the thickness of the work, for the rule under water. */
  readonly thickness: string;
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
  /** Refuses sizes that do not fit each other. */
  check?(sizes: Sizes<G>, a: Assumptions): void;
  /** Steps that plan a size where it is left out, in symbols of the others. */
  readonly plans?: Readonly<Partial<Record<G, readonly Step[]>>>;
  /** Narrowest opening the rod must pass, or undefined where there is none. */
  opening(sizes: Planned<G>): Opening | undefined;
  /** Ways to do it, where there is more than one, and the word that chooses; any other word takes the one that costs least. */
  readonly methods?: { readonly choice: ChoiceName; readonly names: readonly string[] };
  /** Size that is the width of its pierces, so that slag leaves a larger one faster. */
  readonly piercedAt?: G;
  work(a: Assumptions, method: string | undefined): Work;
  /** What scales the metal removed for the same oxygen, besides the site, and what it is a factor of in words. */
  removal?(a: Assumptions): { readonly factor: NumberName; readonly words: string } | undefined;
  /** Assumptions besides those of all operations that the work and its tasks rest on, so that the spread draws them. */
  readonly factors?: readonly NumberName[];
  readonly pressure: PressureRule;
  /** How it sets the tip pressure of its second phase, in which the volume `V` is removed; ends with `p_widen`. The same as before where absent. */
  readonly widening?: PressureRule;
  /** Crew times that do not depend on the burning. */
  readonly crewTimes: readonly NumberName[];
  /** How the item cools before the next step; the crew waits through it unless a schedule says otherwise. */
  readonly cooling?: {
    /** [s], after work at a pace [kg/s] of metal removed over time at the work */
    time(sizes: Planned<G>, pace: number, basis: Basis): number;
    /** Assumptions that the spread draws it from. */
    factors(a: Assumptions): readonly NumberName[];
    /** In each draw of these, columns in their order, where so much is planned [s]; overwritten by the next item. */
    draws(
      sizes: Planned<G>,
      pace: number,
      planned: number,
      columns: readonly Float64Array[],
      basis: Basis,
    ): Float64Array;
    /** Ends with the step `t_cool`, that time. `M` and `t_work` stand before. */
    steps(basis: Basis): readonly Step[];
  };
  /** Rating of the ram that pushes the item out. Ends with the step `R_ram`. */
  ram?(a: Assumptions): readonly Step[];
  readonly cautions: readonly string[];
}

export function defineOperation<const G extends string>(operation: Operation<G>): Operation<G> {
  return operation;
}
