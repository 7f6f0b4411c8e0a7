/**
 * A function as a host sees it: a name, texts for its help, and a call on cells.
 *
 * Every host adapter (the spreadsheet's, the trial workbook's, the command line's) is written against
 * this and nothing else of ours, and so can be tried with invented functions.
 */
import type { Cell, CellError, Scalar } from '../catalogue/cell.ts';

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

export interface HostFunction {
  /** Upper case with the namespace, as typed in a cell: `BURN.PIN.OXYGEN`. */
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly HostParameter[];
  /** Never throws; one row of one cell for a single value. */
  call(args: readonly Argument[]): readonly (readonly Cell[])[];
  /** The same call with pauses, where it takes long for long lists. */
  paused?(args: readonly Argument[]): Generator<undefined, readonly (readonly Cell[])[]>;
  /** The working of each cell of the result, where the call asks for it to be shown on a card; undefined where it does not. */
  working?(args: readonly Argument[]): ((row: number, column: number) => readonly WorkingLine[]) | undefined;
}
