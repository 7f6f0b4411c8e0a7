/** Spread, what it comes from, and what a log does to it. */
import { Assumptions } from '../../core/assumptions/assumptions.ts';
import { findMaterial } from '../../core/burn/materials.ts';
import { findRod } from '../../core/burn/rods.ts';
import { johnson, johnsonCdf, johnsonQuantile } from '../../core/spread/johnson.ts';
import { seeded } from '../../core/spread/seeded.ts';
import { cooledBy, drawnFactors } from '../../core/operations/draw-item.ts';
import { operationOf } from '../../core/operations/all.ts';
import type { Cell } from '../../catalogue/cell.ts';
import type { BarPlot } from '../../pane/charts/bar-plot.ts';
import type { LinePlot } from '../../pane/charts/line-plot.ts';
import { cellsOf, maybeCell, numberIn, numberOf, rangeOf, rowsOf, steps, textIn, type Row } from './figures.ts';

export const PIN = [4, 10] as const;

/** Density of what is drawn for the burnt share, from a thousandth to a thousandth of its probability. */
export function burntShareDrawn(): LinePlot {
  const range = rangeOf('oxygen burnt share');
  const distribution = johnson(range);
  const [from, to] = [0.001, 0.999].map((p) => johnsonQuantile(distribution, p)) as [number, number];
  const half = (to - from) / 400;
  const percent = (x: number): number => Number((100 * x).toPrecision(6));
  return {
    name: 'burnt-share-drawn',
    title: 'How the share of oxygen that burns is drawn',
    caption: `Half of the draws lie below the value, ${percent(range.value)} %; one in ten below the low, ${percent(range.low)} %, and one in ten above the high, ${percent(range.high)} %. None passes the physical limits. All that an estimate draws is drawn so.`,
    x: { label: 'share of oxygen that burns', unit: '%', low: percent(from), high: percent(to) },
    y: { label: 'chance for each percent', unit: '%', low: 0 },
    series: [
      {
        name: 'drawn',
        points: steps(0, 1, 0.02).map((u) => {
          const x = from + u * (to - from);
          const chance = johnsonCdf(distribution, x + half) - johnsonCdf(distribution, x - half);
          return { x: percent(x), y: chance / (2 * half) };
        }),
      },
    ],
  };
}

const PERCENTILES = [2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 98] as const;

export function oxygenChance(): LinePlot {
  return {
    name: 'oxygen-chance',
    title: `Chance that an amount of oxygen suffices for a pin of ${PIN[0]} in by ${PIN[1]} in`,
    caption:
      "The plan's low stands where one case in ten needs less, its high where nine in ten need no more. The middle runs short every second time; the long foot on the right is what a sure load costs.",
    formula: `=BURN.SPREAD("PIN",{${PIN.join(',')}},"oxygen",90)`,
    x: { label: 'oxygen brought', unit: 'scf' },
    y: { label: 'chance that it suffices', unit: '%', low: 0, high: 100 },
    series: [
      {
        name: 'chance',
        points: PERCENTILES.map((p) => ({ x: numberOf('BURN.SPREAD', 'PIN', [PIN], 'oxygen', p), y: p })),
      },
    ],
  };
}

/** The assumptions that the low and high of a pin's estimate are drawn from. */
export const drawnForPin = (): readonly string[] => [
  'item scatter',
  ...new Set([
    ...drawnFactors(operationOf('PIN'), findRod('3/8').rod, findMaterial('carbon steel'), Assumptions.defaults()),
    ...cooledBy(operationOf('PIN'), Assumptions.defaults()),
  ]),
];

/** Minutes of cooling in air as planned, and with much heat left in the part. */
export function coolingOfPlan(): { readonly planned: number; readonly hot: number } {
  const [plan] = rowsOf('BURN.PIN.PLAN', ...PIN);
  const [hot] = rowsOf('BURN.PIN.PLAN', ...PIN, null, null, null, [
    ['heat into the part', rangeOf('heat into the part').high],
  ]);
  return { planned: numberIn(plan, 'cooling'), hot: numberIn(hot, 'cooling') };
}

