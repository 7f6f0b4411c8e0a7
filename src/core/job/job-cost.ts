/** Priced lines of a planned job. */
import { forDraws, joined, noPriceFor, quotedAndUsed, rangeUnknown, shown } from '../messages.ts';
import { Evaluation, filled, type Column } from '../model/evaluation.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working } from '../model/working.ts';
import type { QuantityName } from '../units/quantities.ts';
import { endsOf, endsOff, type Ends, type Job } from './job-list.ts';
import { jobSchedule, type Crewing } from './job-schedule.ts';
import { jobStock, linesOf, type StockLine } from './job-stock.ts';
import { acrossWorlds } from './job-worlds.ts';

/** Lines that are a share of others. */
export type ShareLine = 'contingency' | 'margin' | 'mark-up' | 'tax';
/** Lines a price can be given for, besides rods by name and sums of the user's own. */
export type PricedLine =
  | 'oxygen'
  | 'cylinders'
  | 'cylinder rental'
  | 'batteries'
  | 'crew'
  | 'crew day'
  | 'standby'
  | 'plates'
  | 'ram hire'
  | 'mobilisation';

/** The user's prices, in money of any kind for an SI unit: a kilogram of oxygen, a second of crew time. */
export interface Prices {
  readonly lines: ReadonlyMap<PricedLine, number>;
  /** Price of a rod by its name, by its size alone, or of any rod (empty name). */
  readonly rods: ReadonlyMap<string, number>;
  /** Sums that are added as they stand. */
  readonly others: readonly { readonly name: string; readonly amount: number }[];
  /** Shares, 0 to 1. */
  readonly shares: ReadonlyMap<ShareLine, number>;
  /** Money of all prices, such as USD; empty where none is named. */
  readonly currency: string;
}

/** An amount as it is quoted, and what the job may come to where only what is used is paid for. */
export interface Amount {
  readonly value: number;
  /** P10 and P90 of what the job takes, in the worlds of the load; Infinity where it is beyond reach. */
  readonly usedLow: number;
  readonly usedHigh: number;
}

/** What is priced: the quantity quoted, that of the plans, and that of each world. */
interface Priced {
  readonly value: number;
  readonly plain: number;
  readonly draws: Column;
}

export interface CostLine {
  readonly name: string;
  /** SI; undefined in sums. */
  readonly quantity: number | undefined;
  readonly measure: QuantityName | 'cylinder days' | 'crew days' | 'days' | 'sum' | 'share';
  /** For one SI unit of the quantity, or a share; undefined where no price was given and in sums. */
  readonly price: number | undefined;
  readonly amount: Amount | undefined;
  readonly note: string;
  /** Symbols of the steps of the working that are its quantity, price and amount. */
  readonly symbols: LineSymbols;
}

export type LineSymbols = Readonly<Partial<Record<'quantity' | 'price' | 'amount', string>>>;

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
  /** Symbol of its step. */
  readonly priceSymbol?: string;
  readonly amount?: string | undefined;
  readonly note?: string;
}

/** Unit of a price for one SI unit of what is priced; what is counted has a price each. */
const priceQuantity = (measure: CostLine['measure']): QuantityName =>
  measure === 'oxygen' ? 'moneyPerMass' : measure === 'hours' ? 'moneyPerTime' : 'money';

/** The list of steps of one costing as it grows: what the plan takes, each priced line, then the sums. */
class Costing {
  readonly steps: Step[] = [];
  readonly values: Record<string, Priced> = {};
  readonly lines: PlannedLine[] = [];
  readonly unpriced: string[] = [];
  private readonly amounts: string[] = [];

  /** What the job takes of something. */
  total(symbol: string, name: string, quantity: QuantityName, value: Priced, words: string): string {
    this.steps.push(given(symbol, name, quantity, { words, kind: 'calculated', source: 'arithmetic' }));
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
    this.lines.push({ name, measure, quantity, price, priceSymbol: `P_${mark}`, amount: `A_${mark}`, note });
  }

  /** A sum of the user's own. */
  own(mark: string, name: string, amount: number): void {
    this.steps.push(given(`A_${mark}`, name, 'money'));
    this.values[`A_${mark}`] = certain(amount);
    this.amounts.push(`A_${mark}`);
    this.lines.push({
      name,
      measure: 'sum',
      quantity: 1,
      price: amount,
      priceSymbol: `A_${mark}`,
      amount: `A_${mark}`,
    });
  }

