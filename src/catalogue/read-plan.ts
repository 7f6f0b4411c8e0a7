import { CalcError } from '../core/errors.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { findRod } from '../core/burn/rods.ts';
import { inRow, isBlank, isErrorValue } from '../core/messages.ts';
import type { KnownItem } from '../core/safety/item.ts';
import { findOperation } from '../core/operations/all.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { isBlankOrZero, isCellError, type Cell } from './cell.ts';
import { conditionsIn } from './condition-cells.ts';
import { PLAN_COLUMNS } from './plan-line.ts';
import { cellUnder, readHeading, readTable, type Cells, type TableRow } from './read-table.ts';

const HEADINGS: readonly string[] = PLAN_COLUMNS.map((c) => c.heading);
const ALIASES = Object.fromEntries([...HEADINGS, 'mark'].map((heading) => [heading, [heading]]));
/** What makes up the items of a plan for their cautions; without one of these columns some would go missing. */
const ITEM_COLUMNS = ['operation', 'material', 'rod', 'conditions'] as const;

/** The items of a plan as far as their cautions go, each kind once, and the problems of rows that do not say what they are. */
export function planItems(
  cells: Cells,
  system: UnitSystem,
): { readonly items: readonly KnownItem[]; readonly bad: readonly CalcError[] } {
  const kinds = new Map<string, KnownItem & { readonly marks: string[] }>();
  const bad: CalcError[] = [];
  for (const row of readTable('plan', cells, ALIASES, ITEM_COLUMNS)) {
    // The last row of a job's plan is about no item.
    if (text(cellUnder(row, 'item')) === 'total') continue;
    try {
      const [operation, material, rod, conditions] = ITEM_COLUMNS.map((name) => wordUnder(row, name));
      const kind = [operation, material, rod, conditions].join('|');
      const known = kinds.get(kind) ?? {
        marks: [],
        operation: findOperation(needed('operation', operation)),
        material: findMaterial(needed('material', material)),
        rod: findRod(needed('rod', rod)),
        conditions: conditionsIn(conditions ?? '', system),
      };
      known.marks.push(markOf(row));
      kinds.set(kind, known);
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
      bad.push(inRow('plan', row.row, e));
    }
  }
  return { items: [...kinds.values()], bad };
}

/** What an item of a plan is called: its mark, else its number. */
function markOf(row: TableRow): string {
  const [mark, item] = ['mark', 'item'].map((name) => wordUnder(row, name));
  return mark || (item ? `item ${item}` : `row ${row.row}`);
}

function wordUnder(row: TableRow, name: string): string {
  const cell = cellUnder(row, name);
  if (isCellError(cell)) throw isErrorValue(name, cell.error);
  return text(cell);
}

function needed(name: string, word: string | undefined): string {
  if (word === undefined || word === '') throw isBlank(name);
  return word;
}

/** Whether a range holds a plan, whole or cut down to what its cautions need, by its headings. */
export function isPlan(cells: Cells): boolean {
  return cells.some((row) => {
    const names = row.map((cell) => readHeading(cell)?.name);
    return names.includes('rod') && (names.includes('rods') || names.includes('conditions'));
  });
}

const text = (cell: Cell): string =>
  (typeof cell === 'string' || typeof cell === 'number') && !isBlankOrZero(cell) ? String(cell).trim() : '';
