import type { Cell } from '../catalogue/cell.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import type { Basis } from '../core/basis.ts';
import type { RaisedCaution } from '../core/safety/cautions.ts';
import type { Kind, WorkedStep } from '../core/model/step.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import type { SelectedCell } from './port.ts';

/** One argument of the explained call. */
export interface ExplainedArgument {
  readonly label: string;
  readonly summary: string;
  /** As it stands in the formula; empty where left out. */
  readonly text: string;
  /** What the item's cell holds, as read; undefined where nothing came. */
  readonly came: string | undefined;
  /** As the function takes it, with its unit, where that says more than `came`. */
  readonly taken: string | undefined;
  readonly problem?: string;
}

/** An assumption that the calculation rests on, in its own unit. */
export interface UsedAssumption {
  readonly name: string;
  readonly summary: string;
  readonly value: number | string;
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
  readonly kind: Kind;
  /** Key in the register of sources; empty where the user's own. */
  readonly source: string;
}

export interface Line {
  readonly heading: string;
  readonly value: Cell;
  /** Whether the selected cell shows it. */
  readonly selected: boolean;
}

export type Outcome =
  | {
      readonly kind: 'value';
      readonly value: number | string;
      readonly unit: string;
      /** Low and high in eight cases of ten, as the plan of the same item has them. */
      readonly range?: readonly [low: number, high: number];
    }
  /** One row of a plan. */
  | { readonly kind: 'row'; readonly lines: readonly Line[] }
  | { readonly kind: 'table'; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: 'blank' }
  | { readonly kind: 'error'; readonly error: string; readonly message: string }
  /** Arguments that the pane cannot read stand in the way. */
  | { readonly kind: 'unread' };

/** One item of one call in the selected cell, explained; what every section of the pane is given. */
export interface Explained {
  readonly cell: SelectedCell;
  readonly declaration: Declaration;
  /** The operation of the item, or the function's own family. */
  readonly family: string;
  /** The call as it stands in the formula. */
  readonly text: string;
  readonly system: UnitSystem;
  /** Which of the items that the arguments hold, from 0. */
  readonly item: number;
  readonly items: number;
  readonly arguments: readonly ExplainedArgument[];
  readonly outcome: Outcome;
  /** All cells of the call's result under their headings; empty where it is a value for each item. */
  readonly table: readonly (readonly Cell[])[];
  /** What is to be said of the value the cell shows, such as that its formula gives another now. */
  readonly note: string | undefined;
  /** What is to be asked about the sizes, such as whether they were meant in the other unit; empty where nothing is. */
  readonly question: string;
  /** The working: of the selected column alone where the cell is one of a row. */
  readonly steps: readonly WorkedStep[];
  /** Symbol of the step that is the cell's value, if one is. */
  readonly result: string | undefined;
  /** The value of a step by its symbol, SI, of those that are not shown too; undefined where there is none. */
  readonly stepValue: (symbol: string) => number | string | undefined;
  readonly assumptions: readonly UsedAssumption[];
  readonly cautions: readonly RaisedCaution[];
  /** What `calculate` was given, SI, for drawings and charts; undefined where the arguments failed. */
  readonly values: Readonly<Record<string, unknown>> | undefined;
  readonly basis: Basis | undefined;
}
