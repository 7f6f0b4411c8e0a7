/** Priced lines of a planned job. */
import type { Basis } from '../basis.ts';
import { noPriceFor, rangeUnknown } from '../messages.ts';
import { drawableContent } from '../oxygen/drawable-content.ts';
import type { QuantityName } from '../units/quantities.ts';
import { jobRange, type Ranged, type RangedItem } from './job-range.ts';
import { pert, pertQuantile } from '../spread/pert.ts';
import type { PlanRow } from './plan-row.ts';

/** Lines that are a share of others. */
export type ShareLine = 'contingency' | 'margin' | 'mark-up';
/** Lines a price can be given for, besides rods by name and sums of the user's own. */
export type PricedLine = 'oxygen' | 'cylinders' | 'cylinder rental' | 'crew' | 'plates' | 'ram hire' | 'mobilisation';

/** The user's prices, in money of any kind for an SI unit: a kilogram of oxygen, a second of crew time. */
export interface Prices {
  readonly lines: ReadonlyMap<PricedLine, number>;
  /** Price of a rod by its name, by its size alone, or of any rod (empty name). */
  readonly rods: ReadonlyMap<string, number>;
  /** Sums that are added as they stand. */
  readonly others: readonly { readonly name: string; readonly amount: number }[];
  /** Shares, 0 to 1. */
  readonly shares: ReadonlyMap<ShareLine, number>;
}

export interface CostLine {
  readonly name: string;
  /** SI; undefined in sums. */
  readonly quantity: number | undefined;
  readonly measure: QuantityName | 'cylinder days' | 'days' | 'sum' | 'share';
  /** For one SI unit of the quantity, or a share; undefined where no price was given and in sums. */
  readonly price: number | undefined;
  readonly amount: Ranged | undefined;
  readonly note: string;
}

const ONE: Ranged = { value: 1, low: 1, high: 1 };
/** An unknown high stays unknown, but costs nothing where the price is nothing. */
const times = (r: Ranged, factor: number): Ranged =>
  factor === 0
    ? { value: 0, low: 0, high: 0 }
    : { value: r.value * factor, low: r.low * factor, high: r.high * factor };
const plus = (a: Ranged, b: Ranged): Ranged => ({
  value: a.value + b.value,
  low: a.low + b.low,
  high: a.high + b.high,
});
const mapped = (r: Ranged, f: (x: number) => number): Ranged => ({ value: f(r.value), low: f(r.low), high: f(r.high) });
const whole = (x: number): number => (Number.isFinite(x) ? Math.ceil(x - 1e-9) : x);
const safelyLow = (x: number): number => Math.max(0, x);

/** What the job takes, with its range. */
export interface JobTotals {
  /** By the rod's name, in the order of the plan. */
  readonly rods: ReadonlyMap<string, Ranged>;
  readonly oxygen: Ranged;
  readonly cylinders: Ranged;
  readonly crew: Ranged;
  /** Items that take guide and shield plates. */
  readonly plated: number;
}

/** Totals of a plan. The own scatter of the items is that of `item scatter`; it takes part in the burning only. */
export function jobTotals(plan: readonly PlanRow[], basis: Basis): JobTotals {
  const { low, value, high } = basis.a.inForce('item scatter');
  const scatter = pert(low, value, high);
  const [down, up] = [1 - pertQuantile(scatter, 0.1) / value, pertQuantile(scatter, 0.9) / value - 1];
  const total = (rows: readonly PlanRow[], of: (row: PlanRow) => Ranged, burning: (row: PlanRow) => number): Ranged =>
    mapped(
      jobRange(rows.map((row): RangedItem => ({ ...of(row), ownDown: down * burning(row), ownUp: up * burning(row) }))),
      safelyLow,
    );
  const rods = new Map<string, Ranged>();
  for (const name of new Set(plan.map((row) => row.rod))) {
    const range = total(
      plan.filter((row) => row.rod === name),
      (row) => row.rods,
      (row) => row.rods.value,
    );
    rods.set(name, { value: range.value, low: Math.floor(range.low + 1e-9), high: whole(range.high) });
  }
  const oxygen = total(
    plan,
    (row) => row.oxygen,
    (row) => row.oxygen.value,
  );
  const opened = plan.every((row) => row.cylinders !== undefined)
    ? plan.reduce((sum, row) => sum + (row.cylinders ?? 0), 0)
    : undefined;
  const content = opened !== undefined && opened > 0 ? undefined : drawableContent(basis);
  // The plan's own count stands for the cylinder it was made with; low and high follow in proportion.
  const cylinders = mapped(oxygen, (o) =>
    whole(content === undefined ? ((opened ?? 0) * o) / oxygen.value : o / content),
  );
  const duty = basis.a.value('burning duty');
  return {
    rods,
    oxygen,
    cylinders,
    crew: total(
      plan,
      (row) => row.crew,
      (row) => row.burnTime / duty,
    ),
    plated: plan.filter((row) => row.operation?.crewTimes.includes('plate time') ?? true).length,
  };
}

