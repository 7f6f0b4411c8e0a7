/** How sure a job is, and what it is worth to know more. */
import { unitIn } from '../core/assumptions/assumption.ts';
import { numberAssumption, type NumberName } from '../core/assumptions/registry.ts';
import { jobJoint, type Held } from '../core/job/job-joint.ts';
import { crewingOf } from '../core/job/job-schedule.ts';
import { jobWorth } from '../core/job/job-worth.ts';
import * as messages from '../core/messages.ts';
import { fromSi } from '../core/units/parse-quantity.ts';
import { isCorrelated } from './correlation-rows.ts';
import { required, tableFunction, type Column, type Declaration, type Output } from './declaration.ts';
import { jobKnown } from './job-items.ts';
import { crews, leftOutOfList, noteLine, pricesParameter } from './job-functions.ts';
import { jobOf, listParameter } from './read-list.ts';
import { readPrices } from './read-prices.ts';
import { loadConfidence } from './share.ts';

const JOINT_COLUMNS = [
  { heading: 'what' },
  { heading: 'cost' },
  { heading: 'hours', quantity: 'hours' },
  { heading: 'cost holds', quantity: 'percent' },
  { heading: 'time holds', quantity: 'percent' },
  { heading: 'both hold', quantity: 'percent' },
  { heading: 'plus or minus', quantity: 'percent' },
  { heading: 'note' },
] as const satisfies readonly Column[];

const WORTH_COLUMNS = [
  { heading: 'rank' },
  { heading: 'measure' },
  { heading: 'worth' },
  { heading: 'share', quantity: 'percent' },
  { heading: 'low' },
  { heading: 'value' },
  { heading: 'high' },
  { heading: 'unit' },
  { heading: 'how' },
] as const satisfies readonly Column[];

const BURN_TEST = 'burn one rod on scrap at a steady pressure; weigh cylinder, rod and scrap before and after';
const WATCH = 'time one item with a watch: burning, pauses, rod changes, tasks';
const THERMOMETER = 'contact thermometer and watch on one pin, from the end of burning until it is pushed';

/** How an assumption is measured, where it can be before the job. */
const MEASURED: Readonly<Partial<Record<NumberName, string>>> = {
  'oxygen burnt share': BURN_TEST,
  'rod feed ratio': BURN_TEST,
  'bar oxygen burnt share': BURN_TEST,
  'bar feed ratio': BURN_TEST,
  'heat lost share': BURN_TEST,
  'flow factor': 'weigh a cylinder before and after a few minutes at a steady pressure; hold it against BURN.ROD.FLOW',
  'idle oxygen share': 'weigh a cylinder over one item; hold it against the minutes of burning',
  'set-up time': WATCH,
  'burning duty': WATCH,
  'rod change time': WATCH,
  'advance limit': 'time a pierce through scrap of known thickness',
  'advance depth': 'time pierces through scrap of two thicknesses',
  'limit sharpness': 'time pierces through scrap of two thicknesses with two rods',
  'pierce width': 'measure the hole of a pierce through scrap',
  'cylinder pressure': 'read the gauges of the cylinders that are delivered',
  'leftover pressure': 'read the gauges of the cylinders that go back',
  'strike current': 'clamp meter on the lead while a rod is lit',
  'strike time': 'watch, over ten ignitions',
  'plates per pin': 'count on the drawing or on site',
  'heat into the part': THERMOMETER,
  'boss over pin': 'measure the boss',
  'longer cooling': THERMOMETER,
  'ambient temperature': 'ask for the weather',
  'cooling water temperature': 'thermometer',
};
const howMeasured = (names: readonly NumberName[]): string =>
  names.map((name) => MEASURED[name]).find((how) => how !== undefined) ??
  'keep a log of finished jobs and fit it with BURN.LOG.FIT';

function heldLine(what: string, h: Held, note = ''): readonly Output[] {
  return [what, h.cost, h.time, h.costHolds, h.timeHolds, h.bothHold, h.within, note === '' ? null : note];
}

