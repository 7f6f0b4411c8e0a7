/** What to load for a whole list. */
import type { Basis } from '../basis.ts';
import { batteryStrikes } from '../safety/battery-strikes.ts';
import { batteryTooSmall, confidenceBeyondReach, loadInDoubt, percent } from '../messages.ts';
import { cylinderCount } from '../oxygen/cylinder-count.ts';
import { chanceWithin, percentilesWithin, shareOfDraws, type Percentile } from '../spread/draw-percentile.ts';
import type { QuantityName } from '../units/quantities.ts';
import { cylinderDraws } from '../operations/cylinder-draws.ts';
import { drawnClosely } from '../operations/drawn-closely.ts';
import { drawsOfShared } from '../operations/draw-item.ts';
import type { Job, JobNeeds, Need } from './job-list.ts';

/** What a job takes of something in each world, and by the plans. */
export interface Line extends Need {
  readonly name: string;
  readonly quantity: QuantityName;
  /** False for a line that another one already covers. */
  readonly counts: boolean;
  /** Loaded in whole pieces. */
  readonly whole: boolean;
}

export interface StockLine extends Line, Omit<Percentile, 'value'> {
  /** What to load; SI. */
  readonly load: number;
  /** Chance that the load falls short of the need, 0 to 1. */
  readonly short: number;
  /** Chance that the plain sum falls short. */
  readonly plainShort: number;
}

export interface JobStock {
  readonly lines: readonly StockLine[];
  /** Chance that any line of the load falls short. */
  readonly short: number;
  /** How far that chance may be off for the number of draws, in 95 cases of 100. */
  readonly within: number;
  /** Chance that any line of the plain sums falls short. */
  readonly plainShort: number;
  /** Share of the worlds that each line of whole things is loaded for, so that all together suffice with the confidence. */
  readonly level: number;
  /** Why the load is hardly known; empty where the draws tell it. */
  readonly doubt: string;
}

const whole = (x: number): number => (Number.isFinite(x) ? Math.ceil(x - 1e-9) : x);

/** Rods that one battery lights, for a current and a time of one strike. */
function strikes(current: number, time: number, { a }: Basis): number {
  return batteryStrikes(
    a.value('battery capacity'),
    current,
    time,
    a.value('battery usable share'),
    a.value('peukert exponent'),
  ).strikes;
}

/** The lines of a load with their need in each world, and by the plans. */
export function linesOf({ basis, content, delivery }: Job, needs: JobNeeds): readonly Line[] {
  const { a } = basis;
  const { rods, oxygen, workTime, lightings, plated, count } = needs;
  const served = cylinderDraws(count, basis, delivery);
  const current = drawsOfShared('strike current', count, basis);
  const time = drawsOfShared('strike time', count, basis);
  const lit = strikes(a.value('strike current'), a.value('strike time'), basis);
  if (lit < 1) throw batteryTooSmall();
  const pieces = (name: string, draws: Float64Array, plain: number): Line => ({
    name,
    quantity: 'count',
    draws,
    plain,
    counts: true,
    whole: true,
  });
  const cylinders = pieces(
    'cylinders',
    oxygen.draws.map((o, i) => whole(o / served[i]!)),
    cylinderCount(oxygen.plain, content, 0),
  );
  // The first cylinder is put on while setting up.
  const change = a.value('cylinder change time');
  const changing = (count: number): number => Math.max(0, count - 1) * change;
  const plates = (perPin: number): number => whole(perPin * plated);
  return [
    ...[...rods].map(([name, { draws, plain }]) => pieces(`rods ${name}`, draws, plain)),
    { name: 'oxygen', quantity: 'oxygen', ...oxygen, counts: false, whole: false },
    cylinders,
    pieces(
      'batteries',
      lightings.draws.map((n, i) => whole(n / Math.max(1, strikes(current[i]!, time[i]!, basis)))),
      whole(lightings.plain / lit),
    ),
    ...(plated > 0
      ? [pieces('plates', drawsOfShared('plates per pin', count, basis).map(plates), plates(a.value('plates per pin')))]
      : []),
    {
      name: 'crew work',
      quantity: 'hours',
      draws: workTime.draws.map((time, i) => time + changing(cylinders.draws[i]!)),
      plain: workTime.plain + changing(cylinders.plain),
      counts: true,
      whole: false,
    },
  ];
}

