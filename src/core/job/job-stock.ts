/** What to load for a whole list. */
import type { Basis } from '../basis.ts';
import { batteryStrikes } from '../safety/battery-strikes.ts';
import { batteryTooSmall, confidenceBeyondReach } from '../messages.ts';
import { DRAWS } from '../operations/spread-item.ts';
import { cylinderCount } from '../oxygen/cylinder-count.ts';
import { chanceWithin } from '../spread/draw-percentile.ts';
import type { QuantityName } from '../units/quantities.ts';
import { drawsOfShared } from '../operations/draw-item.ts';
import type { Job, Need } from './job-list.ts';

export interface StockLine {
  readonly name: string;
  readonly quantity: QuantityName;
  /** What to load; SI. */
  readonly load: number;
  /** What the plans of the items add up to. */
  readonly plain: number;
  /** Chance that the load falls short of the need, 0 to 1. */
  readonly short: number;
  /** Chance that the plain sum falls short. */
  readonly plainShort: number;
  /** False for a line that another one already covers. */
  readonly counts: boolean;
  /** Need in each world. */
  readonly draws: Float64Array;
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
}

interface Line extends Need {
  readonly name: string;
  readonly quantity: QuantityName;
  readonly counts: boolean;
  /** Loaded in whole pieces. */
  readonly whole: boolean;
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
function linesOf({ needs, basis, content }: Job): readonly Line[] {
  const { a } = basis;
  const count = DRAWS;
  const { rods, oxygen, workTime, lightings, plated } = needs;
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
    oxygen.draws.map((o, i) => whole(o / needs.content[i]!)),
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

/** For each world the least place k in rising order such that the k-th smallest need covers it in every line that counts. */
function places(
  lines: readonly { readonly draws: Float64Array; readonly sorted: Float64Array }[],
  count: number,
): Int32Array {
  const most = new Int32Array(count);
  for (const { draws, sorted } of lines) {
    const first = new Map<number, number>();
    for (let k = count - 1; k >= 0; k--) first.set(sorted[k] ?? NaN, k);
    for (let i = 0; i < count; i++) most[i] = Math.max(most[i] ?? 0, first.get(draws[i] ?? NaN) ?? 0);
  }
  return most;
}

/** The least place for which at least `wanted` of the worlds are covered. */
function leastPlace(place: Int32Array, wanted: number): number {
  return Int32Array.from(place).sort()[Math.min(wanted, place.length) - 1] ?? 0;
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
  return job.once(`stock ${confidence}`, () => stockOf(job, confidence));
}

function stockOf(job: Job, confidence: number): JobStock {
  const count = DRAWS;
  const lines = linesOf(job).map((line) => ({ ...line, sorted: Float64Array.from(line.draws).sort() }));
  const counting = lines.filter((line) => line.counts);
  // The k-th of n ordered draws is exceeded by a further one with chance 1 - k/(n + 1).
  const wanted = Math.ceil(confidence * (count + 1));
  const level = leastPlace(places(counting, count), wanted);
  const pieces = places(
    counting.filter((line) => line.whole),
    count,
  );
  const rest = places(
    counting.filter((line) => !line.whole),
    count,
  );
  const spared = leastPlace(
    rest.map((place, i) => ((pieces[i] ?? 0) <= level ? place : count)),
    wanted,
  );
  const share = (fails: (i: number) => boolean): number => {
    let n = 0;
    for (let i = 0; i < count; i++) if (fails(i)) n++;
    return n / count;
  };
  const loaded = lines.map((line) => ({
    ...line,
    load: line.sorted[line.counts && !line.whole ? spared : level] ?? NaN,
  }));
  if (loaded.some((line) => line.load === Infinity)) {
    const unsolved = share((i) => lines.some((line) => line.draws[i] === Infinity));
    throw confidenceBeyondReach(`${(100 * confidence).toPrecision(3)}%`, `${(100 * unsolved).toPrecision(2)}%`);
  }
  const over = (draws: Float64Array, limit: number): number => share((i) => (draws[i] ?? NaN) > limit);
  const anyOver = (limit: (line: (typeof loaded)[number]) => number): number =>
    share((i) => loaded.some((line) => line.counts && (line.draws[i] ?? NaN) > limit(line)));
  const short = anyOver((line) => line.load);
  return {
    lines: loaded.map(({ name, quantity, draws, plain, counts, load }) => ({
      name,
      quantity,
      load,
      plain,
      counts,
      draws,
      short: over(draws, load),
      plainShort: over(draws, plain),
    })),
    short,
    within: chanceWithin(short, count),
    plainShort: anyOver((line) => line.plain),
    level: (level + 1) / (count + 1),
  };
}
