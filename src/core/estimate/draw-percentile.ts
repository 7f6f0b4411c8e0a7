/** Percentiles of draws that are evenly spread over the probabilities. */

/** The first draws are sorted to guess where a percentile lies; below twice that many all are sorted at once. */
const SAMPLE = 64;
/** Ranks of the sample by which a guess may be off, to either side. */
const SLACK = 6;

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

/** Places for intermediate results, to be kept by a caller who asks often. */
export interface PercentileWork {
  readonly sample: Float64Array;
  readonly window: Float64Array;
}

export function percentileWork(count: number): PercentileWork {
  return { sample: new Float64Array(SAMPLE), window: new Float64Array(count + 1) };
}

/** Puts the value of rank k (from 0) of the first n in its place, smaller ones before it, larger ones behind (Hoare 1961). */
function select(values: Float64Array, k: number, n: number): void {
  let [left, right] = [0, n - 1];
  while (left < right) {
    const pivot = values[(left + right) >> 1] as number;
    let [i, j] = [left, right];
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i > j) break;
      const swapped = values[i] as number;
      values[i++] = values[j] as number;
      values[j--] = swapped;
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else return;
  }
}

/** Value of a rank (from 0) and of the next one. The sample, sorted, gives limits between which they are sought. */
function ranked(draws: Float64Array, rank: number, { sample, window }: PercentileWork): readonly [number, number] {
  const n = draws.length;
  const at = ((rank + 0.5) / n) * SAMPLE;
  const low = at < SLACK ? -Infinity : (sample[Math.floor(at) - SLACK] as number);
  const high = at + SLACK >= SAMPLE ? Infinity : (sample[Math.ceil(at) + SLACK - 1] as number);
  let before = 0;
  let inside = 0;
  // Without branches, which the processor would guess wrongly half of the time.
  for (let i = 0; i < n; i++) {
    const value = draws[i] as number;
    window[inside] = value;
    inside += Number(value >= low) & Number(value <= high);
    before += Number(value < low);
  }
  if (!(rank >= before && rank + 1 < before + inside)) {
    window.set(draws);
    before = 0;
    inside = n;
  }
  const k = rank - before;
  select(window, k, inside);
  let next = Infinity;
  for (let i = k + 1; i < inside; i++) next = Math.min(next, window[i] as number);
  return [window[k] as number, next];
}

/**
 * Percentiles of n draws, each draw standing for the middle of its n-th part of the probability.
 *
 * With h = n p - 1/2, counted from 0 in rising order and kept within the draws: x[floor h] + (h - floor h)(x[floor h + 1] -
 * x[floor h]). Infinity counts as more than any number.
 *
 * @param draws n values, at least one, in any order; left as they are
 * @param shares each p [-], 0 to 1
 * Source: Hyndman and Fan, The American Statistician 50 (1996) 361, definition 5 (Hazen). For draws that lie one in each
 * n-th part this is right where definition 7, for random draws, stands too near the middle.
 */
export function drawPercentiles(draws: Float64Array, shares: readonly number[], work = percentileWork(draws.length)): readonly number[] {
  const last = draws.length - 1;
  const few = draws.length < 2 * SAMPLE;
  const { sample, window } = work;
  if (few) {
    window.set(draws);
    sortFirst(window, draws.length);
  } else {
    for (let i = 0; i < SAMPLE; i++) sample[i] = draws[i] as number;
    sortFirst(sample, SAMPLE);
  }
  return shares.map((p) => {
    const h = Math.min(Math.max(draws.length * p - 0.5, 0), last);
    const below = Math.floor(h);
    const part = h - below;
    const [value, next] = few ? [window[below] ?? NaN, window[below + 1] ?? NaN] : ranked(draws, below, work);
    if (part === 0) return value;
    return next === Infinity ? Infinity : value + part * (next - value);
  });
}

export const drawPercentile = (draws: Float64Array, p: number): number => drawPercentiles(draws, [p])[0] ?? NaN;
