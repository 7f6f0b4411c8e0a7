import type { Ranged } from '../core/job/job-range.ts';
import type { PlanRow } from '../core/job/plan-row.ts';
import { CalcError } from '../core/errors.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { findRod } from '../core/burn/rods.ts';
import { inRow, isBlank, isErrorValue } from '../core/messages.ts';
import { operationOf } from '../core/operations/all.ts';
import type { KnownItem } from '../core/safety/item.ts';
import { findOperation } from '../core/safety/operations.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { isBlankOrZero, isCellError, type Cell } from './cell.ts';
import { conditionsIn } from './condition-cells.ts';
import type { QuantityKind } from './declaration.ts';
import { PLAN_COLUMNS } from './operation-family.ts';
import { cellUnder, quantityUnder, readHeading, readRows, readTable, type Cells, type TableRow } from './read-table.ts';

const HEADINGS: readonly string[] = PLAN_COLUMNS.map((c) => c.heading);
const ALIASES = Object.fromEntries(HEADINGS.map((heading) => [heading, [heading]]));
/** Above any plan, in SI; sums and squares of such figures can still be told. */
const MOST = 1e12;
/** Columns in which a 0 is meant. */
const MAY_BE_NONE: readonly string[] = ['cylinders opened', 'cooling'];
const REQUIRED = ['rod', 'rods', 'oxygen', 'burning', 'crew'];

/** A plan as its region stands in the sheet, columns found by their headings, and the problems of rows that cannot be used. */
export function readPlan(
  cells: Cells,
  system: UnitSystem,
): { readonly rows: readonly PlanRow[]; readonly bad: readonly CalcError[] } {
  const table = readTable('plan', cells, ALIASES, REQUIRED);
  const { good, bad } = readRows(
    'plan',
    table,
    (r) => r.row,
    (r) => planRow(r, system),
  );
  return { rows: good, bad };
}

function planRow(row: TableRow, system: UnitSystem): PlanRow {
  const number = (name: string, quantity: QuantityName): number | undefined => {
    const kind: QuantityKind = { kind: 'quantity', quantity, min: 0, max: MOST };
    return quantityUnder(row, name, MAY_BE_NONE.includes(name) ? kind : { ...kind, above: 0 }, system);
  };
  const needed = (name: string, quantity: QuantityName): number => {
    const value = number(name, quantity);
    if (value === undefined) throw isBlank(name);
    return value;
  };
  const ranged = (name: string, quantity: QuantityName): Ranged => {
    const value = needed(name, quantity);
    // A high that is beyond reach stands as an error in the plan.
    const high = isCellError(cellUnder(row, `${name} high`)) ? Infinity : (number(`${name} high`, quantity) ?? value);
    return { value, low: Math.min(number(`${name} low`, quantity) ?? value, value), high: Math.max(high, value) };
  };
  const item = cellUnder(row, 'item');
  const operation = text(cellUnder(row, 'operation'));
  return {
    item: text(item) || String(row.row),
    // Coupled rods are the same rods in the crate.
    rod: text(cellUnder(row, 'rod')).replace(/ coupled$/, ''),
    rods: ranged('rods', 'count'),
    oxygen: ranged('oxygen', 'oxygen'),
    crew: ranged('crew', 'time'),
    burnTime: needed('burning', 'time'),
    cylinders: number('cylinders opened', 'count'),
    cooling: number('cooling', 'time'),
    operation: operation === '' ? undefined : operationOf(findOperation(operation)),
  };
}

/** What makes up the items of a plan for their cautions; without one of these columns some would go missing. */
const ITEM_COLUMNS = ['operation', 'material', 'rod', 'conditions'] as const;

/** The items of a plan as far as their cautions go, each kind once, and the problems of rows that do not say what they are. */
export function planItems(
  cells: Cells,
  system: UnitSystem,
): { readonly items: readonly KnownItem[]; readonly bad: readonly CalcError[] } {
  const kinds = new Map<string, KnownItem>();
  const bad: CalcError[] = [];
  for (const row of readTable('plan', cells, ALIASES, ITEM_COLUMNS)) {
    try {
      const [operation, material, rod, conditions] = ITEM_COLUMNS.map((name) => wordUnder(row, name));
      const kind = [operation, material, rod, conditions].join('|');
      if (kinds.has(kind)) continue;
      kinds.set(kind, {
        operation: findOperation(needed('operation', operation)),
        material: findMaterial(needed('material', material)),
        rod: findRod(needed('rod', rod)),
        conditions: conditionsIn(conditions ?? '', system),
      });
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
      bad.push(inRow('plan', row.row, e));
    }
  }
  return { items: [...kinds.values()], bad };
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
