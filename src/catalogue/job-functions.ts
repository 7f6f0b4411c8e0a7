import type { Basis } from '../core/basis.ts';
import { SPREAD_QUANTITIES, itemPercentile, type SpreadQuantity } from '../core/operations/item-percentile.ts';
import { jobCost, jobCostWorking, type CostLine } from '../core/job/job-cost.ts';
import { jobSchedule, type Schedule, type Slot } from '../core/job/job-schedule.ts';
import { jobStock, type StockLine } from '../core/job/job-stock.ts';
import { CalcError } from '../core/errors.ts';
import { bareNoise, highBeyondReach, jointLoad, watchUntil } from '../core/messages.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { optional, required, tableFunction, type Column, type Declaration, type Output } from './declaration.ts';
import { listItems } from './job-items.ts';
import { goodItems, readItems } from './read-items.ts';
import { planItems, readPlan } from './read-plan.ts';
import { PRICE_NAMES, readPrices } from './read-prices.ts';
import { CONFIDENCE, shareOf } from './share.ts';

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
const plan = required(
  { kind: 'cells' },
  'Region of a PLAN with its heading row; columns are found by heading, so that others may stand between',
  'A1#',
);

const SPREAD_UNIT: Readonly<Record<SpreadQuantity, QuantityName>> = {
  rods: 'count',
  oxygen: 'oxygen',
  burn: 'time',
  time: 'time',
  cylinders: 'count',
};

const headed = (name: string, quantity: QuantityName, system: UnitSystem): string => {
  const unit = plainUnit(quantity, system);
  return unit === '' ? name : `${name}, ${unit}`;
};

/** A number that is shown with the unit of its own row. */
const shownIn = (value: number, quantity: QuantityName, { a }: Basis): number => fromSi(value, quantity, a.system);

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
  { name, quantity, load, plain, short, plainShort, counts }: StockLine,
  basis: Basis,
): readonly Output[] {
  return [
    name,
    shownIn(load, quantity, basis),
    plainUnit(quantity, basis.a.system),
    shownIn(plain, quantity, basis),
    short,
    plainShort,
    counts ? null : 'in the cylinders below',
  ];
}

const COST_COLUMNS = [
  { heading: 'line' },
  { heading: 'quantity' },
  { heading: 'unit' },
  { heading: 'price' },
  { heading: 'amount' },
  { heading: 'amount low' },
  { heading: 'amount high' },
  { heading: 'note' },
] as const satisfies readonly Column[];

/** Unit of a cost line in words; sums have none. */
function costUnit(measure: CostLine['measure'], system: UnitSystem): string {
  switch (measure) {
    case 'sum':
      return '';
    case 'share':
      return '%';
    case 'cylinder days':
    case 'days':
      return measure;
    default:
      return plainUnit(measure, system);
  }
}

function costLine(
  { name, quantity, measure, price, amount, note }: CostLine,
  { a: { system } }: Basis,
): readonly Output[] {
  const unit =
    measure === 'sum' || measure === 'share' || measure === 'cylinder days' || measure === 'days' ? undefined : measure;
  const shownQuantity = quantity === undefined ? null : unit ? fromSi(quantity, unit, system) : quantity;
  const one = unit ? 1 / fromSi(1, unit, system) : 1;
  const shownPrice = price === undefined ? null : measure === 'share' ? 100 * price : price * one;
  const high: Output = amount === undefined ? null : Number.isFinite(amount.high) ? amount.high : highBeyondReach();
  return [
    name,
    shownQuantity,
    costUnit(measure, system),
    shownPrice,
    amount?.value ?? null,
    amount?.low ?? null,
    high,
    note === '' ? null : note,
  ];
}

export const SCHEDULE_COLUMNS = [
  { heading: 'order' },
  { heading: 'item' },
  { heading: 'crew' },
  { heading: 'shift' },
  { heading: 'start', quantity: 'hours' },
  { heading: 'burn from', quantity: 'hours' },
  { heading: 'burn to', quantity: 'hours' },
  { heading: 'push shift' },
  { heading: 'push from', quantity: 'hours' },
  { heading: 'done', quantity: 'hours' },
  { heading: 'noise dose', quantity: 'percent' },
  { heading: 'note' },
] as const satisfies readonly Column[];

