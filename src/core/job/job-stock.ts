/** What to load for a whole list. */
import type { Basis } from '../basis.ts';
import { rodName } from '../burn/rods.ts';
import { batteryStrikes } from '../safety/battery-strikes.ts';
import { batteryTooSmall, confidenceBeyondReach } from '../messages.ts';
import type { Operation } from '../operations/operation.ts';
import type { Sized } from '../operations/sized.ts';
import { DRAWS } from '../operations/spread-item.ts';
import { cylinderCount } from '../oxygen/cylinder-count.ts';
import { drawableContent } from '../oxygen/drawable-content.ts';
import type { QuantityName } from '../units/quantities.ts';
import { cylinderDraws } from '../operations/cylinder-draws.ts';
import { deliveryTo } from '../operations/delivery-to.ts';
import { drawItem, drawsOfShared } from '../operations/draw-item.ts';
import { ownScatter } from '../operations/own-scatter.ts';

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
}

export interface JobStock {
  readonly lines: readonly StockLine[];
  /** Chance that any line of the load falls short. */
  readonly short: number;
  /** Chance that any line of the plain sums falls short. */
  readonly plainShort: number;
  /** Share of the worlds that each line of whole things is loaded for, so that all together suffice with the confidence. */
  readonly level: number;
}

interface Need {
  readonly name: string;
  readonly quantity: QuantityName;
  /** One value for each world. */
  readonly draws: Float64Array;
  readonly plain: number;
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

/** Need of everything in each world, and by the plans. */
function needs(operation: Operation, sizings: readonly Sized[], count: number, basis: Basis): readonly Need[] {
  const { a } = basis;
  const rods = new Map<string, { readonly draws: Float64Array; plain: number }>();
  const column = (): Float64Array => new Float64Array(count);
  const total = { oxygen: column(), crewTime: column(), lightings: column() };
  const planned = { oxygen: 0, crewTime: 0, lightings: 0 };
  sizings.forEach((sizing, item) => {
    const each = drawItem(sizing, count, basis, ownScatter(item, count, basis));
    const name = rodName(sizing.rod.rod, sizing.rod.length, false);
    const line = rods.get(name) ?? { draws: new Float64Array(count), plain: 0 };
    rods.set(name, line);
    line.plain += sizing.rods;
    planned.oxygen += sizing.oxygen;
    planned.crewTime += sizing.crewTime;
    planned.lightings += sizing.lightings;
    for (let i = 0; i < count; i++) {
      line.draws[i] = (line.draws[i] ?? 0) + (each.rods[i] ?? 0);
      total.oxygen[i] = (total.oxygen[i] ?? 0) + (each.oxygen[i] ?? 0);
      total.crewTime[i] = (total.crewTime[i] ?? 0) + (each.crewTime[i] ?? 0);
      total.lightings[i] = (total.lightings[i] ?? 0) + (each.lightings[i] ?? 0);
    }
  });
  const delivery = deliveryTo(sizings, basis);
  const content = cylinderDraws(count, basis, delivery);
  const current = drawsOfShared('strike current', count, basis);
  const time = drawsOfShared('strike time', count, basis);
  const lit = strikes(a.value('strike current'), a.value('strike time'), basis);
  if (lit < 1) throw batteryTooSmall();
  const lines: Need[] = [...rods].map(([name, { draws, plain }]) => ({
    name: `rods ${name}`,
    quantity: 'count',
    draws,
    plain,
    counts: true,
    whole: true,
  }));
  lines.push({
    name: 'oxygen',
    quantity: 'oxygen',
    draws: total.oxygen,
    plain: planned.oxygen,
    counts: false,
    whole: false,
  });
  lines.push({
    name: 'cylinders',
    quantity: 'count',
    draws: total.oxygen.map((o, i) => whole(o / (content[i] ?? NaN))),
    plain: cylinderCount(planned.oxygen, drawableContent(basis, delivery), 0),
    counts: true,
    whole: true,
  });
  lines.push({
    name: 'batteries',
    quantity: 'count',
    draws: total.lightings.map((n, i) => whole(n / Math.max(1, strikes(current[i] ?? NaN, time[i] ?? NaN, basis)))),
    plain: whole(planned.lightings / lit),
    counts: true,
    whole: true,
  });
  if (operation.crewTimes.includes('plate time')) {
    const plates = (perPin: number): number => whole(perPin * sizings.length);
    lines.push({
      name: 'plates',
      quantity: 'count',
      draws: drawsOfShared('plates per pin', count, basis).map(plates),
      plain: plates(a.value('plates per pin')),
      counts: true,
      whole: true,
    });
  }
  lines.push({
    name: 'crew',
    quantity: 'hours',
    draws: total.crewTime,
    plain: planned.crewTime,
    counts: true,
    whole: false,
  });
  return lines;
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
 * cylinders and plates then have something to spare; by so much the crew hours are planned shorter.
 *
 * @param confidence [-], more than 0 and less than 1
 */
export function jobStock(operation: Operation, sizings: readonly Sized[], confidence: number, basis: Basis): JobStock {
  const count = DRAWS;
  const lines = needs(operation, sizings, count, basis).map((line) => ({
    ...line,
    sorted: Float64Array.from(line.draws).sort(),
  }));
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
  return {
    lines: loaded.map(({ name, quantity, draws, plain, counts, load }) => ({
      name,
      quantity,
      load,
      plain,
      counts,
      short: over(draws, load),
      plainShort: over(draws, plain),
    })),
    short: anyOver((line) => line.load),
    plainShort: anyOver((line) => line.plain),
    level: (level + 1) / (count + 1),
  };
}
