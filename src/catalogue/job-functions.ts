import { Basis } from '../core/basis.ts';
import { SPREAD_QUANTITIES, itemPercentile, type SpreadQuantity } from '../core/operations/item-percentile.ts';
import { jobCost, jobCostWorking, type CostLine } from '../core/job/job-cost.ts';
import { parseStart, showClock, showDay, showDuration, type Start } from '../core/job/clock.ts';
import { crewingOf, jobSchedule, type Schedule } from '../core/job/job-schedule.ts';
import { crateName, endsOff, nameOf, type Job, type JobList } from '../core/job/job-list.ts';
import { jobStock, type StockLine } from '../core/job/job-stock.ts';
import { CalcError } from '../core/errors.ts';
import {
  bareNoise,
  changeAt,
  forDraws,
  highBeyondReach,
  joined,
  jointLoad,
  leftOutOf,
  percent,
  scheduleSum,
  shown,
  totalOf,
  totalWithout,
  waitsFor,
  watchUntil,
} from '../core/messages.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';
import type { Working } from '../core/model/working.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import {
  optional,
  required,
  tableFunction,
  type Column,
  type Declaration,
  type ItemOfRow,
  type Output,
} from './declaration.ts';
import { itemWorking } from './item-working.ts';
import { COMPARE_COLUMNS, compareJobs } from './job-compare.ts';
import { jobKnown, listItems } from './job-items.ts';
import { PLAN_COLUMNS, planLine, reached } from './plan-line.ts';
import { readItems } from './read-items.ts';
import type { Cells } from './read-table.ts';
import { jobOf, listParameter } from './read-list.ts';
import { readAssume } from './read-assume.ts';
import { PRICE_NAMES, readPrices } from './read-prices.ts';
import { CONFIDENCE, loadConfidence, shareOf } from './share.ts';

const HOUR = 3600;

export const operationParameter = required(
  { kind: 'choice', choices: OPERATION_IDS },
  `Operation: ${OPERATION_IDS.join(', ')}`,
  '"PIN"',
);
const sizes = required(
  { kind: 'cells' },
  'Range of items, one a row: the sizes in the order of the operation, then rod and material if wanted; a heading row may name columns and units',
  'A2:C9',
);
const confidence = optional(
  CONFIDENCE,
  'Chance that nothing runs short on the whole job: 90, 90% or 0.9; the assumption load confidence when left out',
  '90',
);
export const crews = optional(
  { kind: 'quantity', quantity: 'count', above: 0, max: 100, whole: true },
  'Crews that work side by side; the assumption crews when left out',
  '1',
);
export const pricesParameter = required(
  { kind: 'cells' },
  `Rows name, price and, for oxygen and crew, per (100 scf, h). Names: ${PRICE_NAMES.filter((n) => !n.startsWith('rod ')).join(', ')}, rod 3/8 x 36, other ...`,
  'A1:C9',
);

const SPREAD_UNIT: Readonly<Record<SpreadQuantity, QuantityName>> = {
  rods: 'count',
  oxygen: 'oxygen',
  burn: 'time',
  time: 'time',
  cylinders: 'count',
};

export const headed = (name: string, quantity: QuantityName, system: UnitSystem): string => {
  const unit = plainUnit(quantity, system);
  return unit === '' ? name : `${name}, ${unit}`;
};

/** A number that is shown with the unit of its own row. */
const shownIn = (value: number, quantity: QuantityName, { a }: Basis): number => fromSi(value, quantity, a.system);

/** The columns of a plan, each row with its mark and its pieces. */
export const JOB_PLAN_COLUMNS = [
  PLAN_COLUMNS[0],
  { heading: 'mark' },
  { heading: 'quantity', quantity: 'count' },
  ...PLAN_COLUMNS.slice(1),
] as const satisfies readonly Column[];

const rowsAndPieces = ({ items, pieces, list: { bad } }: Job): string =>
  bad.length === 0 ? totalOf(items.length, pieces) : totalWithout(items.length, items.length + bad.length, pieces);

/** Place of the first row of a list that holds anything; the plan begins with it. */
export const firstListed = ({ rows }: JobList): number => rows.findIndex((row) => row.kind !== 'blank');