export const effects = (): readonly Row[] => rowsOf('BURN.ASSUME.EFFECT', 'PIN', [PIN]);

export function tornado(rows: readonly Row[], result: 'oxygen' | 'crew time', unit: string, most = 10): BarPlot {
  return {
    name: `tornado-${result.replace(' ', '-')}`,
    title: `What each assumption does to ${result === 'oxygen' ? 'the oxygen' : 'the crew time'} of a pin of ${PIN[0]} in by ${PIN[1]} in`,
    caption:
      'One at a time from its low to its high, the others as assumed; the ten largest. A bar that is missing on one side means no change there.',
    formula: `=BURN.ASSUME.EFFECT("PIN",{${PIN.join(',')}})`,
    label: `change of ${result}`,
    unit,
    ends: ['at its low', 'at its high'],
    base: 0,
    of: 'assumption',
    bars: rows
      .filter((r) => r['result'] === result)
      .slice(0, most)
      .map((r) => ({
        name: textIn(r, 'assumption'),
        low: maybeCell(r, 'change at low'),
        high: maybeCell(r, 'change at high'),
      })),
  };
}

/** An invented crew whose ways are known, since we made them up: what differs from the defaults. */
export const CREW = [
  ['oxygen burnt share', 0.29],
  ['rod feed ratio', 0.44],
  ['burning duty', 0.62],
  ['set-up time', 15],
  ['push-out time', 13],
] as const;
/** How far single jobs of that crew scatter about it, as a standard deviation. */
export const SCATTER = 0.07;
const PINS = [
  [4, 11],
  [3.5, 9],
  [5, 17],
  [3, 8],
  [4.5, 12],
  [2.5, 7],
  [6, 20],
  [4, 14],
  [3.5, 12],
  [5, 15],
] as const;
const HEADING = ['diameter', 'length', 'rods used', 'oxygen used', 'burning minutes', 'crew minutes'] as const;

/** What that crew noted of so many jobs, from a seed: plans with its own ways, each job scattered by itself. */
export function inventedLog(jobs: number, seed: number): readonly (readonly Cell[])[] {
  const random = seeded(seed);
  const pins = Array.from({ length: jobs }, (_, i) => PINS[i % PINS.length] ?? PINS[0]);
  const plans = rowsOf(
    'BURN.PIN.PLAN',
    pins.map(([diameter]) => [diameter]),
    pins.map(([, length]) => [length]),
    null,
    null,
    null,
    CREW,
  );
  const rows = pins.map(([diameter, length], i): readonly Cell[] => {
    const plan = plans[i];
    const own = Math.exp(SCATTER * random.normal());
    const noted = (column: string): number =>
      Number((numberIn(plan, column) * own * Math.exp((SCATTER / 2) * random.normal())).toPrecision(3));
    const burning = noted('burning');
    return [
      diameter,
      length,
      Math.max(1, Math.round(noted('rods'))),
      noted('oxygen'),
      burning,
      Math.max(burning, noted('crew')),
    ];
  });
  return [HEADING, ...rows];
}

/** The rows of BURN.LOG.FIT that work as `assume`. */
export function fittedRows(log: readonly (readonly Cell[])[]): readonly (readonly Cell[])[] {
  const [, ...rows] = cellsOf('BURN.LOG.FIT', log);
  return rows.filter((row) => typeof row[0] === 'string' && row[0] !== '').map((row) => row.slice(0, 4));
}

export const LOG_SIZES = [0, 1, 3, 5, 10, 20, 30] as const;
const LOG_SEED = 11;

