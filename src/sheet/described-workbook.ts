/** A workbook in plain words, for hosts to show, calculate and store; and its values once it is calculated. */
import type { Cell, CellError, Scalar } from './host-function.ts';

/** What stands in a cell: a value, a formula (a text that begins with `=`), or a text that shall stay one. */
export type CellContent = Scalar | CellError | { readonly text: string };

export interface CellLook {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly size?: number;
  readonly color?: string;
  readonly background?: string;
  /** Number format in the sheet's own notation, as `0.0`. */
  readonly format?: string;
  readonly wrap?: boolean;
  readonly align?: 'left' | 'center' | 'right';
  /** A wrapped text begins at the top where this says nothing. */
  readonly vertical?: 'top' | 'center' | 'bottom';
  readonly underline?: boolean;
  readonly strike?: boolean;
  /** Name of the typeface. */
  readonly face?: string;
  readonly borders?: Readonly<Partial<Record<Side, Border>>>;
  /** May be typed over where the sheet is protected. */
  readonly unlocked?: boolean;
}

export type Side = 'left' | 'right' | 'top' | 'bottom';

export interface Border {
  readonly line: BorderLine;
  readonly color?: string;
}

/** Lines in the words of the open workbook format (ISO/IEC 29500-1, 18.18.3). */
export const BORDER_LINES = [
  'thin',
  'hair',
  'dotted',
  'dashed',
  'dashDot',
  'dashDotDot',
  'double',
  'medium',
  'mediumDashed',
  'mediumDashDot',
  'mediumDashDotDot',
  'slantDashDot',
  'thick',
] as const;
export type BorderLine = (typeof BORDER_LINES)[number];

export interface SheetDescription {
  readonly name: string;
  /** From A1 on, row by row. */
  readonly rows?: readonly (readonly CellContent[])[];
  /** By address; goes over `rows`. */
  readonly cells?: Readonly<Record<string, CellContent>>;
  /** Room for the sheet, rows and columns; by default what is filled and space to spill. */
  readonly size?: readonly [rows: number, columns: number];
  /** Looks by range, as `A1:F1`; later ones go over earlier ones. */
  readonly looks?: Readonly<Record<string, CellLook>>;
  /** Column widths in px, by column letter or range of letters, as `B` or `C:F`. */
  readonly widths?: Readonly<Record<string, number>>;
  /** Row heights in px, by row number as shown, from 1. */
  readonly heights?: Readonly<Record<number, number>>;
  readonly frozenRows?: number;
  readonly frozenColumns?: number;
  /** Ranges whose cells are shown as one. */
  readonly merged?: readonly string[];
  readonly hidden?: boolean;
  /** Rows by number as shown, and columns by letter, that are not shown. */
  readonly hiddenRows?: readonly number[];
  readonly hiddenColumns?: readonly string[];
}

export interface WorkbookDescription {
  readonly sheets: readonly SheetDescription[];
  /** Names of ranges or formulas: `rods` for `'Job sheet'!$A$2:$A$30`. */
  readonly definedNames?: Readonly<Record<string, string>>;
}

/** A calculated workbook, read by sheet and address or by reference (`'Job sheet'!A1:C9`; the first sheet where none is named). */
export interface CalculatedWorkbook {
  values(reference: string): readonly (readonly Cell[])[];
  /** The value of the formula in a cell with all that it spilled; the cell alone where it spilled nothing. */
  spilled(reference: string): readonly (readonly Cell[])[];
  /** The same by the sheet's place in the workbook and by row and column from 0: quicker for many cells, and for any name of a sheet. */
  valueAt(sheet: number, row: number, column: number): Cell;
  spilledAt(sheet: number, row: number, column: number): readonly (readonly Cell[])[];
}
