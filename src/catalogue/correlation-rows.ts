/** Rows that say how two assumptions go along with each other. */
import type { Assumptions, Correlation } from '../core/assumptions/assumptions.ts';
import { findAssumption, type NumberName } from '../core/assumptions/registry.ts';
import { correlationsGiven } from '../core/messages.ts';
import { drawnWith } from '../core/spread/drawn-together.ts';

/** Name of such a row in `assume`. */
export const correlationName = ([x, y]: Correlation['names']): string => `correlation of ${x} with ${y}`;

/** The two names that such a row has, as written; undefined where a name is no such row's. One name has the word with in it. */
export function namesOfCorrelation(name: string): readonly [string, string] | undefined {
  const splits = [/^correlation of (.+?) with (.+)$/i, /^correlation of (.+) with (.+)$/i].flatMap((pattern) => {
    const [, x, y] = pattern.exec(name) ?? [];
    return x === undefined || y === undefined ? [] : [[x, y] as const];
  });
  return splits.find((two) => two.every(findAssumption)) ?? splits[0];
}

/** Whether an assumption is drawn along with others by rows of `assume`. */
export const isCorrelated = (name: NumberName, a: Assumptions): boolean =>
  a.correlations.some(({ names }) => names.some((each) => drawnWith(each, a).name === drawnWith(name, a).name));

/** One line of a sheet for all of them; none where there are none. */
export const correlationLines = ({ correlations }: Assumptions): readonly (readonly [string, string, string])[] =>
  correlations.length > 0 ? [['correlations', String(correlations.length), correlationsGiven()]] : [];