/** The rows of a list that its plan has: from the first that holds anything below the heading to the last. */
function plannedRows(list: JobList): JobList['rows'] {
  const { rows } = list;
  return rows.slice(firstListed(list), rows.findLastIndex((row) => row.kind !== 'blank') + 1);
}

/** The item of a row of a plan. */
function planRow(job: Job, row: number): ItemOfRow | undefined {
  const found = plannedRows(job.list)[row - 1];
  if (found?.kind !== 'item') return undefined;
  const { sized, basis, quantity } = found.item;
  return {
    mark: nameOf(found.item),
    pieces: quantity,
    operation: sized.operation.id,
    basis,
    known: jobKnown({ items: [found.item], basis: job.basis }),
    working: (step) => itemWorking(sized, basis, step),
  };
}

/** A row for each row of the list, so that they can stand beside each other, and the total. */
function jobPlan(job: Job): readonly (readonly Output[])[] {
  const { cylinders, list } = job;
  job.drawRows();
  const after = new Map(job.items.map((item, i) => [item, cylinders instanceof CalcError ? cylinders : cylinders[i]]));
  const blank = JOB_PLAN_COLUMNS.map((): Output => null);
  const set = (row: readonly Output[], cells: Readonly<Record<string, Output>>): readonly Output[] =>
    row.map((cell, i) => cells[JOB_PLAN_COLUMNS[i]!.heading] ?? cell);
  let number = 0;
  return [
    ...plannedRows(list).map((row): readonly Output[] => {
      if (row.kind === 'blank') return blank;
      number++;
      if (row.kind === 'bad')
        return JOB_PLAN_COLUMNS.map(({ heading, ...column }): Output => {
          if (heading === 'item') return number;
          if (heading === 'mark') return row.bad.mark;
          if (heading === 'note') return row.bad.problem.message;
          return 'quantity' in column && heading !== 'quantity' ? row.bad.problem : null;
        });
      const { item } = row;
      const { sized, quantity, basis, conditions, notes, mark } = item;
      const [, ...line] = planLine(sized, basis, { quantity, spread: job.spread(item), conditions, notes });
      const at = after.get(item);
      return set([number, mark, quantity, ...line], {
        'cylinders so far': at instanceof CalcError ? at : (at?.opened ?? null),
        'left in cylinder': at instanceof CalcError ? at : (at?.left ?? null),
        note: at instanceof CalcError ? joined([line.at(-1), at.message]) : (line.at(-1) ?? null),
      });
    }),
    set(blank, totalCells(job)),
  ];
}

function totalCells(job: Job): Readonly<Record<string, Output>> {
  const { needs, total, items, cylinders, list } = job;
  const sum = (of: (item: (typeof items)[number]) => number): number => items.reduce((all, item) => all + of(item), 0);
  const end = cylinders instanceof CalcError ? cylinders : cylinders.at(-1);
  const rods = [...needs.rods].map(([name, { plain }]) => `${name}: ${plain}`);
  const off = Object.entries(needs.ends).flatMap(([what, ends]) => {
    const by = endsOff(ends, what === 'rods');
    return by === '' ? [] : [`${what} ${by}`];
  });
  return {
    item: 'total',
    mark: rowsAndPieces(job),
    quantity: job.pieces,
    rod: needs.rods.size === 1 ? crateName(items[0]!.sized) : `${needs.rods.size} kinds`,
    rods: needs.allRods.plain,
    'rods low': total.lowRods,
    'rods high': reached(total.highRods),
    oxygen: needs.oxygen.plain,
    'oxygen low': total.lowOxygen,
    'oxygen high': reached(total.highOxygen),
    'cylinders so far': end instanceof CalcError ? end : (end?.opened ?? null),
    'left in cylinder': end instanceof CalcError ? end : (end?.left ?? null),
    burning: sum(({ sized, quantity }) => quantity * sized.burnTime),
    crew: needs.crewTime.plain,
    'crew low': total.lowCrewTime,
    'crew high': reached(total.highCrewTime),
    removed: sum(({ sized, quantity }) => quantity * sized.removed),
    note: joined([
      rods.length > 1 ? rods.join(', ') : '',
      list.bad.length > 0 ? leftOutOf(list.bad.map(({ problem }) => problem.message)) : '',
      ...list.remarks.map(({ text }) => text),
      forDraws(off.join(', ')),
    ]),
  };
}