/** For each world the least place k in rising order such that the k-th smallest need covers it in every line that counts, of those in whole pieces or of the rest. */
function places(lines: readonly Line[], rising: readonly Float64Array[], inPieces: boolean): Int32Array {
  const most = new Int32Array(rising[0]!.length);
  lines.forEach(({ draws, counts, whole }, line) => {
    if (!counts || whole !== inPieces) return;
    const first = new Map<number, number>();
    for (let k = most.length - 1; k >= 0; k--) first.set(rising[line]![k]!, k);
    for (let i = 0; i < most.length; i++) most[i] = Math.max(most[i]!, first.get(draws[i]!)!);
  });
  return most;
}

/**
 * What to load for a list of items so that everything suffices together with a confidence.
 *
 * The need of each line is drawn in the same worlds: items share crew, gas and rods, each with its own scatter. All
 * lines are loaded for the same share of the worlds, the least for which at least `confidence` of the worlds find every
 * line sufficient at once; that share is more than the confidence, since lines run short in different worlds. Whole rods,
 * cylinders and plates then have something to spare, and the crew hours need so much less. Cooling is no work of the crew:
 * the schedule says where it has to be waited for.
 *
 * @param confidence [-], more than 0 and less than 1
 * @example jobStock(job, 0.9).lines[0].load // 15
 */
export function jobStock(job: Job, confidence: number): JobStock {
  return job.once(`stock ${confidence}`, () =>
    drawnClosely(
      (count) => loaded(linesOf(job, job.needsIn(count)), confidence),
      ({ lines }) => lines,
      job.most,
    ),
  );
}

/** What to load of each line so that all suffice together with a confidence. */
export function loaded(lines: readonly Line[], confidence: number): JobStock {
  const rising = lines.map(({ draws }) => Float64Array.from(draws).sort());
  const count = rising[0]!.length;
  const [pieces, rest] = [places(lines, rising, true), places(lines, rising, false)];
  // The k-th of n ordered draws is exceeded by a further one with chance 1 - k/(n + 1).
  const wanted = Math.min(Math.ceil(confidence * (count + 1)), count) - 1;
  const level = pieces.map((place, i) => Math.max(place, rest[i]!)).sort()[wanted]!;
  const spared = rest.map((place, i) => (pieces[i]! <= level ? place : count)).sort()[wanted]!;
  const share = (holds: (i: number) => boolean): number => shareOfDraws(count, holds);
  const loads = lines.map((line): StockLine => {
    const { draws, counts, whole, plain } = line;
    const place = counts && !whole ? spared : level;
    const { value: load, within, close } = percentilesWithin(draws, [(place + 0.5) / count], whole)[0]!;
    const over = (limit: number): number => share((i) => draws[i]! > limit);
    return { ...line, load, within, close, short: over(load), plainShort: over(plain) };
  });
  const unsolved = (): string => percent(share((i) => lines.some((line) => line.draws[i] === Infinity)));
  if (loads.some(({ load }) => load === Infinity)) throw confidenceBeyondReach(percent(confidence, 3), unsolved());
  const anyOver = (limit: (line: StockLine) => number): number =>
    share((i) => loads.some((line) => line.counts && line.draws[i]! > limit(line)));
  const short = anyOver(({ load }) => load);
  return {
    lines: loads,
    short,
    within: chanceWithin(short, count),
    plainShort: anyOver(({ plain }) => plain),
    level: (level + 1) / (count + 1),
    // Close under the draws in which no oxygen is enough, the next few may take any number of times as much.
    doubt: loads.some(({ name, load, within }) => name === 'oxygen' && within > load / 2)
      ? loadInDoubt(unsolved())
      : '',
  };
}
