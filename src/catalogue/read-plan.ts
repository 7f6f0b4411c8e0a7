import type { Ranged } from '../core/job/job-range.ts';
import type { PlanRow } from '../core/job/plan-row.ts';
import type { CalcError } from '../core/errors.ts';
import { isBlank } from '../core/messages.ts';
import { OPERATION_IDS, operationOf } from '../core/operations/all.ts';
import type { Operation } from '../core/operations/operation.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { isCellError } from './cell.ts';
import type { QuantityKind } from './declaration.ts';
import { PLAN_COLUMNS } from './operation-family.ts';
import { cellUnder, quantityUnder, readRows, readTable, type Cells, type TableRow } from './read-table.ts';

const HEADINGS: readonly string[] = PLAN_COLUMNS.map((c) => c.heading);
const ALIASES = Object.fromEntries(HEADINGS.map((heading) => [heading, [heading]]));
/** Above any plan, in SI; sums and squares of such figures can still be told. */
const MOST = 1e12;
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
    return quantityUnder(row, name, kind, system);
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
  return {
    item: typeof item === 'string' || typeof item === 'number' ? String(item) : String(row.row),
    // Coupled rods are the same rods in the crate.
    rod: text(cellUnder(row, 'rod')).replace(/ coupled$/, ''),
    rods: ranged('rods', 'count'),
    oxygen: ranged('oxygen', 'oxygen'),
    crew: ranged('crew', 'time'),
    burnTime: needed('burning', 'time'),
    cylinders: number('cylinders opened', 'count'),
    cooling: number('cooling', 'time'),
    operation: operationIn(text(cellUnder(row, 'cautions'))),
  };
}

const text = (cell: unknown): string =>
  typeof cell === 'string' || typeof cell === 'number' ? String(cell).trim() : '';

/** The operation that the cautions of a plan name first: `PIN: closed cavity, ...`. */
function operationIn(cautions: string): Operation | undefined {
  const words = (cautions.split(':')[0] ?? '').toUpperCase().split(/[^A-Z]+/);
  const id = OPERATION_IDS.find((each) => words.includes(each));
  return id === undefined ? undefined : operationOf(id);
}