/** Price of a rod: by its full name, else by its size, else that of any rod. */
function rodPrice(name: string, prices: Prices): number | undefined {
  const [size = ''] = name.split(' x ');
  return prices.rods.get(name) ?? prices.rods.get(size) ?? prices.rods.get('');
}

/**
 * Priced lines of a plan: quantity x price, then the subtotal, contingency on it, the cost, and margin or mark-up.
 *
 * price = cost / (1 - margin), or cost x (1 + mark-up). Low and high of a line come from those of the plan (`jobRange`);
 * lines share crew and gas, so their lows add up, and so do their highs. Daily prices count whole days of
 * crew time / day length. A line of the plan without a price is named in the note of the subtotal.
 */
export function jobCost(plan: readonly PlanRow[], prices: Prices, basis: Basis): readonly CostLine[] {
  const totals = jobTotals(plan, basis);
  const lines: CostLine[] = [];
  const unpriced: string[] = [];
  const add = (
    name: string,
    measure: CostLine['measure'],
    quantity: Ranged,
    price: number | undefined,
    note = '',
  ): void => {
    if (price === undefined) unpriced.push(name);
    lines.push({
      name,
      measure,
      quantity: quantity.value,
      price,
      amount: price === undefined ? undefined : times(quantity, price),
      note,
    });
  };
  for (const [name, quantity] of totals.rods) add(`rod ${name}`, 'count', quantity, rodPrice(name, prices));
  const price = (line: PricedLine): number | undefined => prices.lines.get(line);
  const byVolume = price('oxygen') !== undefined;
  const byCylinder = price('cylinders') !== undefined;
  if (byVolume || !byCylinder)
    add(
      'oxygen',
      'oxygen',
      totals.oxygen,
      price('oxygen'),
      byVolume && byCylinder ? 'priced by volume and by cylinder: both count' : '',
    );
  if (byCylinder) add('cylinders', 'count', totals.cylinders, price('cylinders'));
  const days = mapped(totals.crew, (time) => whole(time / basis.a.value('day length')));
  const rental = price('cylinder rental');
  if (rental !== undefined) {
    const cylinderDays = {
      value: totals.cylinders.value * days.value,
      low: totals.cylinders.low * days.low,
      high: totals.cylinders.high * days.high,
    };
    add('cylinder rental', 'cylinder days', cylinderDays, rental, 'every cylinder for every day of the job');
  }
  add('crew', 'hours', totals.crew, price('crew'));
  const plate = price('plates');
  if (plate !== undefined) {
    const { value, low, high } = basis.a.inForce('plates per pin');
    add(
      'plates',
      'count',
      mapped({ value, low, high }, (each) => whole(each * totals.plated)),
      plate,
    );
  }
  const ram = price('ram hire');
  if (ram !== undefined) add('ram hire', 'days', days, ram, 'whole days of crew time');
  const mobilisation = price('mobilisation');
  if (mobilisation !== undefined) add('mobilisation', 'sum', ONE, mobilisation);
  for (const { name, amount } of prices.others) add(name, 'sum', ONE, amount);

  const sum = lines.reduce<Ranged>((all, { amount }) => (amount ? plus(all, amount) : all), {
    value: 0,
    low: 0,
    high: 0,
  });
  const total = (name: string, amount: Ranged, note: string): void =>
    void lines.push({ name, measure: 'sum', quantity: undefined, price: undefined, amount, note });
  total(
    'subtotal',
    sum,
    [unpriced.length > 0 ? noPriceFor(unpriced) : '', sum.high === Infinity ? rangeUnknown() : '']
      .filter((n) => n !== '')
      .join('; '),
  );
  let cost = sum;
  const contingency = prices.shares.get('contingency');
  if (contingency !== undefined) {
    const extra = times(sum, contingency);
    lines.push({
      name: 'contingency',
      measure: 'share',
      quantity: undefined,
      price: contingency,
      amount: extra,
      note: 'of the subtotal',
    });
    cost = plus(sum, extra);
  }
  total('cost', cost, '');
  const margin = prices.shares.get('margin');
  const markUp = prices.shares.get('mark-up');
  const share = margin ?? markUp ?? 0;
  const gain = times(cost, margin !== undefined ? share / (1 - share) : share);
  if (margin !== undefined)
    lines.push({
      name: 'margin',
      measure: 'share',
      quantity: undefined,
      price: margin,
      amount: gain,
      note: 'margin: a share of the price; price = cost / (1 - margin)',
    });
  if (markUp !== undefined)
    lines.push({
      name: 'mark-up',
      measure: 'share',
      quantity: undefined,
      price: markUp,
      amount: gain,
      note: 'mark-up: a share of the cost; price = cost x (1 + mark-up)',
    });
  total('price', plus(cost, gain), margin === undefined && markUp === undefined ? 'no margin or mark-up given' : '');
  return lines;
}
