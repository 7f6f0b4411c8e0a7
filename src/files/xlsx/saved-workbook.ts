import type { Cell } from '../../sheet/host-function.ts';
import type { Area } from './address.ts';
import type { Archive } from './zip.ts';

/**
 * How a formula stands in the file: for itself; over a fixed area, entered with ctrl+shift+enter; so that it spills;
 * or as a what-if table, which is no formula of the sheet's.
 */
export type FormulaKind = 'plain' | 'array' | 'dynamic' | 'table';

export interface SavedFormula {
  /** As stored, without `=`. */
  readonly text: string;
  readonly kind: FormulaKind;
  /** Cells that its results fill; the cell itself for a plain formula. */
  readonly area: Area;
}

export interface SavedCell {
  readonly row: number;
  readonly column: number;
  /** The value in the file: typed, or the last result of the formula. */
  readonly value: Cell;
  readonly formula?: SavedFormula;
  /** Number of its look. */
  readonly style: number;
  /** Where the element stands in the part's text. */
  readonly start: number;
  readonly end: number;
}

/** A row of the part, for cells to be put in: `inside` is the place before its closing tag. */
export interface SavedRow {
  readonly row: number;
  readonly start: number;
  readonly inside: number;
  /** Whether it has no closing tag of its own. */
  readonly empty: boolean;
  /** By a filter or by the user. */
  readonly hidden: boolean;
}

export interface SavedSheet {
  readonly name: string;
  readonly part: string;
  readonly text: string;
  /** Row by row, left to right. */
  readonly cells: readonly SavedCell[];
  readonly rows: readonly SavedRow[];
  /** The place before the closing tag of the rows; undefined where the sheet has no rows element to put rows in. */
  readonly afterRows: number | undefined;
}

export interface SavedTable {
  readonly name: string;
  /** Index of its sheet. */
  readonly sheet: number;
  readonly area: Area;
  readonly columns: readonly string[];
  readonly headings: number;
  readonly totals: number;
}

export interface SavedName {
  readonly name: string;
  /** Index of the sheet it belongs to; undefined where it belongs to the workbook. */
  readonly sheet: number | undefined;
  readonly formula: string;
}

export interface SavedWorkbook {
  readonly archive: Archive;
  readonly sheets: readonly SavedSheet[];
  readonly names: readonly SavedName[];
  readonly tables: readonly SavedTable[];
  /** Whether its days are counted from 1904, instead of from 1900. */
  readonly daysFrom1904: boolean;
  /** Whether it carries macros, which are never run. */
  readonly macros: boolean;
}