/** A line that says something first, and why in the last column. */
export const noteLine = (what: string, reason: string, columns: number): readonly Output[] =>
  Array.from({ length: columns }, (_, i): Output => (i === 0 ? what : i === columns - 1 ? reason : null));

/** Rows of a list that were left out and what is to be said of it besides, one a line, with the reason in the last column. */
export function leftOutOfList({ bad, remarks }: JobList, columns: number): readonly (readonly Output[])[] {
  return [
    ...bad.map(({ problem }) => noteLine('left out', problem.message, columns)),
    ...remarkLines(remarks, columns),
  ];
}

/** What is to be said of a list besides its rows, one a line. */
export const remarkLines = (remarks: JobList['remarks'], columns: number): readonly (readonly Output[])[] =>
  remarks.map(({ kind, text }) => noteLine(kind, text, columns));

const STOCK_COLUMNS = [
  { heading: 'load' },
  { heading: 'amount' },
  { heading: 'unit' },
  { heading: 'sum of plans' },
  { heading: 'load falls short', quantity: 'percent' },
  { heading: 'sum falls short', quantity: 'percent' },
  { heading: 'note' },
] as const satisfies readonly Column[];

function stockLine(
  { name, quantity, load, within, plain, short, plainShort, counts }: StockLine,
  basis: Basis,
): readonly Output[] {
  return [
    name,
    shownIn(load, quantity, basis),
    plainUnit(quantity, basis.a.system),
    shownIn(plain, quantity, basis),
    short,
    plainShort,
    joined([
      counts ? '' : 'in the cylinders below',
      within > 0 && within < Infinity ? `+- ${shown(shownIn(within, quantity, basis), 2)}` : '',
    ]) || null,
  ];
}

const COST_COLUMNS = [
  { heading: 'line' },
  { heading: 'quantity' },
  { heading: 'unit' },
  { heading: 'price' },
  { heading: 'quoted' },
  { heading: 'used low' },
  { heading: 'used high' },
  { heading: 'note' },
] as const satisfies readonly Column[];

/** What a price is asked for with. */
interface Asked {
  readonly list: Cells;
  readonly prices: Cells;
  readonly confidence: number | undefined;
  readonly crews: number | undefined;
}

const costing = (
  { list, prices, confidence: given, crews: number }: Asked,
  basis: Basis,
): Parameters<typeof jobCost> => [
  jobOf(list, basis),
  readPrices(prices, basis.a.system),
  loadConfidence(basis, given),
  crewingOf(basis, number),
];

/** The priced lines of a job with how they come about. */
export function costOf(asked: Asked, basis: Basis): { readonly lines: readonly CostLine[]; readonly working: Working } {
  const all = costing(asked, basis);
  return { lines: jobCost(...all), working: jobCostWorking(...all) };
}

/** Unit of a cost line in words; sums have none. */
function costUnit(measure: CostLine['measure'], currency: string, system: UnitSystem): string {
  switch (measure) {
    case 'sum':
      return currency;
    case 'share':
      return '%';
    case 'cylinder days':
    case 'crew days':
    case 'days':
      return measure;
    default:
      return plainUnit(measure, system);
  }
}

function costLine(
  { name, quantity, measure, price, amount, note }: CostLine,
  currency: string,
  { a: { system } }: Basis,
): readonly Output[] {
  const unit = ['sum', 'share', 'cylinder days', 'crew days', 'days'].includes(measure)
    ? undefined
    : (measure as QuantityName);
  const shownQuantity = quantity === undefined ? null : unit ? fromSi(quantity, unit, system) : quantity;
  const one = unit ? 1 / fromSi(1, unit, system) : 1;
  const shownPrice = price === undefined ? null : measure === 'share' ? 100 * price : price * one;
  const high: Output =
    amount === undefined ? null : Number.isFinite(amount.usedHigh) ? amount.usedHigh : highBeyondReach();
  return [
    name,
    shownQuantity,
    costUnit(measure, currency, system),
    shownPrice,
    amount?.value ?? null,
    amount?.usedLow ?? null,
    high,
    note === '' ? null : note,
  ];
}

