import type { Assumptions } from '../core/assumptions/assumptions.ts';
import type { Basis } from '../core/basis.ts';
import type { Job } from '../core/job/job-list.ts';
import type { CalcError } from '../core/errors.ts';
import { operationOf } from '../core/operations/all.ts';
import { underWater } from '../core/operations/site.ts';
import type { Condition } from '../core/safety/conditions.ts';
import { itemOf, type Item, type KnownItem } from '../core/safety/item.ts';
import type { Operation } from '../core/safety/operations.ts';
import { goodItems } from './read-items.ts';
import type { Cells } from './read-table.ts';

/**
 * The items of a job, all under the conditions given: those of its rows, and by the assumptions each operation that no
 * row has. Where `assume` sets a material that differs from what the rows say, both count.
 */
export function jobItems(
  operations: readonly Operation[],
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
export function jobKnown({ items }: Job): readonly KnownItem[] {
  const kinds = new Map<string, KnownItem>();
  for (const { sized: s, conditions, basis } of items) {
    const place = placeOf(basis.a, s.operation.cooling !== undefined);
    const known: KnownItem = {
      operation: s.operation.id as Operation,
      material: s.material,
      rod: s.rod,
      conditions,
      ...place,
    };
    const { id } = s.operation;
    const key = [id, s.material.name, s.rod.rod.name, s.rod.coupled, JSON.stringify([conditions, place])].join('|');
    kinds.set(key, known);
  }
  return [...kinds.values()];
}

/** What the columns of a row may say of the place, where that differs from the rest of the job. */
const placeOf = (a: Assumptions, cooled: boolean): Pick<KnownItem, 'position' | 'access' | 'grounded' | 'cooling'> => ({
  position: underWater(a) ? 'underwater' : a.word('position'),
  access: a.word('access'),
  grounded: a.word('work grounded') === 'yes',
  ...(cooled && { cooling: a.word('cooling method') }),
});

/** The items of a list with the rods named or picked for them, and the problems of rows that cannot be sized. */
export function listItems(
  operation: Operation,
  range: string,
  cells: Cells,
  basis: Basis,
): { readonly items: readonly KnownItem[]; readonly bad: readonly CalcError[] } {
  const { sizings, bad } = goodItems(operationOf(operation), range, cells, basis);
  return { items: sizings.map(({ material, rod }) => ({ operation, material, rod })), bad };
}

export const itemsOf = (known: readonly KnownItem[], a: Assumptions): readonly Item[] =>
  known.map((item) => itemOf(item, a));
