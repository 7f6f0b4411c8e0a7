/** Lists of items: one row each, sizes in the order of the operation, then optionally rod and material. */
import type { Basis } from '../core/basis.ts';
import type { Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import * as messages from '../core/messages.ts';
import type { Operation } from '../core/operations/operation.ts';
import { sized, type Sized } from '../core/operations/sized.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { isBlankCell, type Cell } from './cell.ts';
import { parameterLabel, type QuantityKind } from './declaration.ts';
import { blankError, readCell } from './read-cell.ts';
import { quantityIn, readHeading, type Cells, type Heading } from './read-table.ts';

/** What a row of `sizes` is. */
export type ItemRow =
  | { readonly kind: 'blank' }
  | { readonly kind: 'heading' }
  | { readonly kind: 'item'; readonly sizing: Sized }
  | { readonly kind: 'bad'; readonly problem: CalcError };

/** The kind of number that a size of an operation is. */
export function sizeKind<G extends string>(operation: Operation<G>, name: G): QuantityKind {
  const { quantity, above, max, whole } = operation.sizes[name];
  return { kind: 'quantity', quantity, above, max, ...(whole ? { whole } : {}) };
}

interface Layout {
  /** Column of each size, of `rod` and of `material`; -1 where there is none. */
  readonly at: (name: string) => number;
  readonly headings: ReadonlyMap<string, Heading>;
}

/** Columns as the operation orders them, until a heading row names them. */
function positions(operation: Operation): Layout {
  const order = [...operation.order, 'rod', 'material'];
  return { at: (name) => order.indexOf(name), headings: new Map() };
}

/**
 * The layout a heading row gives; undefined where the row is none. It is one where no cell under a required size can be
 * a number. If it names every required size, columns are found by name, otherwise they keep their order; units in it count.
 */
function headingLayout(operation: Operation, row: readonly Cell[]): Layout | undefined {
  const inOrder = positions(operation);
  const required = operation.order.filter((name) => !operation.sizes[name]?.optional);
  const numeric = (cell: Cell | undefined): boolean =>
    typeof cell === 'number' || (typeof cell === 'string' && /^[\s+-]*[\d.½¼¾⅛⅜⅝⅞⅓⅔]/.test(cell));
  if (row.some(numeric)) return undefined;
  const headings = row.map(readHeading);
  const named = new Map<string, Heading & { readonly at: number }>();
  headings.forEach((h, at) => {
    if (h && inOrder.at(h.name) >= 0 && !named.has(h.name)) named.set(h.name, { ...h, at });
  });
  if (required.every((name) => named.has(parameterLabel(name)))) {
    return {
      at: (name) => named.get(parameterLabel(name))?.at ?? -1,
      headings: new Map(
        [...operation.order].flatMap((name) =>
          named.has(parameterLabel(name)) ? [[name, named.get(parameterLabel(name)) as Heading] as const] : [],
        ),
      ),
    };
  }
  if (!required.every((name) => headings[inOrder.at(name)])) return undefined;
  return {
    ...inOrder,
    headings: new Map(
      operation.order.flatMap((name) =>
        headings[inOrder.at(name)] ? [[name, headings[inOrder.at(name)] as Heading] as const] : [],
      ),
    ),
  };
}

/** Sizes every row of a range, with its place kept; a row that cannot be read or sized carries its problem. */
export function readItems(operation: Operation, range: string, cells: Cells, basis: Basis): readonly ItemRow[] {
  let layout = positions(operation);
  let headed = false;
  return cells.map((row, i): ItemRow => {
    const relevant = row.slice(0, Math.max(operation.order.length + 2, headed ? row.length : 0));
    if (relevant.every(isBlankCell)) return { kind: 'blank' };
    if (!headed) {
      const found = headingLayout(operation, row);
      if (found) {
        layout = found;
        headed = true;
        return { kind: 'heading' };
      }
    }
    if (operation.order.every((name) => isBlankCell(row[layout.at(name)] ?? null))) return { kind: 'blank' };
    try {
      return {
        kind: 'item',
        sizing: sizeRow(operation, (name) => row[layout.at(name)] ?? null, layout.headings, basis),
      };
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
      return { kind: 'bad', problem: messages.inRow(range, i + 1, e) };
    }
  });
}

/** Sizes one item from its cells, found by the names of sizes, `rod` and `material`. */
export function sizeRow(
  operation: Operation,
  cellOf: (name: string) => Cell,
  headings: ReadonlyMap<string, Heading>,
  basis: Basis,
): Sized {
  const { system } = basis.a;
  const given: Record<string, number | undefined> = {};
  for (const name of operation.order) {
    given[name] = readSize(operation, name, cellOf(name), headings.get(name), system);
  }
  const rod = readCell(cellOf('rod'), 'rod', { kind: 'rod' }, system) as RodChoice | undefined;
  const material = readCell(cellOf('material'), 'material', { kind: 'material' }, system) as Material | undefined;
  return sized({ operation, sizes: given, rod, material, basis });
}

function readSize(
  operation: Operation,
  name: string,
  cell: Cell,
  heading: Heading | undefined,
  system: UnitSystem,
): number | undefined {
  const label = parameterLabel(name);
  const kind = sizeKind(operation, name);
  const value = quantityIn(cell, label, kind, system, heading);
  if (value === undefined && !operation.sizes[name]?.optional) throw blankError(label, kind);
  return value;
}

/** The items of a range and the problems of its bad rows; throws where there is no item. */
export function goodItems(
  operation: Operation,
  range: string,
  cells: Cells,
  basis: Basis,
): { readonly sizings: readonly Sized[]; readonly bad: readonly CalcError[] } {
  const rows = readItems(operation, range, cells, basis);
  const sizings = rows.flatMap((r) => (r.kind === 'item' ? [r.sizing] : []));
  const bad = rows.flatMap((r) => (r.kind === 'bad' ? [r.problem] : []));
  const [first] = bad;
  if (sizings.length === 0) throw first ? messages.everyRowBad(range, first) : messages.noRows(range);
  return { sizings, bad };
}