const SCHEDULE_COLUMNS = [
  { heading: 'order' },
  { heading: 'mark' },
  { heading: 'crew' },
  { heading: 'shift' },
  { heading: 'day' },
  { heading: 'start' },
  { heading: 'burn from' },
  { heading: 'burn to' },
  { heading: 'cold at' },
  { heading: 'push shift' },
  { heading: 'push from' },
  { heading: 'done' },
  { heading: 'cylinder' },
  { heading: 'noise dose', quantity: 'percent' },
  { heading: 'note' },
] as const satisfies readonly Column[];

type ScheduleLine = Partial<Record<(typeof SCHEDULE_COLUMNS)[number]['heading'], Output>>;

/** Pieces, waits and breaks in the order they begin, the fire watch at the end of each shift, and a line for the whole. */
function scheduleLines(s: Schedule, start: Start): readonly (readonly Output[])[] {
  const clock = (time: number): string => showClock(start, time);
  const slots = s.slots.map((slot, i) => ({
    at: slot.start,
    shift: slot.shift,
    line: {
      order: i + 1,
      mark: slot.stages.name,
      crew: slot.crew,
      start: clock(slot.start),
      'burn from': clock(slot.hotFrom),
      'burn to': clock(slot.hotTo),
      'cold at': clock(slot.cool),
      'push shift': slot.pushShift,
      'push from': clock(slot.pushFrom),
      done: clock(slot.done),
      cylinder: s.cylinders === undefined ? null : slot.cylinders,
      'noise dose': slot.dose,
      note: slot.changes
        .map((time, k) => changeAt(slot.cylinders - slot.changes.length + k + 1, clock(time)))
        .join('; '),
    },
  }));
  const pauses = s.pauses.map(({ crew, shift, from, to, waitsFor: stages }) => ({
    at: from,
    shift,
    line: {
      mark: stages ? 'waits' : 'break',
      crew,
      start: clock(from),
      done: clock(to),
      note: stages ? `${showDuration(to - from)}: ${waitsFor(stages.name)}` : showDuration(to - from),
    },
  }));
  const watches = s.lastHot.map((last, i) => ({
    at: Infinity,
    shift: i + 1,
    line: {
      mark: 'fire watch',
      'burn to': last === undefined ? null : clock(last),
      done: last === undefined ? null : clock(last + s.watch),
      note: last === undefined ? 'no burning' : watchUntil(clock(last + s.watch), s.watchRule),
    },
  }));
  const lines = [...slots, ...pauses, ...watches]
    .sort((x, y) => x.shift - y.shift || (x.at === y.at ? 0 : x.at - y.at))
    .map(({ shift, line }): ScheduleLine => ({ shift, day: showDay(start, shift), ...line }));
  const bare = `${Math.round(100 * s.bareDose)}%`;
  const whole: ScheduleLine = {
    mark: 'job',
    shift: s.shifts,
    day: s.shifts === 0 ? null : showDay(start, s.shifts),
    done: s.shifts === 0 ? null : clock(s.end),
    cylinder: s.cylinders ?? null,
    note: [
      scheduleSum(showDuration(s.work), showDuration(s.standby), showDuration(s.breaks)),
      ...(s.bareDose > 0 ? [bareNoise(bare, s.noiseRule)] : []),
    ].join('; '),
  };
  const left = s.left.map(({ stages, reason }): ScheduleLine => ({ mark: stages.name, note: reason }));
  return [...lines, ...left, whole].map((line) => SCHEDULE_COLUMNS.map(({ heading }): Output => line[heading] ?? null));
}

/** The start as it is typed, for the rest that of the assumptions. */
export function startOf(text: string | undefined, { a }: Basis): Start {
  const typed = text === undefined ? undefined : parseStart(text);
  return { day: typed?.day, time: typed && !Number.isNaN(typed.time) ? typed.time : a.value('shift start') };
}

const SOURCES = ['hadlock bickel', 'sobol', 'percentile', 'common practice'];

