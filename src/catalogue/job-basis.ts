/** The basis of an estimate: what a stranger needs to judge it without any other paper. */
import { isChoice } from '../core/assumptions/assumption.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { fingerprintOf } from '../core/assumptions/fingerprint.ts';
import { findAssumption, type AssumptionName, type ChoiceName } from '../core/assumptions/registry.ts';
import { showAssumption } from '../core/assumptions/show-assumption.ts';
import type { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { showDuration } from '../core/job/clock.ts';
import { nameOf, type Job, type ListItem } from '../core/job/job-list.ts';
import { crewingOf, jobSchedule } from '../core/job/job-schedule.ts';
import { jobStock } from '../core/job/job-stock.ts';
import { percent as inPercent } from '../core/messages.ts';
import { oneAtATime, type Effect } from '../core/job/one-at-a-time.ts';
import type { Kind } from '../core/model/step.ts';
import { findSource } from '../core/sources/register.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { correlationLines } from './correlation-rows.ts';
import { itemsOf, jobKnown } from './job-items.ts';
import type { SheetLine } from './job-sheet.ts';
import { shortCautions } from './plan-cautions.ts';
import { jobOf } from './read-list.ts';
import type { Cells } from './read-table.ts';
import { shareOf } from './share.ts';

type Line = readonly [what: string, figure: string, note: string];

/** Rows of the list on which assumptions are tried: those that cost most. */
const MOST_TRIED = 3;
/** An assumption matters that moves cost or time by at least this share from low to high. */
const MATTERS = 0.02;
/** Besides the user's own, which are all listed. */
const MOST_LISTED = 16;
const DIGITS = 3;

/**
 * Classes of estimates with the range that their published scheme expects of them, its outer limits. What makes an estimate one
 * of a class here is this project's own convention: the scheme goes by drawings and documents that such work does not have.
 */
const CLASSES = {
  5: { words: 'concept screening', expected: '-50% to +100%', known: 'sizes alone' },
  4: { words: 'study or feasibility', expected: '-30% to +50%', known: 'sizes and the conditions of the place' },
  3: { words: 'budget or control', expected: '-20% to +30%', known: 'half of the doubt rests on your own values' },
  2: { words: 'control or bid', expected: '-15% to +20%', known: 'four fifths of it, and a log' },
} as const;

/** What one assumption does to a whole job. */
interface JobEffect {
  readonly name: Effect['name'];
  /** From low to high, as shares of the middle; undefined where there is no result at one of them. */
  readonly cost: Effect | undefined;
  readonly time: Effect | undefined;
  readonly weight: number;
}

export function jobBasis(cells: Cells, title: string | undefined, basis: Basis): readonly SheetLine[] {
  const { a } = basis;
  const job = jobOf(cells, basis);
  const lines: SheetLine[] = [];
  const section = (name: string, those: readonly Line[]): void =>
    those.forEach(([what, figure, note], i) => void lines.push({ section: i === 0 ? name : '', what, figure, note }));
  const tried = mostCostly(job);
  const effects = effectsOf(cells, job, tried, basis);
  const items = itemsOf(jobKnown(job), a);
  const fingerprint = fingerprintOf(a);

  section('Basis of estimate', [
    [
      title ?? 'exothermic rod work',
      `calculation ${CALCULATION_VERSION}`,
      "An estimate to plan with. It permits nothing: local codes, the employer's permit and licensed or qualified people rule.",
    ],
  ]);
  section('Covers', coversLines(job));
  section('Leaves out', leavesOutLines(job));
  section('How sure', [...rangeLines(job), classLine(job, effects, basis)]);
  section('Assumptions that matter', [...assumptionLines(effects, tried, job, a), ...correlationLines(a)]);
  const words = ownOf(a).flatMap((name): readonly Line[] => {
    const entry = findAssumption(name);
    return entry && isChoice(entry)
      ? [[name, a.word(name as ChoiceName), `default ${entry.value}; ${a.reasonOf(name)}`]]
      : [];
  });
  if (words.length > 0) section('Choices of your own', words);
  const { named } = shortCautions(items);
  section(
    'Cautions that change the work',
    named.map((c): Line => [c.title, c.severity, c.because]),
  );
  section('Checks', checkLines(job, basis));
  section('Made with', [
    ['calculation', CALCULATION_VERSION, ''],
    [
      'assumptions',
      fingerprint === '' ? 'the defaults' : fingerprint,
      fingerprint === '' ? '' : 'fingerprint: BURN.VERSION(assume)',
    ],
    ['estimated by', '____________________', 'date __________'],
    ['checked by', '____________________', 'date __________'],
  ]);
  return lines;
}

/** What is set otherwise than the defaults, but for how the sheet is written. */
const ownOf = (a: Assumptions): readonly AssumptionName[] =>
  a.departures().filter((name) => name !== 'units' && name !== 'decimal mark');

const weightOf = ({ quantity, sized }: ListItem): number => quantity * sized.cost;

/** The rows that cost most, that which costs most first. */
export const mostCostly = ({ items }: Job): readonly ListItem[] =>
  [...items].sort((x, y) => weightOf(y) - weightOf(x)).slice(0, MOST_TRIED);

/** What each assumption does to cost and crew time of some rows, one at a time, what does most first. */
function effectsOf(cells: Cells, { list }: Job, rows: readonly ListItem[], { a }: Basis): readonly JobEffect[] {
  const wanted = new Set(rows.map(({ row }) => row));
  const others = new Set(
    list.rows.flatMap((row) =>
      row.kind === 'item' && !wanted.has(row.item.row) ? [row.item.row] : row.kind === 'bad' ? [row.bad.row] : [],
    ),
  );
  const kept = cells.filter((_, i) => !others.has(i + 1));
  const sum = (items: readonly ListItem[], of: (item: ListItem) => number): number =>
    items.reduce((all, item) => all + item.quantity * of(item), 0);
  const [cost = [], time = []] = oneAtATime((varied) => {
    const { items } = jobOf(kept, varied);
    return [sum(items, ({ sized }) => sized.cost), sum(items, ({ sized }) => sized.crewTime)];
  }, a);
  const names = [...new Set([...cost, ...time].map(({ name }) => name))];
  const found = names.map((name): JobEffect => {
    const [ofCost, ofTime] = [cost, time].map((effects) => effects.find((e) => e.name === name));
    return { name, cost: ofCost, time: ofTime, weight: shareOfSwing(ofCost) + shareOfSwing(ofTime) };
  });
  return found.sort((x, y) => y.weight - x.weight);
}

const shareOfSwing = (e: Effect | undefined): number => (e === undefined ? 0 : e.swing / e.asAssumed);

function coversLines({ items, pieces }: Job): readonly Line[] {
  const operations = [...new Set(items.map(({ sized }) => sized.operation))];
  const names = items.map((item) => `${nameOf(item)}${item.quantity === 1 ? '' : ` x ${item.quantity}`}`);
  return [
    [
      'work',
      `rows ${items.length}, pieces ${pieces}`,
      operations.map(({ id, summary }) => `${id}: ${summary}`).join('; '),
    ],
    ['marks', '', names.join(', ')],
    ['counted', '', 'rods, oxygen, cylinders, crew time from set-up to clean-up, cooling, the ram'],
  ];
}

function leavesOutLines({ list: { bad, remarks } }: Job): readonly Line[] {
  return [
    [
      'not counted',
      '',
      'travel, permits, access and lifting, isolating, repair of bore and boss, waste; BURN.JOB.COST takes what you price of them',
    ],
    ...bad.map((each): Line => [nameOf(each), 'left out', each.problem.message]),
    ...remarks.map(({ kind, text }): Line => [kind, '', text]),
  ];
}

const percent = (x: number): string =>
  x === Infinity ? 'no end' : `${x >= 0 ? '+' : '-'}${Math.abs(100 * x).toFixed(Math.abs(x) < 0.0995 ? 1 : 0)}%`;

/** Middle, low and high of the whole job. */
function rangeLines({ needs, total, basis: { a } }: Job): readonly Line[] {
  const line = (
    name: string,
    plain: number,
    [low, high]: readonly [number, number],
    shown: (x: number) => string,
  ): Line => [
    name,
    shown(plain),
    `${shown(low)} to ${Number.isFinite(high) ? shown(high) : 'beyond reach'} in eight cases of ten (${percent(low / plain - 1)} to ${percent(high / plain - 1)})`,
  ];
  const shownAs =
    (quantity: QuantityName) =>
    (x: number): string =>
      showQuantity(x, quantity, a.system, DIGITS);
  return [
    line('oxygen', needs.oxygen.plain, [total.lowOxygen, total.highOxygen], shownAs('oxygen')),
    line('rods', needs.allRods.plain, [total.lowRods, total.highRods], shownAs('count')),
    line('crew time', needs.crewTime.plain, [total.lowCrewTime, total.highCrewTime], showDuration),
  ];
}

/** The class of the estimate by how much of what is uncertain rests on values of the user's own. */
function classLine({ items }: Job, effects: readonly JobEffect[], { a }: Basis): Line {
  const square = ({ weight }: JobEffect): number => (Number.isFinite(weight) ? weight * weight : 1);
  const all = effects.reduce((sum, e) => sum + square(e), 0);
  const own = effects.filter(({ name }) => ['your value', 'your log'].includes(a.inForce(name).kind));
  const share = all === 0 ? 0 : own.reduce((sum, e) => sum + square(e), 0) / all;
  const logged = own.some(({ name }) => a.inForce(name).kind === 'your log');
  const placed = items.some(({ conditions }) => conditions.length > 0) || a.departures().length > 0;
  const grade = share >= 0.8 && logged ? 2 : share >= 0.5 ? 3 : placed ? 4 : 5;
  const { words, expected, known } = CLASSES[grade];
  return [
    'class of estimate',
    `${grade}, ${words}`,
    `${known}; the published scheme expects ${expected} (AACE 18R-97). ${Math.round(100 * share)}% of the doubt rests on your values or log, by our own count`,
  ];
}

function assumptionLines(
  effects: readonly JobEffect[],
  tried: readonly ListItem[],
  { items }: Job,
  a: Assumptions,
): readonly Line[] {
  const most = effects.filter(({ weight }) => weight >= MATTERS).slice(0, MOST_LISTED);
  const listed = effects.filter((e) => most.includes(e) || a.reasonOf(e.name) !== '');
  const cost = items.reduce((sum, item) => sum + weightOf(item), 0);
  const share = tried.reduce((sum, item) => sum + weightOf(item), 0) / cost;
  const rest = effects.length - listed.length;
  return [
    [
      'tried one at a time',
      'from low to high',
      tried.length === items.length
        ? 'on all rows; cost of the work by the prices assumed, and crew time'
        : `on the ${tried.length} rows that cost most, ${Math.round(100 * share)}% of the cost; cost of the work by the prices assumed, and crew time`,
    ],
    ...listed.map((e): Line => {
      const { kind, source } = a.inForce(e.name);
      return [
        e.name,
        showAssumption(e.name, a),
        [`cost ${effectText(e.cost)}, time ${effectText(e.time)}`, foundation(kind, source)].join('; '),
      ];
    }),
    ...(rest > 0 ? [['others', `${rest}`, 'each moves less'] as const] : []),
  ];
}

const foundation = (kind: Kind, source: string): string =>
  kind === 'common practice'
    ? 'common practice, no source'
    : `${kind}; ${kind === 'your value' || kind === 'your log' ? source : (findSource(source)?.citation ?? source)}`;

function effectText(e: Effect | undefined): string {
  if (e === undefined) return 'unmoved';
  const at = (x: number | CalcError): string => (x instanceof CalcError ? 'no result' : percent(x / e.asAssumed - 1));
  return `${at(e.atLow)} to ${at(e.atHigh)}`;
}

/** What can be checked of the list and its results without leaving the sheet. */
function checkLines(job: Job, basis: Basis): readonly Line[] {
  const { a } = basis;
  const { items, list, total } = job;
  const check = (what: string, good: boolean, note: string): Line => [what, good ? 'passed' : 'FAILED', note];
  const rows = items.length + list.bad.length;
  const schedule = jobSchedule(job, crewingOf(basis));
  const stock = jobStock(job, shareOf(a.value('load confidence')));
  const own = ownOf(a);
  const unsaid = own.filter((name) => a.reason(name).why === '' && a.reasonOf(name) !== 'your log');
  const asked = items.filter(({ notes }) => notes.length > 0);
  const cylinders = job.cylinders;
  return [
    check('rows read against rows sized', list.bad.length === 0, `${items.length} of ${rows}`),
    check(
      'sizes not in doubt',
      asked.length === 0,
      asked.map((item) => `${nameOf(item)}: ${item.notes.join(', ')}`).join('; '),
    ),
    check('the high end can be reached', Number.isFinite(total.highOxygen), ''),
    check(
      'the regulator feeds every row',
      !(cylinders instanceof CalcError),
      cylinders instanceof CalcError ? cylinders.message : '',
    ),
    check(
      'the load suffices as often as meant',
      stock.short <= 1 - shareOf(a.value('load confidence')) + 1e-9,
      `short in ${inPercent(stock.short)} of cases, +- ${inPercent(stock.within)} for the number of draws; the plain sum in ${inPercent(stock.plainShort)}`,
    ),
    check(
      'every piece fits a shift',
      schedule.left.length === 0,
      schedule.left.map(({ stages, reason }) => `${stages.name}: ${reason}`).join('; '),
    ),
    check(
      'your values have reasons',
      unsaid.length === 0,
      unsaid.length === 0 ? `${own.length} set otherwise than the defaults` : `none for ${unsaid.join(', ')}`,
    ),
  ];
}
