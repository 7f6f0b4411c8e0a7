/** Two ways to do one job, side by side. */
import { Assumptions, type Override } from '../core/assumptions/assumptions.ts';
import { isChoice, unitIn } from '../core/assumptions/assumption.ts';
import { correlationKeys } from '../core/assumptions/fingerprint.ts';
import { findAssumption, type AssumptionName, type ChoiceName, type NumberName } from '../core/assumptions/registry.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { jobCost, type Prices } from '../core/job/job-cost.ts';
import type { Job } from '../core/job/job-list.ts';
import { crewingOf, jobSchedule } from '../core/job/job-schedule.ts';
import { jobStock } from '../core/job/job-stock.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import type { Column, Output } from './declaration.ts';
import { jobOf } from './read-list.ts';
import type { Cells } from './read-table.ts';
import { loadConfidence } from './share.ts';

export const COMPARE_COLUMNS = [
  { heading: 'what' },
  { heading: 'unit' },
  { heading: 'A' },
  { heading: 'B' },
  { heading: 'change' },
  { heading: 'rods' },
  { heading: 'oxygen' },
  { heading: 'hours' },
  { heading: 'cost' },
  { heading: 'note' },
] as const satisfies readonly Column[];

type CompareLine = Partial<Record<(typeof COMPARE_COLUMNS)[number]['heading'], Output>>;

/** What the plans of a list add up to, and what it costs; SI. */
interface Sums {
  readonly rods: number;
  readonly oxygen: number;
  readonly hours: number;
  /** Undefined where no prices are given. */
  readonly cost: number | undefined;
}
const FIGURES = ['rods', 'oxygen', 'hours', 'cost'] as const;
type Figure = (typeof FIGURES)[number];
const QUANTITY: Readonly<Record<Figure, QuantityName>> = {
  rods: 'count',
  oxygen: 'oxygen',
  hours: 'hours',
  cost: 'money',
};

function sumsOf(job: Job, prices: Prices | undefined): Sums {
  const sum = (of: (item: Job['items'][number]) => number): number =>
    job.items.reduce((all, item) => all + item.quantity * of(item), 0);
  return {
    rods: sum(({ sized }) => sized.rods),
    oxygen: sum(({ sized }) => sized.oxygen),
    hours: sum(({ sized }) => sized.workTime),
    cost: prices && priceOf(job, prices),
  };
}

const priceOf = (job: Job, prices: Prices): number | undefined =>
  jobCost(job, prices, loadConfidence(job.basis), crewingOf(job.basis)).find(({ name }) => name === 'price')?.amount
    ?.value;

/** What a way says of an assumption, as far as it differs from another. */
function overrideFrom(name: AssumptionName, a: Assumptions): Override {
  const entry = findAssumption(name);
  if (entry && isChoice(entry)) return { name: name as ChoiceName, word: a.word(name as ChoiceName) };
  const { value, low, high, kind } = a.inForce(name as NumberName);
  return { name: name as NumberName, value, low, high, kind: kind === 'your log' ? 'your log' : 'your value' };
}

const same = (x: Override, y: Override): boolean =>
  'word' in x || 'word' in y
    ? 'word' in x && 'word' in y && x.word === y.word
    : x.value === y.value && x.low === y.low && x.high === y.high;

/**
 * What differs between two ways: the sums of the plans, what is loaded, the shifts and the price; then for each assumption that
 * differs what it changes by itself, from A to B with all others as in A, largest first; and what is left, which they do together.
 */
