/**
 * A function as a host sees it: a name, texts for its help, and a call on cells.
 *
 * Every host adapter (the spreadsheet's, the trial workbook's, the command line's) is written against
 * this and nothing else of ours, and so can be tried with invented functions.
 */
import type { Cell, CellError, Scalar } from '../catalogue/cell.ts';
import type { WorkedStep } from '../core/model/step.ts';

export type { Cell, CellError, Scalar };

/** An argument as it came: `undefined` where it was left out, one cell, or a range by rows. */
export type Argument = undefined | Cell | readonly (readonly Cell[])[];

export interface HostParameter {
  readonly name: string;
  readonly summary: string;
  readonly optional: boolean;
  /** As a user would type it in a formula. */
  readonly example: string;
  /** A 0 cannot be meant here, so that a host that hands blank cells over as 0 can take them for blank. */
  readonly zeroIsBlank?: boolean;
  /** A range handed over as it stands. */
  readonly whole?: boolean;
  /** A range whose length has nothing to do with that of others. */
  readonly apart?: boolean;
}

/** One step of a working, in the units of the sheet. */
export interface WorkingLine {
  readonly name: string;
  readonly symbol: string;
  readonly value: number | string;
  readonly unit: string;
  readonly formula: string;
  readonly kind: string;
  readonly source: string;
}

/** How one item is worked out, as far as it can be handed from one script to another. */
export interface ToldExplanation {
  readonly steps: readonly WorkedStep[];
  /** Symbol of the step that is the value, or the cell of the row that was asked for; undefined where none is. */
  readonly result: string | undefined;
  /** Names of the assumptions that it rests on. */
  readonly assumptions: ReadonlySet<string>;
}

/** The cells of a call, and how they were worked out where that was asked for too. */
export interface Calculated {
  readonly cells: readonly (readonly Cell[])[];
  readonly explanation?: ToldExplanation;
}

export interface HostFunction {
  /** Upper case with the namespace, as typed in a cell: `BURN.PIN.OXYGEN`. */
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly HostParameter[];
  /** Never throws; one row of one cell for a single value. */
  call(args: readonly Argument[]): readonly (readonly Cell[])[];
  /** It is worked out in one piece however long its list is: a host that has to go on answering does it aside. */
  readonly inOnePiece?: true;
  /** Of such a function, the call with how it was worked out, in one go. */
  explained?(args: readonly Argument[]): Calculated;
  /** The same call with pauses, where it takes long for long lists. */
  paused?(args: readonly Argument[]): Generator<undefined, readonly (readonly Cell[])[]>;
  /**
   * Calls of one item each that share their assumptions, given as one list: of each its place and its rows as it gives them by
   * itself, but for what is read in a long list; of one that is to be called by itself nothing. In between it pauses.
   */
  inList?(
    list: readonly Argument[],
  ): Generator<readonly [at: number, rows: readonly (readonly Cell[])[]] | undefined, void>;
  /** The working of each cell of the result, where the call asks for it to be shown on a card; undefined where it does not. */
  working?(args: readonly Argument[]): ((row: number, column: number) => readonly WorkingLine[]) | undefined;
}
