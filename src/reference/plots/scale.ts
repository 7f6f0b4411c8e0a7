import { roundTicks } from '../../pane/round-ticks.ts';

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

/** A straight scale that holds all values between two places; an end that is not given is moved out to the next round mark. */
export function scaleOf(
  values: readonly number[],
  { low, high }: Span,
  [from, to]: readonly [number, number],
  most: number,
): Scale {
  const [least, greatest] = [low ?? Math.min(...values), high ?? Math.max(...values)];
  if (!(greatest > least)) throw new Error(`an axis needs a span; got ${least} to ${greatest}`);
  const marks = roundTicks(least, greatest, most);
  const step = (marks[1] ?? greatest) - (marks[0] ?? least);
  const outward = (end: number, direction: 1 | -1): number => {
    const near = direction === 1 ? (marks.at(-1) ?? end) : (marks[0] ?? end);
    return (end - near) * direction > 1e-9 * step ? near + direction * step : near;
  };
  const [first, last] = [low ?? outward(least, -1), high ?? outward(greatest, 1)];
  return {
    low: first,
    high: last,
    ticks: roundTicks(first, last, most + 1),
    at: (value) => from + ((value - first) / (last - first)) * (to - from),
  };
}