export function compareJobs(
  list: Cells,
  [a, b]: readonly [Assumptions, Assumptions],
  prices: Prices | undefined,
): readonly CompareLine[] {
  const [first, second] = [jobOf(list, new Basis(a)), jobOf(list, new Basis(b))];
  const [sumsA, sumsB] = [sumsOf(first, prices), sumsOf(second, prices)];
  const shown = (value: number, figure: Figure): number => fromSi(value, QUANTITY[figure], a.system);
  const changes = (from: Sums, to: Sums): CompareLine =>
    Object.fromEntries(
      FIGURES.map((figure) => {
        const [x, y] = [from[figure], to[figure]];
        return [figure, x === undefined || y === undefined ? null : shown(y, figure) - shown(x, figure)];
      }),
    );
  const line = (what: string, unit: string, x: number | undefined, y: number | undefined, note = ''): CompareLine => ({
    what,
    unit,
    A: x ?? null,
    B: y ?? null,
    change: x === undefined || y === undefined ? null : y - x,
    note,
  });
  const loaded = (job: Job, which: (name: string) => boolean): number =>
    jobStock(job, loadConfidence(job.basis))
      .lines.filter(({ name }) => which(name))
      .reduce((sum, { load }) => sum + load, 0);
  const schedule = (job: Job): ReturnType<typeof jobSchedule> => jobSchedule(job, crewingOf(job.basis));
  const [oneWay, other] = [schedule(first), schedule(second)];
  const figure = (name: Figure, what: string): CompareLine =>
    line(
      what,
      plainUnit(QUANTITY[name], a.system),
      sumsA[name] === undefined ? undefined : shown(sumsA[name], name),
      sumsB[name] === undefined ? undefined : shown(sumsB[name], name),
      name === 'cost' && prices === undefined ? 'no prices given' : '',
    );
  const isRod = (name: string): boolean => name.startsWith('rods ');
  const summary = [
    figure('rods', 'rods'),
    line('rods loaded', '', loaded(first, isRod), loaded(second, isRod)),
    figure('oxygen', 'oxygen'),
    ...(['cylinders', 'batteries'] as const).map((name) =>
      line(
        `${name} loaded`,
        '',
        loaded(first, (n) => n === name),
        loaded(second, (n) => n === name),
      ),
    ),
    figure('hours', 'crew work'),
    line('waiting', 'h', oneWay.standby / 3600, other.standby / 3600),
    line('shifts', '', oneWay.shifts, other.shifts),
    figure('cost', 'price'),
  ];
  return [...summary, ...causes(list, [a, b], [sumsA, sumsB], changes, prices)];
}

/** What each assumption that differs changes by itself, and what is left. */
function causes(
  list: Cells,
  [a, b]: readonly [Assumptions, Assumptions],
  [sumsA, sumsB]: readonly [Sums, Sums],
  changes: (from: Sums, to: Sums) => CompareLine,
  prices: Prices | undefined,
): readonly CompareLine[] {
  const names = [...new Set([...a.departures(), ...b.departures()])].filter((name) => name !== 'units');
  const different = names.filter((name) => !same(overrideFrom(name, a), overrideFrom(name, b)));
  const changedBy = (assumed: Assumptions): CompareLine => {
    try {
      return changes(sumsA, sumsOf(jobOf(list, new Basis(assumed)), prices));
    } catch (e) {
      if (e instanceof CalcError) return { note: e.message };
      throw e;
    }
  };
  const alone = different.map((name): CompareLine => {
    const [x, y] = [overrideFrom(name, a), overrideFrom(name, b)];
    return { what: `by ${name}`, ...unitAnd(name, a, x, y), ...changedBy(Assumptions.from([y], a)) };
  });
  if (String(correlationKeys(a)) !== String(correlationKeys(b)))
    alone.push({ what: 'by the correlations', ...changedBy(a.correlated(b.correlations)) });
  const weight = (l: CompareLine): number => Math.abs(Number(l.cost ?? l.oxygen ?? 0));
  const ranked = [...alone].sort((x, y) => weight(y) - weight(x));
  if (ranked.length === 0) return [{ what: 'nothing differs', note: 'A and B assume the same' }];
  if (ranked.length === 1) return ranked;
  const whole = changes(sumsA, sumsB);
  const rest = Object.fromEntries(
    FIGURES.map((name) => {
      const all = whole[name];
      const each = ranked.map((l) => l[name]);
      return [
        name,
        typeof all !== 'number' || each.some((x) => typeof x !== 'number')
          ? null
          : all - each.reduce<number>((sum, x) => sum + (x as number), 0),
      ];
    }),
  );
  return [
    ...ranked,
    { what: 'together besides', ...rest, note: 'what they do only together' },
    { what: 'in all', ...whole },
  ];
}

/** An assumption as both ways have it, in the unit of the register or of the system. */
function unitAnd(name: AssumptionName, a: Assumptions, x: Override, y: Override): CompareLine {
  const entry = findAssumption(name);
  if (!entry || isChoice(entry) || 'word' in x || 'word' in y)
    return { unit: '', A: 'word' in x ? x.word : null, B: 'word' in y ? y.word : null };
  const unit = unitIn(entry, a.system);
  const shown = (value: number): number => Number(fromSi(value, entry.quantity, 'US', unit).toPrecision(9));
  return { unit, A: shown(x.value), B: shown(y.value) };
}
