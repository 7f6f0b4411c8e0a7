/** Priced lines of a planned job. */
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { noPriceFor, rangeUnknown } from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working } from '../model/working.ts';
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

/** A line of the costing, in the symbols of its steps. */
interface PlannedLine {
  readonly name: string;
  readonly measure: CostLine['measure'];
  /** Symbol of its step, or the count of a sum. */
  readonly quantity?: string | number;
  readonly price?: number | undefined;
  readonly amount?: string | undefined;
  readonly note?: string;
}

/** Unit of a price for one SI unit of what is priced; what is counted has a price each. */
const priceQuantity = (measure: CostLine['measure']): QuantityName =>
  measure === 'oxygen' ? 'moneyPerMass' : measure === 'hours' ? 'moneyPerTime' : 'money';

/** The list of steps of one costing as it grows: what the plan takes, each priced line, then the sums. */
class Costing {
  readonly steps: Step[] = [];
  readonly values: Record<string, Ranged> = {};
  readonly lines: PlannedLine[] = [];
  readonly unpriced: string[] = [];
  private readonly amounts: string[] = [];

  /** A total of the plan. */
  total(symbol: string, name: string, quantity: QuantityName, value: Ranged): string {
    this.steps.push(
      given(symbol, name, quantity, { words: 'sum over the plan', kind: 'calculated', source: 'arithmetic' }),
    );
    this.values[symbol] = value;
    return symbol;
  }

  /** A line that is a quantity times its price, where there is one. */
  priced(
    mark: string,
    name: string,
    measure: CostLine['measure'],
    quantity: string,
    price: number | undefined,
    note = '',
  ): void {
    if (price === undefined) {
      this.unpriced.push(name);
      this.lines.push({ name, measure, quantity, note });
      return;
    }
    this.steps.push(
      given(`P_${mark}`, `price of ${name}`, priceQuantity(measure)),
      // A range without an end costs nothing where the price is nothing.
      calculated(
        `A_${mark}`,
        `amount of ${name}`,
        'money',
        `if(P_${mark} > 0, ${quantity} * P_${mark}, 0)`,
        'quantity x price',
      ),
    );
    this.values[`P_${mark}`] = certain(price);
    this.amounts.push(`A_${mark}`);
    this.lines.push({ name, measure, quantity, price, amount: `A_${mark}`, note });
  }

  /** A sum of the user's own. */
  own(mark: string, name: string, amount: number): void {
    this.steps.push(given(`A_${mark}`, name, 'money'));
    this.values[`A_${mark}`] = certain(amount);
    this.amounts.push(`A_${mark}`);
    this.lines.push({ name, measure: 'sum', quantity: 1, price: amount, amount: `A_${mark}` });
  }

  /** A share of a sum before it, and what it comes to. */
  share(symbol: string, name: ShareLine, share: number, factor: string, of: string, words: string, note: string): void {
    this.steps.push(
      given(symbol, name, 'ratio'),
      calculated(`A_${symbol}`, `${name}: amount`, 'money', `if(${symbol} > 0, ${of} * ${factor}, 0)`, words),
    );
    this.values[symbol] = certain(share);
    this.lines.push({ name, measure: 'share', price: share, amount: `A_${symbol}`, note });
  }

  sum(symbol: string, name: string, expression: string, words: string, note = ''): void {
    this.steps.push(calculated(symbol, name, 'money', expression, words));
    this.lines.push({ name, measure: 'sum', amount: symbol, note });
  }

  /** The amounts so far, added up. */
  subtotal(): void {
    const [first = '0', ...others] = this.amounts;
    this.sum('S', 'subtotal', [first, ...others].join(' + '), 'sum of the amounts');
  }
}

const certain = (x: number): Ranged => ({ value: x, low: x, high: x });

/** Lines of what the plan takes. */
function takenLines(c: Costing, plan: readonly PlanRow[], prices: Prices, basis: Basis): void {
  const totals = jobTotals(plan, basis);
  const price = (line: PricedLine): number | undefined => prices.lines.get(line);
  [...totals.rods].forEach(([name, quantity], i) => {
    const rods = c.total(`N_rod${i + 1}`, `rods ${name}`, 'count', quantity);
    c.priced(`rod${i + 1}`, `rod ${name}`, 'count', rods, rodPrice(name, prices));
  });
  const byVolume = price('oxygen') !== undefined;
  const byCylinder = price('cylinders') !== undefined;
  if (byVolume || !byCylinder)
    c.priced(
      'O',
      'oxygen',
      'oxygen',
      c.total('O', 'oxygen', 'oxygen', totals.oxygen),
      price('oxygen'),
      byVolume && byCylinder ? 'priced by volume and by cylinder: both count' : '',
    );
  const rental = price('cylinder rental');
  if (byCylinder || rental !== undefined) c.total('N_cyl', 'cylinders', 'count', totals.cylinders);
  if (byCylinder) c.priced('cyl', 'cylinders', 'count', 'N_cyl', price('cylinders'));
  c.total('t_crew', 'crew', 'hours', totals.crew);
  const ram = price('ram hire');
  if (rental !== undefined || ram !== undefined)
    c.steps.push(
      assumed('day', 'day length'),
      calculated('n_day', 'days', 'count', 'ceil(t_crew / day - 1e-9)', 'crew time / day length, up to a whole number'),
    );
  if (rental !== undefined) {
    c.steps.push(calculated('n_rent', 'cylinder days', 'count', 'N_cyl * n_day', 'cylinders x days'));
    c.priced('rent', 'cylinder rental', 'cylinder days', 'n_rent', rental, 'every cylinder for every day of the job');
  }
  c.priced('crew', 'crew', 'hours', 't_crew', price('crew'));
  const plate = price('plates');
  if (plate !== undefined) {
    const { value, low, high } = basis.a.inForce('plates per pin');
    c.total('n_plated', 'items that take plates', 'count', certain(totals.plated));
    c.values['k_plate'] = { value, low, high };
    c.steps.push(
      assumed('k_plate', 'plates per pin'),
      calculated(
        'N_plate',
        'plates',
        'count',
        'ceil(k_plate * n_plated - 1e-9)',
        'plates per pin x items that take them',
      ),
    );
    c.priced('plate', 'plates', 'count', 'N_plate', plate);
  }
  if (ram !== undefined) c.priced('ram', 'ram hire', 'days', 'n_day', ram, 'whole days of crew time');
  const mobilisation = price('mobilisation');
  if (mobilisation !== undefined) c.own('mob', 'mobilisation', mobilisation);
  prices.others.forEach(({ name, amount }, i) => c.own(`other${i + 1}`, name, amount));
}

