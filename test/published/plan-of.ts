import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

/** What a function gives in cells. */
export function cellsOf(name: string, ...args: readonly Argument[]): readonly (readonly Cell[])[] {
  const found = findFunction(name);
  if (!found) throw new Error(`no function ${name}`);
  return call(found, args);
}

/** The one number that a function gives. */
export const numberOf = (name: string, ...args: readonly Argument[]): number =>
  cellsOf(name, ...args)[0]?.[0] as number;

/** A cell as a text; nothing for a failed or blank one. */
export const textOf = (cell: unknown): string =>
  typeof cell === 'string' ? cell : typeof cell === 'number' ? String(cell) : '';

/** The rows of a table by heading, without the units in the headings. */
export function rowsOf(name: string, ...args: readonly Argument[]): readonly Readonly<Record<string, Cell>>[] {
  const [heading = [], ...rows] = cellsOf(name, ...args);
  return rows.map((row) =>
    Object.fromEntries(heading.map((h, i) => [textOf(h).replace(/, [^,]*$/, ''), row[i] ?? null])),
  );
}