export const SURE_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.JOB.JOINT',
    family: 'JOB',
    summary:
      'Chance that the cost and the time of a job list both hold, and frontiers: the least cost for each time so that both hold in 50, 70 and 90 of 100 such jobs.',
    parameters: {
      list: listParameter,
      prices: pricesParameter,
      cost: required(
        { kind: 'quantity', quantity: 'money', above: 0, max: 1e12 },
        'What the job may cost you, in the money of the prices: before contingency, margin and tax',
        '600',
      ),
      hours: required(
        { kind: 'quantity', quantity: 'hours', above: 0, max: 3.6e8 },
        'Hours of shifts from the first start until all is done, nights left out',
        '16',
      ),
      crews,
    },
    assume: true,
    result: { kind: 'table', columns: JOINT_COLUMNS },
    sources: ['gao cost guide', 'jcgm 101', 'sobol', 'percentile', 'common practice'],
    cautions: [],
    examples: ['=BURN.JOB.JOINT({4,10;3,8},{"rod",9;"oxygen",0.4;"crew",180},600,2.2)'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, prices, cost, hours, crews: number }, basis) => {
      const job = jobOf(list, basis);
      const priced = readPrices(prices, basis.a.system);
      const { asked, planned, frontiers, left } = jobJoint(
        job,
        priced,
        { cost, time: hours },
        loadConfidence(basis),
        crewingOf(basis, number),
      );
      return [
        heldLine('as asked', asked, priced.currency),
        heldLine('as planned', planned, messages.plansAddedUp()),
        ...frontiers.flatMap(({ chance, points }) =>
          points.length > 0
            ? points.map((point) => heldLine(`both ${100 * chance}%`, point))
            : [noteLine(`both ${100 * chance}%`, messages.neverBoth(), JOINT_COLUMNS.length)],
        ),
        ...leftOutOfList(job.list, JOINT_COLUMNS.length),
        ...left.map(({ stages, reason }) => noteLine('left out', `${stages.name}: ${reason}`, JOINT_COLUMNS.length)),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.ASSUME.WORTH',
    family: 'LISTS',
    summary:
      'What it is worth, in money, to measure each assumption before a job list is quoted, best first, and how it is measured.',
    parameters: { list: listParameter, prices: pricesParameter },
    assume: true,
    result: { kind: 'table', columns: WORTH_COLUMNS },
    sources: ['strong evppi', 'sobol', 'percentile', 'common practice'],
    cautions: [],
    examples: ['=BURN.ASSUME.WORTH({4,10;3,8},{"rod",9;"oxygen",0.4;"crew",180})'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, prices }, basis) => {
      const job = jobOf(list, basis);
      const priced = readPrices(prices, basis.a.system);
      const { each, everything } = jobWorth(job, priced, loadConfidence(basis), crewingOf(basis));
      return [
        ...each.map(({ names, worth, share }, i): readonly Output[] => {
          const [name] = names as readonly [NumberName];
          const entry = numberAssumption(name);
          const { quantity } = entry;
          const unit = unitIn(entry, basis.a.system);
          const shown = (x: number): number => Number(fromSi(x, quantity, 'US', unit).toPrecision(12));
          const { low, value, high } = basis.a.inForce(name);
          const alone = names.length === 1;
          return [
            i + 1,
            names.join(', '),
            worth,
            share,
            ...(alone ? [shown(low), shown(value), shown(high), unit] : [null, null, null, null]),
            [howMeasured(names), ...(isCorrelated(name, basis.a) ? [messages.countedTogether()] : [])].join('; '),
          ];
        }),
        WORTH_COLUMNS.map(
          ({ heading }): Output =>
            ({
              measure: 'everything',
              worth: everything,
              share: everything > 0 ? 1 : null,
              how: messages.worthOfAll(priced.currency, `${100 * loadConfidence(basis)}%`, everything > 0),
            })[heading as string] ?? null,
        ),
        ...leftOutOfList(job.list, WORTH_COLUMNS.length),
      ];
    },
  }),
];