/** Subtotal, contingency, cost, margin or mark-up, price. */
function sumLines(c: Costing, { shares }: Prices): void {
  c.subtotal();
  const contingency = shares.get('contingency');
  if (contingency !== undefined)
    c.share('k_cont', 'contingency', contingency, 'k_cont', 'S', 'share x subtotal', 'of the subtotal');
  c.sum(
    'cost',
    'cost',
    contingency === undefined ? 'S' : 'S + A_k_cont',
    contingency === undefined ? 'subtotal' : 'subtotal + contingency',
  );
  const margin = shares.get('margin');
  const markUp = shares.get('mark-up');
  if (margin !== undefined)
    c.share(
      'k_margin',
      'margin',
      margin,
      '(k_margin / (1 - k_margin))',
      'cost',
      'cost x margin / (1 - margin)',
      'margin: a share of the price; price = cost / (1 - margin)',
    );
  if (markUp !== undefined)
    c.share(
      'k_markup',
      'mark-up',
      markUp,
      'k_markup',
      'cost',
      'cost x mark-up',
      'mark-up: a share of the cost; price = cost x (1 + mark-up)',
    );
  const gain = margin !== undefined ? 'A_k_margin' : markUp !== undefined ? 'A_k_markup' : undefined;
  c.sum(
    'price',
    'price',
    gain === undefined ? 'cost' : `cost + ${gain}`,
    gain === undefined ? 'cost' : 'cost + what is put on it',
    gain === undefined ? 'no margin or mark-up given' : '',
  );
}

function costingOf(plan: readonly PlanRow[], prices: Prices, basis: Basis): { c: Costing; list: StepList } {
  const c = new Costing();
  takenLines(c, plan, prices, basis);
  sumLines(c, prices);
  return {
    c,
    list: new StepList(
      c.steps,
      c.steps.map((step) => step.symbol),
    ),
  };
}

/** How the price of a plan comes about, without its low and high. */
export function jobCostWorking(plan: readonly PlanRow[], prices: Prices, basis: Basis): Working {
  const { c, list } = costingOf(plan, prices, basis);
  const values = Object.fromEntries(Object.entries(c.values).map(([symbol, { value }]) => [symbol, value]));
  return new Working(new Evaluation(list, values, basis.a), 'price', list.results);
}

/**
 * Priced lines of a plan: quantity x price, then the subtotal, contingency on it, the cost, and margin or mark-up.
 *
 * price = cost / (1 - margin), or cost x (1 + mark-up). Low and high of a line come from those of the plan (`jobRange`);
 * lines share crew and gas, so their lows add up, and so do their highs: the list of steps on a column of value, low and
 * high. Daily prices count whole days of crew time / day length. A line of the plan without a price is named in the note
 * of the subtotal.
 */
export function jobCost(plan: readonly PlanRow[], prices: Prices, basis: Basis): readonly CostLine[] {
  const { c, list } = costingOf(plan, prices, basis);
  const columns = Object.entries(c.values).map(
    ([symbol, { value, low, high }]) => [symbol, Float64Array.of(value, low, high)] as const,
  );
  const at = new Evaluation(list, Object.fromEntries(columns), basis.a);
  const ranged = (symbol: string): Ranged => {
    const column = at.column(symbol);
    if (typeof column === 'number') return certain(column);
    const [value = NaN, low = NaN, high = NaN] = column;
    return { value, low, high };
  };
  const noted = (name: string, note: string): string =>
    name !== 'subtotal'
      ? note
      : [c.unpriced.length > 0 ? noPriceFor(c.unpriced) : '', ranged('S').high === Infinity ? rangeUnknown() : '']
          .filter((n) => n !== '')
          .join('; ');
  return c.lines.map(({ name, measure, quantity, price, amount, note = '' }) => ({
    name,
    measure,
    quantity: typeof quantity === 'string' ? ranged(quantity).value : quantity,
    price,
    amount: amount === undefined ? undefined : ranged(amount),
    note: noted(name, note),
  }));
}
