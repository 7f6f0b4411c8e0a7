import type { Cell } from '../catalogue/cell.ts';
import type { Check } from '../check/check.ts';
import type { CheckedWorkbook } from '../check/workbook.ts';
import type { Argument, Calculated } from '../sheet/host-function.ts';
import type { TableLook } from '../sheet/table-look.ts';
import type { Entered, FormulaCell } from './unknown-name.ts';

/** A workbook as it was looked through, and what was found. */
export interface Looked {
  readonly workbook: CheckedWorkbook;
  readonly check: Check;
}

/** Looks through the whole workbook and says what it found. */
export type LookThrough = (
  port: Pick<SheetPort, 'read' | 'formulas'>,
  progress: (done: number, of: number) => void,
) => Promise<Looked>;

/** A cell the user has selected. */
export interface SelectedCell {
  readonly sheet: string;
  /** Without the sheet: `C5`. */
  readonly address: string;
  /** With `=`, best in the locale-independent writing (`,` between arguments, decimal points); empty where the cell holds no formula. */
  readonly formula: string;
  readonly value: Cell;
  /** Where the value was spilled from another cell: that cell's address and the place within the spill, from 0. */
  readonly spill?: { readonly from: string; readonly formula: string; readonly row: number; readonly column: number };
}

/** What a job in an open workbook may begin with: a blank list, or all that the template has. */
export type JobKind = 'list' | 'template';

/** Sheets and names that were added to a workbook, as they are called there. */
export interface Added {
  readonly sheets: readonly string[];
  readonly names: readonly string[];
}

/** A table in the sheet, from its first cell on, and how it is to look. */
export interface TableToFormat {
  readonly sheet: string;
  readonly address: string;
  /** As it stands, with its heading. */
  readonly rows: readonly (readonly Cell[])[];
  readonly look: TableLook;
}

/** A heading in this row or farther down would take the sheet's room if it stayed in sight. */
export const LAST_FROZEN = 12;

/** A value to write into a cell, such as `C5`. */
export interface WrittenCell {
  readonly address: string;
  readonly value: number | string;
}

/** All that the pane asks of a spreadsheet: the Office host and the trial workbook each give one. */
export interface SheetPort {
  /** Calls back now and at each change of the selection or of any cell's value; gives a function that stops it. */
  onSelection(listener: (cell: SelectedCell | undefined) => void): () => void;
  /**
   * Values of a reference as it stands in a formula on `sheet`: cell, range, whole column, other sheet, named range, spill, part of a table.
   * `address` is the cell whose formula it stands in: `[@length]` is of its row. Rejects with a reason in plain words.
   */
  read(reference: string, sheet: string, address: string): Promise<readonly (readonly Cell[])[]>;
  /** Calculates a call of a function, by its name, where the host does it so that the page goes on answering meanwhile. */
  calculateCall?(name: string, args: readonly Argument[]): Promise<Calculated>;
  readonly formulas?: {
    /** The formulas of the workbook. */
    all(): Promise<readonly FormulaCell[]>;
    /** Whether those with no function of ours are left out. */
    readonly oursAlone?: true;
    /** Enters each cell's formula as it stands, and says why where it cannot be; where the host can keep a formula whose function it does not know. */
    enter?(cells: readonly FormulaCell[]): Promise<Entered>;
  };
  /** Fetches what looks through the whole workbook. */
  looker?(): Promise<{ readonly lookThrough: LookThrough }>;
  /** Shows a sheet and selects a cell of it; where that can be done from here. */
  goTo?(sheet: string, address: string): Promise<void>;
  /** Writes values into cells of a sheet, all or none of them. Rejects with a reason in plain words, so where one of them holds a formula or is filled by one. */
  write?(sheet: string, cells: readonly WrittenCell[]): Promise<void>;
  /** Puts a formula, in the locale-independent writing, in the selected cell. */
  putFormula(formula: string): Promise<void>;
  /** Adds a sheet with these rows from A1 and shows it; a taken name gets a number. Gives the name it got. */
  addSheet(name: string, rows: readonly (readonly Cell[])[]): Promise<string>;
  /**
   * Adds the sheets of a new job behind those there are, with the names it defines, and shows the first; a taken name gets a
   * number. All of it or nothing, and nothing that was there is changed. Absent where the host cannot.
   */
  readonly beginJob?: (kind: JobKind) => Promise<Added>;
  /** Sets number formats, alignment and the look of the headings of a table; widens columns, never narrows them. */
  readonly format?: (table: TableToFormat) => Promise<void>;
}
