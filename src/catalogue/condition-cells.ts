import { parseConditions, type Condition, type MeasuredName } from '../core/safety/conditions.ts';
import type { KnownItem } from '../core/safety/item.ts';
import { OPERATION_IDS, findOperation, type OperationId } from '../core/operations/all.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { inRow, isErrorValue, isBlank } from '../core/messages.ts';
import { isBlankOrZero, isCellError, type Cell } from './cell.ts';
import type { Cells } from './read-table.ts';

/** Several words may stand in one cell. */
const BETWEEN = /[,;\n]/;

/**
 * The conditions that a range holds, as texts: one a cell, or several in one cell with commas between. A number right of a
 * word is its value (`height`, 30); TRUE keeps the word left of it and FALSE drops it, as in a checklist. Blank cells and
 * the heading `condition` are passed over.
 */
export function conditionTexts(cells: Cells | undefined): readonly string[] {
  return (cells ?? []).flatMap((row, r) => {
    let texts: readonly string[] = [];
    /** Words before the cell left of this one. */
    let before: readonly string[] | undefined;
    row.forEach((cell) => {
      if (isCellError(cell)) throw inRow('conditions', r + 1, isErrorValue('condition', cell.error));
      const left = before;
      before = undefined;
      if (isBlankOrZero(cell) || isHeading(cell)) return;
      if (typeof cell === 'string') {
        before = texts;
        texts = [...texts, ...wordsIn(cell)];
      } else if (cell === false && left) texts = left;
      else if (typeof cell === 'number' && left) texts = [...texts.slice(0, -1), `${texts.at(-1) ?? ''} ${cell}`];
      else if (typeof cell === 'number') texts = [...texts, String(cell)];
    });
    return texts;
  });
}

const wordsIn = (cell: string): readonly string[] =>
  cell
    .split(BETWEEN)
    .map((t) => t.trim())
    .filter((t) => t !== '');

/** The conditions that one cell holds, such as that of a plan. */
export const conditionsIn = (cell: string, system: UnitSystem): readonly Condition[] =>
  parseConditions(wordsIn(cell), system);

/** What a figure among the arguments says of the work, such as its height; nothing where it is 0 or left out. */
export const figureOf = (name: MeasuredName, value: number | undefined): readonly KnownItem[] =>
  value !== undefined && value > 0 ? [{ conditions: [{ name, value }] }] : [{}];

const isHeading = (cell: Cell): boolean => typeof cell === 'string' && /^conditions?$/i.test(cell.trim());

/** The operations that a text names, such as `PIN` or `PIN, CUT`. `#N/A` with the nearest for an unknown one. */
export function operationsIn(text: string): readonly OperationId[] {
  const words = text
    .split(/[,;+&\n]|\band\b/i)
    .map((w) => w.trim())
    .filter((w) => w !== '');
  if (words.length === 0) throw isBlank('operation');
  const named = new Set(words.map(findOperation));
  return OPERATION_IDS.filter((o) => named.has(o));
}
