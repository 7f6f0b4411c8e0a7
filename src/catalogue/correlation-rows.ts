/** Rows that say how two assumptions go along with each other. */
import type { Assumptions, Correlation } from '../core/assumptions/assumptions.ts';
import { findAssumption, type NumberName } from '../core/assumptions/registry.ts';
import { correlationsGiven, joined, notOfTheLog } from '../core/messages.ts';
import { drawnWith } from '../core/spread/drawn-together.ts';

/** What can stand in such a row. */
export const correlatedNamed = (name: string): NumberName | undefined =>
  findAssumption(name)?.name as NumberName | undefined;

/** Name of such a row in `assume`. */
export const correlationName = ([x, y]: Correlation['names']): string => `correlation of ${x} with ${y}`;

/** The two names that such a row has, as written; undefined where a name is no such row's. One name has the word with in it. */
export function namesOfCorrelation(name: string): readonly [string, string] | undefined {
  const splits = [/^correlation of (.+?) with (.+)$/i, /^correlation of (.+) with (.+)$/i].flatMap((pattern) => {
    const [, x, y] = pattern.exec(name) ?? [];
    return x === undefined || y === undefined ? [] : [[x, y] as const];
  });
  return splits.find((two) => two.every(correlatedNamed)) ?? splits[0];
}

/** Whether an assumption is drawn along with others by rows of `assume`. */
export const isCorrelated = (name: NumberName, a: Assumptions): boolean =>
  a.correlations.some(({ names }) => names.some((each) => drawnWith(each, a).name === drawnWith(name, a).name));

/** What is to be said of correlations that a log told, where one of the two stands otherwise than the log had it; '' of others. */
export function replacedSince(of: readonly Correlation[], a: Assumptions): string {
  const told = of.flatMap(({ names, kind }) => (kind === 'your log' ? names : []));
  const replaced = [...new Set(told.filter((name) => a.inForce(name).kind !== 'your log'))];
  return replaced.length > 0 ? notOfTheLog(replaced) : '';
}

/** One line of a sheet for all of them; none where there are none. */
export function correlationLines(a: Assumptions): readonly (readonly [string, string, string])[] {
  const { correlations } = a;
  const said = joined([correlationsGiven(), replacedSince(correlations, a)]);
  return correlations.length > 0 ? [['correlations', String(correlations.length), said]] : [];
}
