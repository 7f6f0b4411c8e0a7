import { counted } from '../core/units/counted.ts';
import type { Cell } from '../catalogue/cell.ts';
import { unequalRanges } from '../core/messages.ts';
import type { Argument } from './host-function.ts';

export type Grid = readonly (readonly Cell[])[];

export interface Shape {
  readonly rows: number;
  readonly columns: number;
}

/** One argument as a grid, with its name for messages. */
export interface NamedGrid {
  readonly name: string;
  readonly grid: Grid;
}

/** A cell as a sheet can hold it: a faulty host may hand over a number that is none, or a hole. */
function heldCell(cell: Cell | undefined): Cell {
  if (cell === undefined) return null;
  return typeof cell === 'number' && !Number.isFinite(cell) ? { error: '#NUM!', message: '' } : cell;
}

/** An argument with such cells only, and rows of one length. */
export function heldArgument(argument: Argument): Argument {
  if (argument === undefined) return undefined;
  if (!Array.isArray(argument)) return heldCell(argument as Cell);
  const grid = argument as Grid;
  const width = grid.reduce((most, row) => Math.max(most, row.length), 0);
  if (grid.every((row) => row.length === width && row.every((cell) => heldCell(cell) === cell))) return grid;
  return grid.map((row) => Array.from({ length: width }, (_, i) => heldCell(row[i])));
}

export function asGrid(argument: Argument): Grid | undefined {
  if (argument === undefined) return undefined;
  if (!Array.isArray(argument)) return [[argument as Cell]];
  const grid = argument as Grid;
  return grid.length === 0 || grid[0]?.length === 0 ? [[null]] : grid;
}

export function shapeOf(grid: Grid): Shape {
  return { rows: grid.length, columns: grid[0]?.length ?? 0 };
}

export function shapeText({ rows, columns }: Shape): string {
  return `${counted(rows, 'row')} by ${counted(columns, 'column')}`;
}

/**
 * The shape that arguments spill to, as the host's own arithmetic has it: each is one cell, one row, one column,
 * or of the full shape. Throws `#VALUE!` naming the two that do not fit.
 */
export function broadcastShape(grids: readonly NamedGrid[]): Shape {
  return { rows: common(grids, (s) => s.rows), columns: common(grids, (s) => s.columns) };
}

function common(grids: readonly NamedGrid[], measure: (s: Shape) => number): number {
  let most = 1;
  let setBy: NamedGrid | undefined;
  for (const each of grids) {
    const n = measure(shapeOf(each.grid));
    if (n === 1 || n === most) continue;
    if (setBy)
      throw unequalRanges(setBy.name, shapeText(shapeOf(setBy.grid)), each.name, shapeText(shapeOf(each.grid)));
    most = n;
    setBy = each;
  }
  return most;
}

/** The cell of a grid that takes part in row `r` and column `c` of the spill. */
export function cellAt(grid: Grid, r: number, c: number): Cell {
  const row = grid.length === 1 ? grid[0] : grid[r];
  if (!row) return null;
  return (row.length === 1 ? row[0] : row[c]) ?? null;
}
