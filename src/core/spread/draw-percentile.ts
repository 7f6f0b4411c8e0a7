/** Percentiles of draws that are evenly spread over the probabilities. */

/** Percentiles of one kind of draws for which guides are kept. */
const MOST_GUIDED = 3;
/** Ranks by which a guide stands off its percentile when it is found. */
const GUIDE = 14;
/** Guides with more draws between them are sought anew. */
const MOST_INSIDE = 80;

/** Insertion sort of the first n values: the quickest for so few. */
function sortFirst(values: Float64Array, n: number): void {
  for (let i = 1; i < n; i++) {
    const value = values[i] as number;
    let j = i - 1;
    while (j >= 0 && (values[j] as number) > value) {
      values[j + 1] = values[j] as number;
      j--;
    }
    values[j + 1] = value;
  }
}

/**
 * Places for intermediate results, to be kept by a caller who asks often for draws of one kind: in alike items the same
 * draws stand next to a percentile, so those found for one item are tried for the next. The values are the same either way.
 */
export interface PercentileWork {
  readonly window: Float64Array;
  /** Places of a draw well below and of one well above each percentile, two for each share; -1 where none is known. */
  readonly guides: Int32Array;
}

export const percentileWork = (count: number): PercentileWork => ({
  window: new Float64Array(count + 1),
  guides: new Int32Array(2 * MOST_GUIDED).fill(-1),
});

/** Value of a rank (from 0) and of the next one, sought between two draws; undefined where they stand on one side of it or too far off. */
function guided(
  draws: Float64Array,
  rank: number,
  from: number,
  to: number,
  window: Float64Array,
): readonly [number, number] | undefined {
  if (from < 0) return undefined;
  const [low, high] = [draws[from]!, draws[to]!];
  let [before, inside] = [0, 0];
  // Without branches, which the processor would guess wrongly half of the time.
  for (let i = 0; i < draws.length; i++) {
    const value = draws[i]!;
    window[inside] = value;
    inside += Number(value >= low) & Number(value <= high);
    before += Number(value < low);
  }
  const k = rank - before;
  if (!(k >= 0 && k + 1 < inside && inside <= MOST_INSIDE)) return undefined;
  sortFirst(window, inside);
  return [window[k]!, window[k + 1]!];
}

/**
 * Percentiles of n draws, each draw standing for the middle of its n-th part of the probability.
 *
 * With h = n p - 1/2, counted from 0 in rising order and kept within the draws: x[floor h] + (h - floor h)(x[floor h + 1] -
 * x[floor h]). Infinity counts as more than any number.
 *
 * @param draws n values, at least one, in any order; left as they are
 * @param shares each p [-], 0 to 1
 * @param of a function that rises with its argument: gives the percentiles of its values at the draws
 * Source: Hyndman and Fan, The American Statistician 50 (1996) 361, definition 5 (Hazen). For draws that lie one in each
 * n-th part this is right where definition 7, for random draws, stands too near the middle.
 */
export function drawPercentiles(
  draws: Float64Array,
  shares: readonly number[],
  work = percentileWork(draws.length),
  of: (x: number) => number = (x) => x,
): readonly number[] {
  const last = draws.length - 1;
  const { window, guides } = work;
  let sorted = false;
  const sought = (rank: number, at: number): readonly [number, number] => {
    const known = sorted ? undefined : guided(draws, rank, guides[2 * at] ?? -1, guides[2 * at + 1]!, window);
    if (known) return known;
    if (!sorted) {
      window.set(draws);
      window.subarray(0, draws.length).sort();
      sorted = true;
    }
    if (at < MOST_GUIDED) {
      guides[2 * at] = draws.indexOf(window[Math.max(0, rank - GUIDE)]!);
      guides[2 * at + 1] = draws.indexOf(window[Math.min(last, rank + 1 + GUIDE)]!);
    }
    return [window[rank]!, window[Math.min(rank + 1, last)]!];
  };
  return shares.map((p, at) => {
    const h = Math.min(Math.max(draws.length * p - 0.5, 0), last);
    const below = Math.floor(h);
    const part = h - below;
    const [low, high] = sought(below, at);
    const value = of(low);
    if (part === 0) return value;
    const next = of(high);
    return next === Infinity ? Infinity : value + part * (next - value);
  });
}

/**
 * Half the width of the interval that holds a chance p in 95 cases of 100, counted over n draws: 1.96 sqrt(p (1 - p) / n). For
 * draws at random; evenly spread ones are nearer. Source: JCGM 101:2008, 7.9, of memory.
 *
 * @example chanceWithin(0.5, 1024) // 0.03062
 */
export const chanceWithin = (p: number, count: number): number => 1.96 * Math.sqrt((p * (1 - p)) / count);

/** Share of so many draws in which something holds. */
export function shareOfDraws(count: number, holds: (draw: number) => boolean): number {
  let n = 0;
  for (let i = 0; i < count; i++) if (holds(i)) n++;
  return n / count;
}

/** A percentile of draws, and how far it may be off for their number. */
export interface Percentile {
  readonly value: number;
  /** Half the width of the interval that holds the percentile in 95 cases of 100. */
  readonly within: number;
  /** Whether more draws are not needed, or would not help. */
  readonly close: boolean;
}

/** Two digits that mean something: a percentile is to be known to so much of itself. */
const TOLERANCE = 0.05;

/**
 * Percentiles with their intervals, which lie between the draws of the ranks n p +- 1.96 sqrt(n p (1 - p)), whatever their
 * distribution; that is for draws at random, evenly spread ones are nearer. Source: JCGM 101:2008, 7.7.2 and 7.9, of memory.
 *
 * @param whole in every draw, so that nothing under one of them can be known closer
 * @example percentilesWithin(Float64Array.from({ length: 100 }, (_, i) => i + 1), [0.5])[0].within // 9.8
 */
export function percentilesWithin(
  draws: Float64Array,
  shares: readonly number[],
  whole = false,
): readonly Percentile[] {
  const at = drawPercentiles(
    draws,
    shares.flatMap((p) => {
      const off = chanceWithin(p, draws.length);
      return [p, Math.max(0, p - off), Math.min(1, p + off)];
    }),
  );
  return shares.map((_, i) => {
    const value = at[3 * i]!;
    if (value === Infinity) return { value, within: value, close: true };
    const within = (at[3 * i + 2]! - at[3 * i + 1]!) / 2;
    return { value, within, close: within <= Math.max(TOLERANCE * value, Number(whole)) };
  });
}

/** One percentile; as `drawPercentiles`. @example drawPercentile(Float64Array.of(3, 1, 2, 5, 4), 0.5) // 3 */
export const drawPercentile = (draws: Float64Array, p: number): number => drawPercentiles(draws, [p])[0] ?? NaN;
