/** One row of a list worked in full, and all of them in a table. */
import { nameOf, type Job, type ListItem } from '../core/job/job-list.ts';
import { unknownChoice } from '../core/messages.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import type { Output } from './declaration.ts';
import { itemWorking } from './item-working.ts';
import { mostCostly } from './job-basis.ts';
import { headed, remarkLines } from './job-functions.ts';
import { reached } from './plan-line.ts';
import { STEP_COLUMNS, stepLines } from './step-table.ts';

type Line = readonly Output[];

/** The columns of the table of all rows, as many as a step has. */
const HEADINGS: readonly (readonly [string, QuantityName | undefined])[] = [
  ['mark', undefined],
  ['quantity', undefined],
  ['sizes', undefined],
  ['rods, low to high', undefined],
  ['oxygen', 'oxygen'],
  ['burning', 'time'],
  ['crew time', 'time'],
];

export function jobReport(job: Job, asked: string | undefined): readonly Line[] {
  const { system } = job.basis.a;
  const chosen = chosenItem(job, asked);
  const blank = STEP_COLUMNS.map((): Output => null);
  const said = (...cells: readonly Output[]): Line => blank.map((_, i) => cells[i] ?? null);
  const steps = itemWorking(chosen.sized, chosen.basis).steps();
  const bad = job.list.bad.map((each) => said(nameOf(each), null, 'left out', null, null, null, each.problem.message));
  return [
    said(`Worked in full: ${nameOf(chosen)}`, null, null, null, `one piece of ${chosen.quantity}`),
    STEP_COLUMNS.map(({ heading }) => heading),
    ...stepLines(steps, system),
    blank,
    said(`All ${job.items.length} rows, worked alike, for all their pieces`),
    HEADINGS.map(([heading, quantity]) => (quantity ? headed(heading, quantity, system) : heading)),
    ...job.items.map((item) => rowOf(item, job, system)),
    ...bad,
    ...remarkLines(job.list.remarks, STEP_COLUMNS.length),
  ];
}

function rowOf(item: ListItem, job: Job, system: UnitSystem): Line {
  const { sized, quantity } = item;
  const { operation, planned } = sized;
  const { lowRods, highRods } = job.spread(item);
  const high = reached(highRods);
  const sizes = operation.order.map((name) => {
    const of = operation.sizes[name]!.quantity;
    return `${name} ${String(Number(fromSi(planned[name]!, of, system).toPrecision(6)))} ${plainUnit(of, system)}`.trim();
  });
  const shown = (value: number, of: QuantityName): Output => fromSi(quantity * value, of, system);
  return [
    nameOf(item),
    quantity,
    `${operation.id} ${sizes.join(', ')}; ${sized.name}`,
    `${quantity * sized.rods} (${lowRods} to ${typeof high === 'number' ? high : 'beyond reach'})`,
    shown(sized.oxygen, 'oxygen'),
    shown(sized.burnTime, 'time'),
    shown(sized.crewTime, 'time'),
  ];
}

/** The row asked for by its mark or its number, or the one whose work costs most. */
function chosenItem(job: Job, asked: string | undefined): ListItem {
  const { items } = job;
  const wanted = asked?.trim().toLowerCase();
  const found =
    wanted === undefined
      ? mostCostly(job)[0]
      : (items.find(({ mark }) => mark.toLowerCase() === wanted) ?? items[Number(wanted) - 1]);
  if (!found) throw unknownChoice('item', asked ?? '', items.map(nameOf));
  return found;
}
