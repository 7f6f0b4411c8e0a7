import { describe, expect, it } from 'vitest';
import { tryClean, tryFaulty, type Faulty } from './run-seeded.ts';
import { FAULTS } from './seeded-workbooks.ts';

const WORKBOOKS = 100;
const LEAST_FOUND = 95;
const MOST_ALARMS = 2;
/** Clean workbooks that are calculated anew too, which takes its time. */
const AGAIN = 5;

describe('workbooks of our own invention', () => {
  it(`with a fault each: at least ${LEAST_FOUND} of ${WORKBOOKS} are found at their cell`, async () => {
    const tried: Faulty[] = [];
    for (let seed = 0; seed < WORKBOOKS; seed++) tried.push(await tryFaulty(seed));
    const kinds = new Set(tried.map((t) => t.name));
    const missed = tried.filter((t) => !t.found).map((t) => `${t.seed} ${t.name}: ${JSON.stringify(t.fault)}`);
    console.log(`found ${WORKBOOKS - missed.length} of ${WORKBOOKS} faults of ${kinds.size} kinds`, missed);
    expect(kinds).toEqual(new Set(Object.keys(FAULTS)));
    expect(kinds.size).toBeGreaterThanOrEqual(10);
    expect(WORKBOOKS - missed.length, missed.join('\n')).toBeGreaterThanOrEqual(LEAST_FOUND);
  });

  it(`without a fault: at most ${MOST_ALARMS} of ${WORKBOOKS} raise an alarm`, async () => {
    const alarms: string[] = [];
    for (let seed = 0; seed < WORKBOOKS; seed++) {
      const found = await tryClean(5000 + seed, seed < AGAIN);
      if (found.length > 0) alarms.push(`${seed}: ${found.join('; ')}`);
    }
    console.log(`${alarms.length} false alarms in ${WORKBOOKS} workbooks without a fault`);
    expect(alarms.length, alarms.join('\n')).toBeLessThanOrEqual(MOST_ALARMS);
  });
});
