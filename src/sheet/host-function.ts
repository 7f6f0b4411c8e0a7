/**
 * A function as a host sees it: a name, texts for its help, and a call on cells.
 *
 * Every host adapter (the spreadsheet's, the trial workbook's, the command line's) is written against
 * this and nothing else of ours, and so can be tried with invented functions.
 */

/** What a cell can hold; `null` is a blank cell. */
export type Scalar = number | string | boolean | null;

/** A failed cell: a code the host shows (`#VALUE!`, `#N/A`, ...) and why. */
export interface CellError {
  readonly error: string;
  readonly message: string;
}

export type Cell = Scalar | CellError;

/** An argument as it came: `undefined` where it was left out, one cell, or a range by rows. */
export type Argument = undefined | Cell | readonly (readonly Cell[])[];

export interface HostParameter {
  readonly name: string;
  readonly summary: string;
  readonly optional: boolean;
  readonly example: string;
}

export interface HostFunction {
  /** Upper case with the namespace, as typed in a cell: `BURN.PIN.OXYGEN`. */
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly HostParameter[];
  /** Never throws; one row of one cell for a single value. */
  call(args: readonly Argument[]): readonly (readonly Cell[])[];
}
