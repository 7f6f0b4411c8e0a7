import { isBlankCell, isCellError, type Cell } from '../catalogue/cell.ts';
import { isTableFunction } from '../catalogue/declaration.ts';
import { findFunction } from '../catalogue/catalogue.ts';
import { isOperation } from '../core/operations/all.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { asGrid, cellAt } from '../sheet/broadcast.ts';
import { call } from '../sheet/call.ts';
import { SHARED } from '../sheet/shared-bases.ts';
import type { Line, Outcome } from './explained.ts';
import type { SelectedCell } from './port.ts';
import type { ReadCall } from './read-call.ts';
import type { Run } from './run-item.ts';
import { showCell } from './show-cell.ts';
import { tableColumns } from './table-columns.ts';

/** What one item came to, as the sheet would show it. */
export function outcomeOf(read: ReadCall, run: Run, item: number, cell: SelectedCell, system: UnitSystem): Outcome {
  const { declaration: d, results, shape } = read;
  if (!results) return { kind: 'unread' };
  const first = results[0]?.[0] ?? null;
  if (results.length === 1 && results[0]?.length === 1 && isCellError(first)) return failed(first);
  const place = selectedPlace(read, cell);
  if (d.result.kind === 'table')
    return isTableFunction(d) && d.row && place
      ? { kind: 'row', lines: linesOf(results[0] ?? [], results[place.row] ?? [], place.column) }
      : { kind: 'table', rows: results };
  if (d.result.kind === 'rows') {
    const row = results[item + 1] ?? [];
    if (row.every(isBlankCell)) return { kind: 'blank' };
    return run.failed
      ? failed({ error: run.failed.code, message: run.failed.message })
      : { kind: 'row', lines: linesOf(results[0] ?? [], row, place?.column) };
  }
  const value = results[Math.floor(item / shape.columns)]?.[item % shape.columns] ?? null;
  if (isCellError(value)) return failed(value);
  if (typeof value !== 'number' && typeof value !== 'string') return { kind: 'blank' };
  const { quantity } = d.result;
  const range = typeof value === 'number' ? rangeOf(read, item) : undefined;
  return {
    kind: 'value',
    value,
    unit: quantity === 'text' || typeof value === 'string' ? '' : plainUnit(quantity, system),
    ...(range ? { range } : {}),
  };
}

/** Columns of a plan that hold the low and high of a function's value, by its last word. */
const RANGED: Readonly<Record<string, string>> = { RODS: 'rods', OXYGEN: 'oxygen', TIME: 'crew' };

/** The low and high of an item's value from the plan of the same item; undefined where it has none. */
function rangeOf({ declaration: d, operands, shape }: ReadCall, item: number): readonly [number, number] | undefined {
  const heading = RANGED[d.name.split('.').at(-1) ?? ''];
  const plan = isOperation(d.family) ? findFunction(`BURN.${d.family}.PLAN`) : undefined;
  if (heading === undefined || !plan) return undefined;
  const sizes = Object.keys(d.parameters).length;
  const args = operands.map(({ argument }, i) => {
    const grid = i < sizes ? asGrid(argument) : undefined;
    return grid ? cellAt(grid, Math.floor(item / shape.columns), item % shape.columns) : argument;
  });
  const { rows, number } = tableColumns(call(plan, args, undefined, SHARED));
  const [low, high] = [`${heading} low`, `${heading} high`].map((h) => number(rows[0] ?? [], h));
  return low === undefined || high === undefined ? undefined : [low, high];
}

/** Where the selected cell stands in a table with a heading: its row, counted from 1 below that, and its column. */
export function selectedPlace(
  { declaration, whole }: ReadCall,
  { spill }: SelectedCell,
): { readonly row: number; readonly column: number } | undefined {
  return declaration.result.kind !== 'value' && whole && spill && spill.row > 0
    ? { row: spill.row, column: spill.column }
    : undefined;
}

const failed = ({ error, message }: { readonly error: string; readonly message: string }): Outcome => ({
  kind: 'error',
  error,
  message,
});

function linesOf(headings: readonly Cell[], row: readonly Cell[], selected: number | undefined): readonly Line[] {
  return row.map((value, i) => ({ heading: showCell(headings[i] ?? null), value, selected: i === selected }));
}
