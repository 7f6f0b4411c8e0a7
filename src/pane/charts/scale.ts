import { scaleLinear } from 'd3-scale';

/** An axis: values from `low` to `high` lie between two places, with marks at round values. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  at(value: number): number;
}

/** What an axis must hold, and the ends it is to have where they are given. */
export interface Span {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

/** Round numbers from `low` to `high`, both ends counted: at most `most` steps of 1, 2 or 5 times a power of ten; none where there is no span. */
export function roundTicks(low: number, high: number, most = 4): readonly number[] {
  if (!(high > low)) return [];
  const scale = scaleLinear([low, high], [0, 1]);
  // The library takes the number for a wish.
  for (let asked = most; asked > 1; asked--) {
    const ticks = scale.ticks(asked);
    if (ticks.length <= most + 1) return ticks;
  }
  return scale.ticks(1);
}

/** A straight scale that holds all values between two places; an end that is not given is moved out to the next round mark. */
export function scaleOf(
  values: readonly number[],
  { low, high }: Span,
  [from, to]: readonly [number, number],
  most: number,
): Scale {
  const [least, greatest] = [low ?? Math.min(...values), high ?? Math.max(...values)];
  if (!(greatest > least)) throw new Error(`an axis needs a span; got ${least} to ${greatest}`);
  const [first = least, last = greatest] = scaleLinear([least, greatest], [from, to]).nice(most).domain();
  const scale = scaleLinear([low ?? first, high ?? last], [from, to]);
  const [start = least, end = greatest] = scale.domain();
  return { low: start, high: end, ticks: roundTicks(start, end, most + 1), at: (value) => scale(value) };
}
