/** Job lists made by hand. */
import type { Basis } from '../../../src/core/basis.ts';
import { Job, type ListItem } from '../../../src/core/job/job-list.ts';
import { operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import type { Sized } from '../../../src/core/operations/sized.ts';
import { PSI, SCF } from '../../../src/core/units/quantities.ts';

const MINUTE = 60;

/** A job of pieces that are sized already, one a row unless quantities say more. */
export function jobWith(sizings: readonly Sized[], basis: Basis, quantities: readonly number[] = []): Job {
  return jobOfItems(
    sizings.map((sized, i) => listItem(`pin ${i + 1}`, sized, basis, i + 2, quantities[i])),
    basis,
  );
}

export function jobOfItems(items: readonly ListItem[], basis: Basis): Job {
  return new Job({ rows: items.map((item) => ({ kind: 'item', item })), items, bad: [], remarks: [] }, basis);
}

export const listItem = (mark: string, sized: Sized, basis: Basis, row = 1, quantity = 1): ListItem => ({
  row,
  mark,
  quantity,
  sized,
  basis,
  conditions: [],
  question: '',
  notes: [],
});

/** What a schedule reads of an item, in round figures: set-up and plates 10 min before, pressing and clean-up 10 min after. */
export function stagedItem(
  mark: string,
  burnMinutes: number,
  coolMinutes: number,
  basis: Basis,
  more: { readonly scf?: number; readonly operation?: OperationId } = {},
): ListItem {
  const operation = operationOf(more.operation ?? 'PIN');
  const fixed = operation.crewTimes.reduce((sum, name) => sum + basis.a.value(name), 0);
  const time = burnMinutes * MINUTE;
  const sized: Pick<
    Sized,
    'operation' | 'workTime' | 'timeAtWork' | 'burnTime' | 'cooling' | 'oxygen' | 'pressure' | 'flow'
  > = {
    operation,
    timeAtWork: time,
    workTime: time + fixed,
    burnTime: time,
    cooling: coolMinutes * MINUTE,
    oxygen: (more.scf ?? 0.1) * SCF,
    pressure: 80 * PSI,
    flow: (9 * SCF) / 60,
  };
  return listItem(mark, sized as Sized, basis);
}