  /** A share of a sum before it, and what it comes to. */
  share(symbol: string, name: ShareLine, share: number, factor: string, of: string, words: string, note: string): void {
    this.steps.push(
      given(symbol, name, 'ratio'),
      calculated(`A_${symbol}`, `${name}: amount`, 'money', `if(${symbol} > 0, ${of} * ${factor}, 0)`, words),
    );
    this.values[symbol] = certain(share);
    this.lines.push({ name, measure: 'share', price: share, priceSymbol: symbol, amount: `A_${symbol}`, note });
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

const certain = (x: number): Priced => ({ value: x, plain: x, draws: x });

/** What the schedule says of a job, as planned and in each world. */
interface Scheduled {
  readonly days: Priced;
  readonly crewDays: Priced;
  /** [s] */
  readonly standby: Priced;
}

/** Days and waiting of the schedule, as planned and in each world; days are whole. */
function scheduled(job: Job, crewing: Crewing): Scheduled {
  return job.once(`scheduled ${crewing.crews} ${crewing.shift}`, () => {
    const planned = jobSchedule(job, crewing);
    const of = (figure: (s: typeof planned) => number, shown = (x: number): number => x): Priced => {
      const value = figure(planned);
      return { value, plain: value, draws: acrossWorlds(job, crewing, figure).map(shown) };
    };
    return {
      days: of((s) => s.shifts, Math.round),
      crewDays: of((s) => s.crewShifts, Math.round),
      standby: of((s) => s.standby),
    };
  });
}

/** Lines of what the job takes: quantities are those of the load, days and waiting those of the schedule. */
function takenLines(c: Costing, job: Job, prices: Prices, confidence: number, crewing: Crewing): void {
  const stock = jobStock(job, confidence).lines;
  const { days, crewDays, standby } = scheduled(job, crewing);
  const price = (line: PricedLine): number | undefined => prices.lines.get(line);
  const needs = new Map(linesOf(job, job.needs).map(({ name, draws }) => [name, draws]));
  const load = ({ name, load: value, plain }: StockLine): Priced => ({ value, plain, draws: needs.get(name)! });
  const lineOf = (name: string): StockLine | undefined => stock.find((line) => line.name === name);
  const loaded = (symbol: string, name: string, quantity: QuantityName, of = name): string =>
    c.total(symbol, name, quantity, load(lineOf(of)!), 'what is loaded for the confidence asked for');
  const laidOut = (symbol: string, name: string, quantity: QuantityName, value: Priced): string =>
    c.total(symbol, name, quantity, value, 'from the schedule');
  stock
    .filter(({ name }) => name.startsWith('rods '))
    .forEach(({ name }, i) => {
      const rod = name.slice('rods '.length);
      const symbol = loaded(`N_rod${i + 1}`, name, 'count');
      c.priced(`rod${i + 1}`, `rod ${rod}`, 'count', symbol, rodPrice(rod, prices));
    });
  const byVolume = price('oxygen') !== undefined;
  const byCylinder = price('cylinders') !== undefined;
  if (byVolume || !byCylinder)
    c.priced(
      'O',
      'oxygen',
      'oxygen',
      loaded('O', 'oxygen', 'oxygen'),
      price('oxygen'),
      byVolume && byCylinder ? 'priced by volume and by cylinder: both count' : '',
    );
  const [rental, ram] = [price('cylinder rental'), price('ram hire')];
  if (byCylinder || rental !== undefined) loaded('N_cyl', 'cylinders', 'count');
  if (byCylinder) c.priced('cyl', 'cylinders', 'count', 'N_cyl', price('cylinders'));
  if (rental !== undefined || ram !== undefined) laidOut('n_day', 'days', 'count', days);
  if (rental !== undefined) {
    c.steps.push(calculated('n_rent', 'cylinder days', 'count', 'N_cyl * n_day', 'cylinders x days'));
    c.priced('rent', 'cylinder rental', 'cylinder days', 'n_rent', rental, 'every cylinder for every day of the job');
  }
  if (price('batteries') !== undefined)
    c.priced('bat', 'batteries', 'count', loaded('N_bat', 'batteries', 'count'), price('batteries'));
  crewLines(c, price, loaded('t_work', 'crew work', 'hours'), crewDays, standby);
  if (price('plates') !== undefined && lineOf('plates'))
    c.priced('plate', 'plates', 'count', loaded('N_plate', 'plates', 'count'), price('plates'));
  if (ram !== undefined) c.priced('ram', 'ram hire', 'days', 'n_day', ram, 'days of the schedule');
  const mobilisation = price('mobilisation');
  if (mobilisation !== undefined) c.own('mob', 'mobilisation', mobilisation);
  prices.others.forEach(({ name, amount }, i) => c.own(`other${i + 1}`, name, amount));
}

/** The crew by the hour, with what it waits for pins to cool, or by the day. */
function crewLines(
  c: Costing,
  price: (line: PricedLine) => number | undefined,
  work: string,
  crewDays: Priced,
  standby: Priced,
): void {
  const [hour, day] = [price('crew'), price('crew day')];
  if (hour !== undefined || day === undefined) c.priced('crew', 'crew work', 'hours', work, hour);
  if (day !== undefined) {
    const days = c.total('n_crew', 'crew days', 'count', crewDays, 'from the schedule');
    c.priced(
      'day',
      'crew days',
      'crew days',
      days,
      day,
      hour === undefined ? '' : 'priced by the hour and by the day: both count',
    );
  }
  const waiting = price('standby') ?? (day === undefined ? hour : undefined);
  if (waiting === undefined) return;
  const time = c.total('t_wait', 'standby', 'hours', standby, 'from the schedule: waiting for pins to cool');
  c.priced('wait', 'standby', 'hours', time, waiting, price('standby') === undefined ? 'priced as the crew' : '');
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
  const tax = shares.get('tax');
  if (tax === undefined) return;
  c.share('k_tax', 'tax', tax, 'k_tax', 'price', 'share x price', 'of the price');
  c.sum('total', 'total', 'price + A_k_tax', 'price + tax');
}

/** A costing, and its list of steps on what of each quantity is asked for. */
function costingOf(
  job: Job,
  prices: Prices,
  confidence: number,
  crewing: Crewing,
): { readonly c: Costing; readonly on: (of: (priced: Priced) => Column) => Evaluation } {
  const c = new Costing();
  takenLines(c, job, prices, confidence, crewing);
  sumLines(c, prices);
  const list = new StepList(
    c.steps,
    c.steps.map((step) => step.symbol),
  );
  const on = (of: (priced: Priced) => Column): Evaluation =>
    new Evaluation(
      list,
      Object.fromEntries(Object.entries(c.values).map(([symbol, priced]) => [symbol, of(priced)])),
      job.basis.a,
    );
  return { c, on };
}

/**
 * What a job comes to before contingency, margin and tax: by the plans and in each world.
 *
 * @example jobSpending(job, { lines: new Map([['crew', 180 / 3600]]), rods: new Map([['', 9]]), others: [],
 *   shares: new Map(), currency: '' }, 0.9, crewingOf(basis)).planned // 386.2
 */
export function jobSpending(
  job: Job,
  prices: Prices,
  confidence: number,
  crewing: Crewing,
): { readonly planned: number; readonly draws: Float64Array } {
  const { on } = costingOf(job, prices, confidence, crewing);
  const draws = on(({ draws }) => draws).column('S');
  return { planned: on(({ plain }) => plain).number('S'), draws: filled(draws, job.needs.count) };
}

/** How the price of a job comes about, without its low and high. */
export function jobCostWorking(job: Job, prices: Prices, confidence: number, crewing: Crewing): Working {
  const at = costingOf(job, prices, confidence, crewing).on(({ value }) => value);
  return new Working(at, prices.shares.has('tax') ? 'total' : 'price', at.list.results);
}

/**
 * Priced lines of a job: quantity x price, then the subtotal, contingency on it, the cost, margin or mark-up, and tax.
 *
 * price = cost / (1 - margin), or cost x (1 + mark-up); total = price x (1 + tax). Quantities are those that `jobStock` loads for
 * the confidence; days, crews and waiting those of `jobSchedule`. Used low and used high are P10 and P90 of what the job takes, by the same
 * draws as the load: the list of steps on a column of worlds, so that a sum has its own low and high, not those of its lines
 * added up. What is loaded to be on the safe side may cost more than the used high: what is left over goes back. A line without a price is named in the note of
 * the subtotal.
 *
 * @example jobCost(job, { lines: new Map([['crew', 180 / 3600]]), rods: new Map([['', 9]]), others: [],
 *   shares: new Map(), currency: '' }, 0.9, crewingOf(basis)).at(-1).amount.value // 563.2
 */
export function jobCost(job: Job, prices: Prices, confidence: number, crewing: Crewing): readonly CostLine[] {
  const { c, on } = costingOf(job, prices, confidence, crewing);
  const at = on(({ value }) => value);
  const worlds = on(({ draws }) => draws);
  const used = (symbol: string): Ends => {
    const column = worlds.column(symbol);
    return endsOf(typeof column === 'number' ? Float64Array.of(column) : column);
  };
  const amountOf = (symbol: string): Amount => {
    const [low, high] = used(symbol);
    return { value: at.number(symbol), usedLow: low.value, usedHigh: high.value };
  };
  const noted = (name: string, note: string): string =>
    name !== 'subtotal'
      ? note
      : joined([
          c.unpriced.length > 0 ? noPriceFor(c.unpriced) : '',
          amountOf('S').usedHigh === Infinity ? rangeUnknown() : '',
          jobStock(job, confidence).doubt,
          quotedAndUsed(`${shown(100 * confidence, 3)}%`),
          typeof worlds.column('S') === 'number' ? '' : forDraws(endsOff(used('S'))),
        ]);
  return c.lines.map(({ name, measure, quantity, price, priceSymbol, amount, note = '' }) => ({
    name,
    measure,
    quantity: typeof quantity === 'string' ? at.number(quantity) : quantity,
    price,
    amount: amount === undefined ? undefined : amountOf(amount),
    note: noted(name, note),
    symbols: {
      ...(typeof quantity === 'string' && { quantity }),
      ...(priceSymbol !== undefined && { price: priceSymbol }),
      ...(amount !== undefined && { amount }),
    },
  }));
}