export interface Learnt {
  readonly jobs: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** Oxygen of the pin, with its P10 and P90, after so many jobs of that crew. */
export function learning(): readonly Learnt[] {
  const all = inventedLog(Math.max(...LOG_SIZES), LOG_SEED);
  return LOG_SIZES.map((jobs) => {
    const assume = jobs === 0 ? null : fittedRows(all.slice(0, jobs + 1));
    const [plan] = rowsOf('BURN.PIN.PLAN', ...PIN, null, null, null, assume);
    return {
      jobs,
      low: numberIn(plan, 'oxygen low'),
      middle: numberIn(plan, 'oxygen'),
      high: numberIn(plan, 'oxygen high'),
    };
  });
}

/** What the pin really takes that crew, scatter apart. */
export const truth = (): number => numberOf('BURN.PIN.OXYGEN', ...PIN, null, null, null, CREW);

export function learningPlot(learnt: readonly Learnt[], real: number): LinePlot {
  return {
    name: 'learning',
    title: `Oxygen for a pin of ${PIN[0]} in by ${PIN[1]} in, as a log of one crew grows`,
    caption:
      'An invented crew whose true ways we know. The first jobs do most, though one alone can mislead; after some ten the band hardly narrows, because jobs differ among themselves. Band: eight cases in ten.',
    formula: '=BURN.LOG.FIT(A1:F31)',
    x: { label: 'finished jobs in the log', unit: '', low: 0, high: 30 },
    y: { label: 'oxygen', unit: 'scf', low: 0 },
    series: [
      {
        name: 'estimate',
        band: ['low', 'high'],
        points: learnt.map((l) => ({ x: l.jobs, y: l.middle, low: l.low, high: l.high })),
      },
      { name: 'this crew', points: learnt.map((l) => ({ x: l.jobs, y: real })) },
    ],
  };
}

/** Score of other jobs of the same crew, with the defaults and with what the first thirty taught. */
export function coverage(): { readonly before: Row; readonly after: Row; readonly jobs: number } {
  const taught = fittedRows(inventedLog(30, LOG_SEED));
  const others = inventedLog(30, LOG_SEED + 1);
  const oxygen = (assume: readonly (readonly Cell[])[] | null): Row => {
    const row = rowsOf('BURN.LOG.SCORE', others, assume).find((r) => r['figure'] === 'oxygen');
    if (!row) throw new Error('the log has no oxygen to score');
    return row;
  };
  return { before: oxygen(null), after: oxygen(taught), jobs: 30 };
}

/** What thirty jobs of that crew make of the defaults' low and high of oxygen, the values left as they are. */
export function vouched(): { readonly by: number; readonly low: number; readonly high: number } {
  const rows = rowsOf('BURN.LOG.RANGE', inventedLog(30, LOG_SEED)).filter((row) => typeof row['value'] === 'number');
  const assume = rows.map((row): readonly Cell[] => [textIn(row, 'name'), numberIn(row, 'value')]);
  const [plan] = rowsOf('BURN.PIN.PLAN', ...PIN, null, null, null, assume);
  const oxygen = rows.find((row) => row['name'] === 'range of oxygen');
  return { by: numberIn(oxygen, 'value'), low: numberIn(plan, 'oxygen low'), high: numberIn(plan, 'oxygen high') };
}

const TWO_PINS = [
  [4, 10],
  [3, 8],
];
const PRICES = [
  ['rod', 9],
  ['oxygen', 0.4],
  ['crew', 180],
];

/** Two pins at invented prices: what is best measured, what everything would be worth, and a cost and a time that may both hold. */
export function worthAndJoint(): { readonly best: Row; readonly everything: Row; readonly joint: Row } {
  const worth = rowsOf('BURN.ASSUME.WORTH', TWO_PINS, PRICES);
  const [best] = worth;
  const everything = worth.find((row) => row['measure'] === 'everything');
  const [joint] = rowsOf('BURN.JOB.JOINT', TWO_PINS, PRICES, 600, 2.2);
  if (!best || !everything || !joint) throw new Error('two pins give no worth');
  return { best, everything, joint };
}
