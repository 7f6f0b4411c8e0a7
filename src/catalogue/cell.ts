/** Contents of one cell: null is blank. */
export type Scalar = number | string | boolean | null;

/** A failed cell; `error` is the code the cell shows, `message` the text beside it. */
export interface CellError {
  readonly error: string;
  readonly message: string;
}

export type Cell = Scalar | CellError;

export const isCellError = (cell: Cell): cell is CellError => typeof cell === 'object' && cell !== null;
export const isBlankCell = (cell: Cell): boolean => cell === null || (typeof cell === 'string' && cell.trim() === '');
/** Where a 0 cannot be meant it is a blank cell, which older desktop hosts hand over as 0. */
export const isBlankOrZero = (cell: Cell): boolean => isBlankCell(cell) || cell === 0;
