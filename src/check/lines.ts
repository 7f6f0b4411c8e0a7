import type { FormulaAt } from './looked-at.ts';
import type { Slot } from '../formula/read-formula.ts';

/** Down a column, or across a row. */
export type Direction = 'down' | 'across';

/** Formulas of one shape that stand in a line, in its order. */
export interface Line {
  readonly direction: Direction;
  readonly cells: readonly FormulaAt[];
  /** What each cell's formula says, told so that a filled line says the same in every cell. */
  readonly says: readonly string[];
  /** The same with references that follow no pattern as they stand, so that only like formulas say the same. */
  readonly exact: readonly string[];
  /** How each slot runs along the line. */
  readonly runs: readonly Run[];
}

/** Whether a side of a reference moves with the cell, stands still, or does as it likes; a constant stands still or does as it likes. */
type Way = 'moves' | 'stands' | 'free';
export interface Run {
  readonly start: Way;
  readonly end: Way;
}

export const along = (direction: Direction, at: { readonly row: number; readonly column: number }): number =>
  direction === 'down' ? at.row : at.column;

/** The lines of a workbook in one direction, of two cells or more. */
export function linesOf(formulas: readonly FormulaAt[], direction: Direction): readonly Line[] {
  const byPlace = new Map<string, FormulaAt[]>();
  for (const f of formulas) {
    const key = `${f.sheet}|${direction === 'down' ? f.column : f.row}|${f.read.shape}`;
    const found = byPlace.get(key);
    if (found) found.push(f);
    else byPlace.set(key, [f]);
  }
  return [...byPlace.values()]
    .filter((cells) => cells.length > 1)
    .map((cells) =>
      lineOf(
        [...cells].sort((x, y) => along(direction, x) - along(direction, y)),
        direction,
      ),
    );
}

function lineOf(cells: readonly FormulaAt[], direction: Direction): Line {
  const slots = cells[0]?.read.slots.length ?? 0;
  const columns = Array.from({ length: slots }, (_, i) => column(cells, i, direction));
  return {
    direction,
    cells,
    runs: columns.map((c) => c.run),
    says: cells.map((_, k) => columns.map((c) => c.says[k]).join('\n')),
    exact: cells.map((cell, k) =>
      columns
        .map((c, i) => {
          const slot = cell.read.slots[i];
          const free = c.run.start === 'free' || c.run.end === 'free';
          return free && slot?.reference ? slot.text : c.says[k];
        })
        .join('\n'),
    ),
  };
}

interface Told {
  /** What stands across the line, which never moves along it. */
  readonly beside: string;
  readonly start: number;
  readonly end: number;
}

function toldOf(slot: Slot | undefined, direction: Direction): Told {
  const reference = slot?.reference;
  if (!reference) return { beside: slot?.text ?? '', start: 0, end: 0 };
  const { sheet = '', area, whole } = reference;
  const { top, left, bottom, right } = area;
  const beside = direction === 'down' ? `${left}:${right}` : `${top}:${bottom}`;
  const size = slot.text.includes(':') ? 'range' : 'cell';
  return {
    beside: `${size} ${sheet.toLowerCase()}!${beside}${whole ? ' whole' : ''}`,
    ...(direction === 'down' ? { start: top, end: bottom } : { start: left, end: right }),
  };
}

/** One slot along the line: how it runs, and what it says in each cell. */
function column(
  cells: readonly FormulaAt[],
  slot: number,
  direction: Direction,
): { readonly run: Run; readonly says: readonly string[] } {
  const told = cells.map((c) => toldOf(c.read.slots[slot], direction));
  const at = cells.map((c) => along(direction, c));
  const beside = isHalf(most(told.map((t) => t.beside)), cells.length);
  const side = (value: (t: Told) => number): { readonly way: Way; readonly says: readonly string[] } => {
    const moves = told.map((t, k) => `+${value(t) - at[k]!}`);
    const stands = told.map((t) => `=${value(t)}`);
    const [moving, standing] = [most(moves), most(stands)];
    if (!isHalf(Math.max(moving, standing), cells.length)) return { way: 'free', says: told.map(() => '') };
    return moving >= standing ? { way: 'moves', says: moves } : { way: 'stands', says: stands };
  };
  const constant = told.every((_, k) => cells[k]?.read.slots[slot]?.reference === undefined);
  const [start, end] = constant
    ? [
        { way: 'stands' as const, says: told.map(() => '') },
        { way: 'stands' as const, says: told.map(() => '') },
      ]
    : [side((t) => t.start), side((t) => t.end)];
  return {
    run: { start: start.way, end: end.way },
    says: told.map((t, k) => `${beside ? t.beside : ''} ${start.says[k]} ${end.says[k]}`),
  };
}

/** How often the commonest of these comes. */
function most(of: readonly string[]): number {
  const counts = new Map<string, number>();
  for (const each of of) counts.set(each, (counts.get(each) ?? 0) + 1);
  return [...counts.values()].reduce((m, count) => Math.max(m, count), 0);
}

const isHalf = (count: number, of: number): boolean => count >= 2 && count >= of / 2;

/** Cells of a line that say the same one after the other. */
export interface Block {
  readonly says: string;
  readonly cells: readonly FormulaAt[];
}

export function blocksOf({ cells, says }: Line): readonly Block[] {
  const blocks: { says: string; cells: FormulaAt[] }[] = [];
  cells.forEach((cell, k) => {
    const last = blocks.at(-1);
    if (last !== undefined && last.says === says[k]) last.cells.push(cell);
    else blocks.push({ says: says[k] ?? '', cells: [cell] });
  });
  return blocks;
}
