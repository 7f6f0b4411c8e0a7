import { toCol } from '@borgar/fx';
import { isBlankCell, isCellError, type Cell } from '../../catalogue/cell.ts';
import { isSame } from '../../sheet/same-value.ts';
import { isKnown, readSelectedCell, type ReadCell } from '../explain-cell.ts';
import { findCalls } from '../../formula/formula-calls.ts';
import type { ReadCall } from '../read-call.ts';
import type { SheetPort } from '../port.ts';
import { areaOf } from '../../formula/reference-area.ts';
import type { FormulaCell } from '../unknown-name.ts';

/** A cell that does not hold what this version gives. */
export interface MovedCell {
  readonly sheet: string;
  readonly address: string;
  readonly before: Cell;
  readonly after: Cell;
}

export interface WhatMoves {
  readonly moved: readonly MovedCell[];
  /** Formulas that were compared. */
  readonly compared: number;
  /** Cells that were not: our functions are a part of their formulas only, or hold no result, or read what the pane cannot. */
  readonly left: readonly FormulaCell[];
}

type Rows = readonly (readonly Cell[])[];

/** A move can lead to others, through a plan to its stock and its price; a chain longer than this is not followed. */
const MOST_ROUNDS = 6;
/** What stands in a cell that has no result. */
const NO_RESULT = /^#(NAME\?|BUSY!|CONNECT!|GETTING_DATA|BLOCKED!)/;

/** Whether a cell holds BURN.VERSION and nothing else. */
export function isVersion({ formula }: FormulaCell): boolean {
  const [call] = findCalls(formula);
  return call?.whole === true && call.name === 'BURN.VERSION';
}

/** Calculates every cell of ours anew, from what the cells hold and from what came of those before, and changes nothing. */
export async function whatMoves(
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read' | 'calculateCall'>,
  progress: (done: number, of: number) => void,
): Promise<WhatMoves> {
  const ours = formulas.filter((cell) => findCalls(cell.formula).length > 0 && !isVersion(cell));
  const moved = new Map<string, MovedCell>();
  const kept = new Map<string, Promise<Rows>>();
  const read = (reference: string, sheet: string, address: string): Promise<Rows> => {
    // `[@length]` is of its own row.
    const key = `${sheet}|${reference}|${reference.includes('[') ? address : ''}`;
    const rows = kept.get(key) ?? port.read(reference, sheet, address);
    kept.set(key, rows);
    return rows;
  };
  const asMoved = async (reference: string, sheet: string, address: string): Promise<Rows> => {
    const rows = await read(reference, sheet, address);
    const at = placeOf(reference, sheet);
    return at && moved.size > 0
      ? rows.map((row, r) => row.map((cell, c) => moved.get(keyOf(at.sheet, at.top + r, at.left + c))?.after ?? cell))
      : rows;
  };
  const reads = new Map<FormulaCell, ReadCell>();
  const left = new Set<FormulaCell>();
  for (let round = 0, more = true; round < MOST_ROUNDS && more; round++) {
    more = false;
    for (const [i, cell] of ours.entries()) {
      if (round === 0) progress(i, ours.length);
      const last = reads.get(cell);
      const next = await readSelectedCell(cell, { ...port, read: asMoved }, last);
      reads.set(cell, next);
      const [call] = next.calls;
      if (call === last?.calls[0] && call) continue;
      const known = call && isKnown(call) ? call : undefined;
      const results = known && isShown(cell.formula, known) ? known.results : undefined;
      if (!results || (isCellError(cell.value) && NO_RESULT.test(cell.value.error))) left.add(cell);
      else if (known?.whole || !isBlankCell(cell.value)) more = (await compare(cell, results, read, moved)) || more;
    }
  }
  return { moved: [...moved.values()], compared: ours.length - left.size, left: [...left] };
}

/** Whether a cell shows what a call gives, if it shows anything: the call is all of its formula, or stands there beside `""` for rows that are not filled in. */
const isShown = (formula: string, { text, whole }: ReadCall): boolean =>
  whole || /^=(IF\([^()]*,"",@\)|IF\([^()]*,@,""\))$/i.test(formula.replace(text, () => '@').replace(/\s/g, ''));

/** Notes the cells of a formula whose results are not what stands there; whether that changed what is known of any. */
async function compare(
  { sheet, address, value }: FormulaCell,
  results: Rows,
  read: SheetPort['read'],
  moved: Map<string, MovedCell>,
): Promise<boolean> {
  const at = placeOf(address, sheet);
  if (!at) return false;
  const { top, left } = at;
  const [rows, columns] = [results.length, results[0]?.length ?? 0];
  const end = `${toCol(left + columns - 1)}${top + rows}`;
  const stands = rows * columns === 1 ? [[value]] : await read(`${address}:${end}`, sheet, address);
  let changed = false;
  results.forEach((row, r) =>
    row.forEach((after, c) => {
      const before = stands[r]?.[c] ?? null;
      const key = keyOf(sheet, top + r, left + c);
      const known = moved.get(key);
      changed ||= !isSame(known ? known.after : before, after);
      if (isSame(before, after)) moved.delete(key);
      else moved.set(key, { sheet, address: `${toCol(left + c)}${top + r + 1}`, before, after });
    }),
  );
  return changed;
}

const keyOf = (sheet: string, row: number, column: number): string => `${sheet}|${row}|${column}`;

/** The first cell of a reference; undefined for names, tables and whole columns, which are read as they stand. */
function placeOf(
  reference: string,
  sheet: string,
): { readonly sheet: string; readonly top: number; readonly left: number } | undefined {
  const area = areaOf(reference.replace(/#$/, ''), sheet);
  return area && Number.isFinite(area.bottom) && Number.isFinite(area.right) ? area : undefined;
}