function slotLine(s: Slot, order: number): readonly Output[] {
  return [
    order,
    s.stages.item,
    s.crew,
    s.shift,
    s.start,
    s.hotFrom,
    s.hotTo,
    s.pushShift,
    s.pushFrom,
    s.done,
    s.dose,
    s.stages.note === '' ? null : s.stages.note,
  ];
}

/** The items in order, those that fit no shift, then a line for each shift and one for the whole. */
function scheduleLines(s: Schedule, { a: { system } }: Basis): readonly (readonly Output[])[] {
  const hours = (time: number): string => showQuantity(Number((time / HOUR).toPrecision(3)) * HOUR, 'hours', system);
  const blank = SCHEDULE_COLUMNS.map((): Output => null);
  const line = (set: Readonly<Record<number, Output>>): readonly Output[] => blank.map((cell, i) => set[i] ?? cell);
  const [ITEM, SHIFT, BURN_TO, DONE, NOTE] = ['item', 'shift', 'burn to', 'done', 'note'].map((h) =>
    SCHEDULE_COLUMNS.findIndex((c) => c.heading === h),
  ) as [number, number, number, number, number];
  const shifts = s.lastHot.map((last, i) => {
    const until = last === undefined ? undefined : last + s.watch;
    return line({
      [ITEM]: 'fire watch',
      [SHIFT]: i + 1,
      [BURN_TO]: last ?? null,
      [DONE]: until ?? null,
      [NOTE]: until === undefined ? 'no burning' : watchUntil(hours(until), s.watchRule),
    });
  });
  const bare = `${Math.round(100 * s.bareDose)}%`;
  return [
    ...s.slots.map((slot, i) => slotLine(slot, i + 1)),
    ...s.left.map((stages) => line({ [ITEM]: stages.item, [NOTE]: stages.note })),
    ...shifts,
    line({
      [ITEM]: 'job',
      [SHIFT]: s.shifts,
      [DONE]: s.end,
      [NOTE]:
        [
          s.idle > 60 ? `waiting for pins to cool: ${hours(s.idle)}` : '',
          s.bareDose > 0 ? bareNoise(bare, s.noiseRule) : '',
        ]
          .filter((n) => n !== '')
          .join('; ') || null,
    }),
  ];
}

/** Problems of rows that were left out, one a line, with the problem in the last column. */
function leftOut(bad: readonly CalcError[], columns: number): readonly (readonly Output[])[] {
  return bad.map(({ message }) =>
    Array.from({ length: columns }, (_, i): Output => (i === 0 ? 'left out' : i === columns - 1 ? message : null)),
  );
}

const SOURCES = ['pert', 'sobol', 'percentile', 'common practice'];

