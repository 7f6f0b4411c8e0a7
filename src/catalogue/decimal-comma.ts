import { withPoints } from '../core/units/decimal-comma.ts';
import type { Cell } from './cell.ts';
import type { Cells } from './read-table.ts';

/** A cell of a sheet whose decimal mark is a comma, as all that reads it expects; a text of two meanings is an error in its place. */
export function cellWithPoint(cell: Cell): Cell {
  if (typeof cell !== 'string') return cell;
  const read = withPoints(cell);
  return typeof read === 'string' ? read : { error: read.code, message: read.message };
}

/** All cells of an argument, before anything reads them. */
export function argumentWithPoints(argument: Cell | Cells | undefined): Cell | Cells | undefined {
  if (!Array.isArray(argument)) return argument === undefined ? undefined : cellWithPoint(argument as Cell);
  return (argument as Cells).map((row) => row.map(cellWithPoint));
}
