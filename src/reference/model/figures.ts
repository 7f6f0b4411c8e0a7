/** Figures of the model's pages: every one is what a cell of the sheet would show, calculated when the pages are written. */
import { findFunction } from '../../catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../catalogue/cell.ts';
import type { NumberAssumption } from '../../core/assumptions/assumption.ts';
import { numberAssumption, type NumberName } from '../../core/assumptions/registry.ts';
import { call } from '../../sheet/call.ts';
import type { Argument } from '../../sheet/host-function.ts';
import { numberText } from '../../pane/charts/number-text.ts';

/** What a function gives in cells. */
export function cellsOf(name: string, ...args: readonly Argument[]): readonly (readonly Cell[])[] {
  const found = findFunction(name);
  if (!found) throw new Error(`there is no function ${name}`);
  return call(found, args);
}

/** The one number that a function gives; undefined where it has no solution. */
export function maybeNumber(name: string, ...args: readonly Argument[]): number | undefined {
  const cell = cellsOf(name, ...args)[0]?.[0];
  return typeof cell === 'number' ? cell : undefined;
}

/** The one number that a function gives; a page without it cannot be written. */
export function numberOf(name: string, ...args: readonly Argument[]): number {
  const cell = cellsOf(name, ...args)[0]?.[0];
  if (typeof cell === 'number') return cell;
  throw new Error(
    `${name}(${args.map(String).join(', ')}) gives ${cell !== undefined && isCellError(cell) ? cell.message : String(cell)}`,
  );
}

export type Row = Readonly<Record<string, Cell>>;

/** A table's rows by heading, without the units of the headings. */
export function rowsOf(name: string, ...args: readonly Argument[]): readonly Row[] {
  const [heading = [], ...rows] = cellsOf(name, ...args);
  return rows.map((row) =>
    Object.fromEntries(heading.map((h, i) => [typeof h === 'string' ? h.replace(/, [^,]*$/, '') : '', row[i] ?? null])),
  );
}

/** A number of a row; undefined where the cell holds none. */
export function maybeCell(row: Row | undefined, column: string): number | undefined {
  const cell = row?.[column];
  return typeof cell === 'number' ? cell : undefined;
}

/** A number of a row; a page without it cannot be written. */
export function numberIn(row: Row | undefined, column: string): number {
  const cell = row?.[column];
  if (typeof cell === 'number') return cell;
  throw new Error(
    `no number under ${column}: ${typeof cell === 'object' && cell !== null ? cell.message : String(cell)}`,
  );
}

export function textIn(row: Row | undefined, column: string): string {
  const cell = row?.[column];
  return typeof cell === 'string' ? cell : typeof cell === 'number' ? numberText(cell) : '';
}

/** Value, low and high of an assumption, in its own unit. */
export const rangeOf = (name: NumberName): NumberAssumption => numberAssumption(name);

/** Equal steps from `from` to `to`, both counted, without the last bits that adding leaves. */
export const steps = (from: number, to: number, step: number): readonly number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => Number((from + i * step).toPrecision(12)));
