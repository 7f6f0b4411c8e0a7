/** How many calls each function gets, by what it costs, and the test file that makes them: files run side by side. */
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import type { Declaration } from '../../src/catalogue/declaration.ts';
import { describe, expect, it, afterAll } from 'vitest';
import { SEED, fuzz, type Account } from './fuzz.ts';

export type Group = 'sizing' | 'plans' | 'supply, heat and fit' | 'safety and lists';

/** Calls of a function that takes about a millisecond. */
const CALLS = 2_700;
/** Calls of those that take longer. */
const DEAR: readonly (readonly [RegExp, number])[] = [
  [/^BURN\.JOB\.BASIS$/, 10],
  [/^BURN\.(ASSUME\.EFFECT|JOB\.COMPARE)$/, 60],
  [/^BURN\.GRIP\.AFTER$/, 200],
  [/^BURN\.(LOG\.|SPREAD|JOB\.)/, 250],
  [/\.PLAN$/, 400],
  [/^BURN\.COOL\./, 400],
  [/^BURN\.(PIN\.TIME|SUPPLY\.CHECK|FIRE\.)/, 1_000],
  [/\.STEPS$/, 1_500],
];

export const callsOf = ({ name }: Declaration): number => DEAR.find(([which]) => which.test(name))?.[1] ?? CALLS;

export function groupOf({ name, family }: Declaration): Group {
  if (/^BURN\.(PIN|HOLE|GOUGE|CUT|STUD|BREACH)\.(?!PLAN|STEPS)/.test(name)) return 'sizing';
  if (/\.(PLAN|STEPS|EFFECT)$|^BURN\.(JOB|LOG|SPREAD)/.test(name)) return 'plans';
  return ['SUPPLY', 'HOSE', 'CYLINDER', 'COOL', 'GRIP', 'PUSH', 'GUARD', 'ROD'].includes(family)
    ? 'supply, heat and fit'
    : 'safety and lists';
}

export const ALL_CALLS = CATALOGUE.reduce((sum, d) => sum + callsOf(d), 0);

/** Half of them in the usual run, whose time is short; all, or more, by hand. */
const TIMES = Number(process.env['FUZZ_TIMES'] ?? 0.5);

/** The tests of one group. */
export function fuzzGroup(group: Group): void {
  const functions = CATALOGUE.filter((d) => groupOf(d) === group);
  const accounts: Account[] = [];

  describe(`every call of ${group}`, () => {
    it.each(functions.map((d) => [d.name, d] as const))(
      '%s gives cells, whatever it is called with',
      (_, d) => {
        const account = fuzz(d, Math.ceil(callsOf(d) * TIMES));
        accounts.push(account);
        expect(account.calls).toBeGreaterThanOrEqual(callsOf(d) * TIMES);
        // A fuzz that is refused all the time tests the first check only.
        expect(account.results / account.calls, 'share of calls with a result').toBeGreaterThan(0.1);
      },
      600_000 * Math.max(1, TIMES),
    );
  });

  afterAll(() => {
    const sum = (of: (a: Account) => number): number => accounts.reduce((total, a) => total + of(a), 0);
    const calls = sum((a) => a.calls);
    console.log(
      `${group}: ${accounts.length} functions, ${calls} calls, ${Math.round((100 * sum((a) => a.results)) / calls)} in 100 with a result, ${(sum((a) => a.cpu) / 1e3).toFixed(1)} s of CPU in the calls, seed ${SEED}`,
    );
  });
}