export const JOB_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.SPREAD',
    family: 'JOB',
    summary:
      'What each item of a list takes with a chosen confidence: rods, oxygen, burn (minutes of burning), time (crew minutes) or cylinders. One value for each row, beside the list.',
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
    result: { kind: 'table', columns: [{ heading: 'value' }], headless: true },
    sources: SOURCES,
    cautions: [],
    examples: ['=BURN.SPREAD("PIN",{4,10;3,8},"oxygen",90)'],
    monotone: [{ column: 'value', rises: ['percentile'] }],
    about: ({ operation: id, sizes: cells }, basis) => listItems(id as OperationId, 'sizes', cells, basis).items,
    calculate: ({ operation: id, sizes: cells, quantity: word, percentile }, basis) => {
      const operation = operationOf(id as OperationId);
      const quantity = word as SpreadQuantity;
      const p = shareOf(percentile);
      return readItems(operation, 'sizes', cells, basis).map((row): readonly Output[] => {
        if (row.kind === 'blank') return [null];
        if (row.kind === 'heading')
          return [
            headed(`${quantity} P${String(Number((100 * p).toPrecision(3)))}`, SPREAD_UNIT[quantity], basis.a.system),
          ];
        if (row.kind === 'bad') return [row.problem];
        const value = itemPercentile(row.sizing, quantity, p, basis);
        return [Number.isFinite(value) ? shownIn(value, SPREAD_UNIT[quantity], basis) : highBeyondReach()];
      });
    },
  }),
  tableFunction({
    name: 'BURN.JOB.STOCK',
    family: 'JOB',
    summary:
      'What to load for a whole list so that everything suffices together with a confidence: rods, cylinders, batteries, plates, crew hours; and how often the plain sum of the plans would fall short.',
    parameters: {
      operation: operationParameter,
      sizes,
      confidence: required(CONFIDENCE, 'Chance that nothing runs short on the whole job: 90, 90% or 0.9', '90'),
    },
    assume: true,
    result: { kind: 'table', columns: STOCK_COLUMNS },
    sources: [...SOURCES, 'latin hypercube', 'peukert 1897'],
    cautions: ['CYLINDER', 'BATTERY'],
    examples: ['=BURN.JOB.STOCK("PIN",{4,10;4,10;3,8},90)'],
    monotone: [{ column: 'amount', rises: ['confidence'] }],
    about: ({ operation: id, sizes: cells }, basis) => listItems(id as OperationId, 'sizes', cells, basis).items,
    calculate: ({ operation: id, sizes: cells, confidence }, basis) => {
      const operation = operationOf(id as OperationId);
      const { sizings, bad } = goodItems(operation, 'sizes', cells, basis);
      const stock = jobStock(operation, sizings, shareOf(confidence), basis);
      return [
        ...stock.lines.map((line) => stockLine(line, basis)),
        [
          'all together',
          null,
          null,
          null,
          stock.short,
          stock.plainShort,
          jointLoad(sizings.length, `${(100 * stock.level).toPrecision(3)}%`),
        ],
        ...leftOut(bad, STOCK_COLUMNS.length),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.COST',
    family: 'JOB',
    summary:
      'Priced lines of a plan from your own price cells: rods, oxygen, cylinders and their rental, crew, plates, ram hire, mobilisation, contingency, margin or mark-up; with low and high.',
    parameters: {
      plan,
      prices: required(
        { kind: 'cells' },
        `Rows name, price and, for oxygen and crew, per (100 scf, h). Names: ${PRICE_NAMES.filter((n) => !n.startsWith('rod ')).join(', ')}, rod 3/8 x 36, other ...`,
        'A1:C9',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: COST_COLUMNS },
    sources: ['pert', 'common practice'],
    cautions: [],
    examples: ['=BURN.JOB.COST(BURN.PIN.PLAN({4;3},{10;8}),{"rod",9;"oxygen",0.4;"crew",180;"margin",20})'],
    about: ({ plan: cells }, { a }) => planItems(cells, a.system).items,
    working: ({ plan: cells, prices }, basis) =>
      jobCostWorking(readPlan(cells, basis.a.system).rows, readPrices(prices, basis.a.system), basis),
    calculate: ({ plan: cells, prices }, basis) => {
      const { rows, bad } = readPlan(cells, basis.a.system);
      return [
        ...jobCost(rows, readPrices(prices, basis.a.system), basis).map((line) => costLine(line, basis)),
        ...leftOut(bad, COST_COLUMNS.length),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.SCHEDULE',
    family: 'JOB',
    summary:
      'Order, shifts and hours of a plan: the crew burns one pin while another cools, within the noise dose of a shift and with the fire watch done before it ends.',
    parameters: {
      plan,
      crews: required(
        { kind: 'quantity', quantity: 'count', above: 0, max: 100, whole: true },
        'Crews that work side by side',
        '1',
      ),
      shift: optional(
        { kind: 'quantity', quantity: 'hours', above: 0, max: 24 * HOUR },
        'Hours of a shift; the assumption day length when left out',
        '10',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: SCHEDULE_COLUMNS },
    sources: ['osha 1910.95', 'niosh 98-126', 'nfpa 51b 2019', 'johnson', 'common practice'],
    cautions: ['NOISE', 'FIRE'],
    examples: ['=BURN.JOB.SCHEDULE(BURN.PIN.PLAN({4;3;5},{10;8;12}),1,10)'],
    about: ({ plan: cells }, { a }) => planItems(cells, a.system).items,
    calculate: ({ plan: cells, crews, shift }, basis) => {
      const { rows, bad } = readPlan(cells, basis.a.system);
      return [
        ...scheduleLines(jobSchedule(rows, crews, shift ?? basis.a.value('day length'), basis), basis),
        ...leftOut(bad, SCHEDULE_COLUMNS.length),
      ];
    },
  }),
];