export const JOB_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.SPREAD',
    family: 'JOB',
    summary:
      'What each item of a list takes with a chosen confidence: rods, oxygen, burn (minutes of burning), time (crew minutes) or cylinders. A value for each row, beside the list, and how far the number of draws leaves it open.',
    parameters: {
      operation: operationParameter,
      sizes,
      quantity: required(
        { kind: 'choice', choices: SPREAD_QUANTITIES },
        `What is asked for: ${SPREAD_QUANTITIES.join(', ')}`,
        '"oxygen"',
      ),
      percentile: required(CONFIDENCE, 'Share of cases that stay at or under the value: 90, 90% or 0.9', '90'),
    },
    assume: true,
    result: { kind: 'table', columns: [{ heading: 'value' }, { heading: '+-' }], headless: true },
    sources: SOURCES,
    cautions: [],
    examples: ['=BURN.SPREAD("PIN",{4,10;3,8},"oxygen",90)'],
    about: ({ operation: id, sizes: cells }, basis) => listItems(id as OperationId, 'sizes', cells, basis).items,
    calculate: ({ operation: id, sizes: cells, quantity: word, percentile }, basis) => {
      const operation = operationOf(id as OperationId);
      const quantity = word as SpreadQuantity;
      const p = shareOf(percentile);
      return readItems(operation, 'sizes', cells, basis).map((row): readonly Output[] => {
        if (row.kind === 'blank') return [null, null];
        if (row.kind === 'heading')
          return [headed(`${quantity} P${shown(100 * p, 3)}`, SPREAD_UNIT[quantity], basis.a.system), '+-'];
        if (row.kind === 'bad') return [row.problem, null];
        const { value, within } = itemPercentile(row.sizing, quantity, p, basis);
        const cell = (x: number, near = 'more than'): Output =>
          Number.isFinite(x) ? shownIn(x, SPREAD_UNIT[quantity], basis) : highBeyondReach(`${near} ${percent(1 - p)}`);
        // A value whose interval has no end stands just under the draws in which the heat does not suffice.
        return [cell(value), cell(within, value === Infinity ? undefined : 'nearly')];
      });
    },
  }),
  tableFunction({
    name: 'BURN.JOB.PLAN',
    family: 'JOB',
    summary:
      'A labelled row for each row of a job list, operations mixed: rods, pressure, oxygen, cylinders, minutes for all its pieces, with low and high; the total of the list last.',
    parameters: { list: listParameter },
    assume: true,
    result: { kind: 'table', columns: JOB_PLAN_COLUMNS },
    sources: SOURCES,
    cautions: [],
    examples: [
      '=BURN.JOB.PLAN({"mark","qty","dia","length";"Boom foot",2,5,18;"Lock pin",4,"1-1/2",6})',
      '=BURN.JOB.PLAN({4,10;3,8})',
    ],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    row: ({ list }, basis, row) => planRow(jobOf(list, basis), row),
    calculate: ({ list }, basis) => jobPlan(jobOf(list, basis)),
  }),
  tableFunction({
    name: 'BURN.JOB.STOCK',
    family: 'JOB',
    summary:
      'What to load for a whole job list so that everything suffices together with a confidence: rods, cylinders, batteries, plates, crew hours; and how often the plain sum of the plans would fall short.',
    parameters: { list: listParameter, confidence },
    assume: true,
    result: { kind: 'table', columns: STOCK_COLUMNS },
    sources: [...SOURCES, 'latin hypercube', 'peukert 1897'],
    cautions: ['CYLINDER', 'BATTERY'],
    examples: ['=BURN.JOB.STOCK({"mark","qty","dia","length";"Boom foot",2,5,18;"Lock pin",4,"1-1/2",6},90)'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, confidence: given }, basis) => {
      const job = jobOf(list, basis);
      const stock = jobStock(job, loadConfidence(basis, given));
      return [
        ...stock.lines.map((line) => stockLine(line, basis)),
        [
          'all together',
          null,
          null,
          null,
          stock.short,
          stock.plainShort,
          joined([jointLoad(rowsAndPieces(job), percent(stock.level, 3), percent(stock.within)), stock.doubt]),
        ],
        ...leftOutOfList(job.list, STOCK_COLUMNS.length),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.COST',
    family: 'JOB',
    summary:
      'Priced lines of a job list from your own price cells: quoted is what BURN.JOB.STOCK loads, with days and waiting of BURN.JOB.SCHEDULE; used low and used high are what the job takes in eight cases of ten.',
    parameters: { list: listParameter, prices: pricesParameter, confidence, crews },
    assume: true,
    result: { kind: 'table', columns: COST_COLUMNS },
    sources: ['hadlock bickel', 'common practice'],
    cautions: [],
    examples: ['=BURN.JOB.COST({4,10;3,8},{"rod",9;"oxygen",0.4;"crew",180;"margin",20})'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    working: (given, basis) => jobCostWorking(...costing(given, basis)),
    calculate: (given, basis) => {
      const [job, prices, ...how] = costing(given, basis);
      return [
        ...jobCost(job, prices, ...how).map((line) => costLine(line, prices.currency, basis)),
        ...leftOutOfList(job.list, COST_COLUMNS.length),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.SCHEDULE',
    family: 'JOB',
    summary:
      'Order, clock times and shifts of a job list: the crew burns one pin while another cools, within the noise dose and with the fire watch done before the shift ends; breaks, cylinder changes, who waits for what.',
    parameters: {
      list: listParameter,
      crews,
      shift: optional(
        { kind: 'quantity', quantity: 'hours', above: 0, max: 24 * HOUR },
        'Hours of a shift, breaks included; the assumption day length when left out',
        '10',
      ),
      start: optional(
        { kind: 'text' },
        'When the first shift starts: 07:00, or a date and time; the assumption shift start when left out',
        '"07:00"',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: SCHEDULE_COLUMNS },
    sources: ['osha 1910.95', 'niosh 98-126', 'nfpa 51b 2019', 'johnson', 'common practice'],
    cautions: ['NOISE', 'FIRE'],
    examples: ['=BURN.JOB.SCHEDULE({"mark","dia","length";"Boom foot",5,18;"Stick pivot",4,16},1,10,"07:00")'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, crews: number, shift, start }, basis) => {
      const job = jobOf(list, basis);
      const lines = scheduleLines(jobSchedule(job, crewingOf(basis, number, shift)), startOf(start, basis));
      return [...lines, ...leftOutOfList(job.list, SCHEDULE_COLUMNS.length)];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.COMPARE',
    family: 'JOB',
    summary:
      'Two ways to do one job list side by side: what differs in rods, oxygen, hours and, with prices, in cost, and which of the assumptions that differ did it.',
    parameters: {
      list: listParameter,
      assumeA: required(
        { kind: 'cells' },
        'Assumptions of the one way, rows name, value; a blank cell for the defaults',
        'A1:B3',
      ),
      assumeB: required({ kind: 'cells' }, 'Assumptions of the other way', 'D1:E3'),
      prices: optional(
        { kind: 'cells' },
        'Price rows as for BURN.JOB.COST; no cost is compared when left out',
        'G1:I9',
      ),
    },
    assume: false,
    result: { kind: 'table', columns: COMPARE_COLUMNS },
    sources: SOURCES,
    cautions: [],
    examples: [
      '=BURN.JOB.COMPARE({4,10;3,8},{"position","flat"},{"position","overhead";"burning duty",0.6},{"rod",9;"oxygen",0.4;"crew",180})',
    ],
    about: ({ list, assumeA, assumeB }) =>
      [assumeA, assumeB].flatMap((cells) => jobKnown(jobOf(list, new Basis(readAssume(cells))))),
    calculate: ({ list, assumeA, assumeB, prices }) => {
      const ways = [readAssume(assumeA), readAssume(assumeB)] as const;
      const lines = compareJobs(list, ways, prices && readPrices(prices, ways[0].system));
      const { list: read } = jobOf(list, new Basis(ways[0]));
      return [
        ...lines.map((line) => COMPARE_COLUMNS.map(({ heading }): Output => line[heading] ?? null)),
        ...leftOutOfList(read, COMPARE_COLUMNS.length),
      ];
    },
  }),
];
