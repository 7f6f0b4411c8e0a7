import type { Assumptions } from '../core/assumptions/assumptions.ts';
import type { Basis } from '../core/basis.ts';
import { nameOf, type Job } from '../core/job/job-list.ts';
import type { CalcError } from '../core/errors.ts';
import { operationOf, type OperationId } from '../core/operations/all.ts';
import type { Condition } from '../core/safety/conditions.ts';
import { itemOf, type Item, type KnownItem } from '../core/safety/item.ts';
import { goodItems } from './read-items.ts';
import type { Cells } from './read-table.ts';

/**
 * The items of a job, all under the conditions given: those of its rows, and by the assumptions each operation that no
 * row has. Where `assume` sets a material that differs from what the rows say, both count.
 */
export function jobItems(
  operations: readonly OperationId[],
  rows: readonly KnownItem[],
  conditions: readonly Condition[],
  a: Assumptions,
): readonly KnownItem[] {
  const assumed = operations.flatMap((operation): readonly KnownItem[] => {
    const own = rows.find((row) => row.operation === operation);
    const choice = operationOf(operation).material ?? 'material';
    return own && a.word(choice) === a.defaults.word(choice) ? [] : [{ operation, ...(own?.rod && { rod: own.rod }) }];
  });
  return [...rows, ...assumed].map((item) => ({ ...item, conditions: [...conditions, ...(item.conditions ?? [])] }));
}

/** The items of a job list, each kind once, as far as their cautions go. */
export function jobKnown({ items, basis: ofTheJob }: Pick<Job, 'items' | 'basis'>): readonly KnownItem[] {
  const kinds = new Map<string, KnownItem & { readonly marks: string[] }>();
  const bases = new Map<Basis, number>();
  for (const item of items) {
    const { sized: s, conditions, basis } = item;
    if (!bases.has(basis)) bases.set(basis, bases.size);
    const { id } = s.operation;
    const key = [id, s.material.name, s.rod.rod.name, s.rod.coupled, JSON.stringify(conditions), bases.get(basis)].join(
      '|',
    );
    const kind = kinds.get(key) ?? {
      marks: [],
      operation: id as OperationId,
      material: s.material,
      rod: s.rod,
      conditions,
      ...(basis !== ofTheJob && { assumed: basis.a }),
    };
    kind.marks.push(nameOf(item));
    kinds.set(key, kind);
  }
  return [...kinds.values()];
}

/** The items of a list with the rods named or picked for them, and the problems of rows that cannot be sized. */
export function listItems(
  operation: OperationId,
  range: string,
  cells: Cells,
  basis: Basis,
): { readonly items: readonly KnownItem[]; readonly bad: readonly CalcError[] } {
  const { sizings, bad } = goodItems(operationOf(operation), range, cells, basis);
  return { items: sizings.map(({ material, rod }) => ({ operation, material, rod })), bad };
}

export const itemsOf = (known: readonly KnownItem[], a: Assumptions): readonly Item[] =>
  known.map((item) => itemOf(item, a));

/** More marks than these are counted. */
const MOST_MARKS = 20;

/** Which items of a list something is for: `Boom foot, left; Lock pin`. */
export const forMarks = (marks: readonly string[]): string =>
  marks.length > MOST_MARKS
    ? `${marks.slice(0, MOST_MARKS).join('; ')}; ${marks.length - MOST_MARKS} more`
    : marks.join('; ');
