import type { Cell } from '../sheet/host-function.ts';
import type { Area } from '../files/xlsx/address.ts';

/** A cell as it is looked at: what it shows, and its formula. */
export interface CheckedCell {
  readonly row: number;
  readonly column: number;
  readonly value: Cell;
  /** With `=`, the names of our functions as they are typed, and cells in place of names and tables. */
  readonly formula?: string;
  /** The formula as it is told, where that differs. */
  readonly told?: string;
  /** Cells that it fills, where they are more than its own. */
  readonly area?: Area;
}

export interface CheckedSheet {
  readonly name: string;
  readonly cells: readonly CheckedCell[];
}

/** A workbook to be looked at, wherever it comes from. */
export interface CheckedWorkbook {
  readonly sheets: readonly CheckedSheet[];
  /** What stands in names that formulas have as their assumptions, where the cells behind them are not known. */
  readonly named?: ReadonlyMap<string, readonly (readonly Cell[])[]>;
}

/** A cell by the place of its sheet, counted from 0 like rows and columns. */
export interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** What the recalculation says of a cell that a formula of ours fills. */
export interface Recalculated extends Place {
  /** The cell of the formula. */
  readonly of: Place;
  readonly is: 'error' | 'moved' | 'other assumptions';
  /** The reason in words. */
  readonly text: string;
}

/** What can be wrong. */
export const KINDS = [
  'error',
  'formula as text',
  'typed over',
  'formula missing',
  'differs from its neighbours',
  'range stops short',
  'range starts late',
  'rows do not match',
  'wrong column',
  'range slides',
  'mixed assumptions',
  'moved',
  'older version',
  'other assumptions',
] as const;
export type Kind = (typeof KINDS)[number];

/** Something to look at; its first cell leads there. */
export interface Finding {
  readonly kind: Kind;
  readonly cells: readonly Place[];
  readonly text: string;
}

export const keyOf = ({ sheet, row, column }: Place): string => `${sheet}|${row}|${column}`;

export const byPlace = (x: Place, y: Place): number => x.sheet - y.sheet || x.row - y.row || x.column - y.column;
