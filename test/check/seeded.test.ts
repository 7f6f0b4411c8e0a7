import { describe, expect, it } from 'vitest';
import { checkFile } from '../../src/cli/check/check-file.ts';
import { tryClean, tryCleanTable, tryFaulty, tryFaultyTable } from './run-seeded.ts';
import { fileOfTables, TABLE_FAULTS, tabledJob } from './seeded-tables.ts';
import { FAULTS } from './seeded-workbooks.ts';

const WORKBOOKS = 100;
const LEAST_FOUND = 95;
const MOST_ALARMS = 2;
/** Clean workbooks that are calculated anew too, which takes its time. */
const AGAIN = 5;

describe.each([
  { of: 'cells', faulty: tryFaulty, clean: tryClean, faults: FAULTS },
  { of: 'tables', faulty: tryFaultyTable, clean: tryCleanTable, faults: TABLE_FAULTS },
])('workbooks of our own invention, with lists in $of', ({ of, faulty, clean, faults }) => {
  it(`with a fault each: at least ${LEAST_FOUND} of ${WORKBOOKS} are found at their cell`, async () => {
    const tried = [];
    for (let seed = 0; seed < WORKBOOKS; seed++) tried.push(await faulty(seed));
    const kinds = new Set(tried.map((t) => t.name));
    const missed = tried.filter((t) => !t.found).map((t) => `${t.seed} ${t.name}: ${JSON.stringify(t.fault)}`);
    console.log(`${of}: found ${WORKBOOKS - missed.length} of ${WORKBOOKS} faults of ${kinds.size} kinds`, missed);
    expect(kinds).toEqual(new Set(Object.keys(faults)));
    expect(kinds.size).toBeGreaterThanOrEqual(10);
    expect(WORKBOOKS - missed.length, missed.join('\n')).toBeGreaterThanOrEqual(LEAST_FOUND);
  });

  it(`without a fault: at most ${MOST_ALARMS} of ${WORKBOOKS} raise an alarm`, async () => {
    const alarms: string[] = [];
    for (let seed = 0; seed < WORKBOOKS; seed++) {
      const found = await clean(5000 + seed, seed < AGAIN);
      if (found.length > 0) alarms.push(`${seed}: ${found.join('; ')}`);
    }
    console.log(`${of}: ${alarms.length} false alarms in ${WORKBOOKS} workbooks without a fault`);
    expect(alarms.length, alarms.join('\n')).toBeLessThanOrEqual(MOST_ALARMS);
  });
});

it('a cell of a table is told as it is typed there', async () => {
  const { workbook } = await checkFile(await fileOfTables(tabledJob(5000)));
  const told = workbook.sheets.flatMap(({ cells }) => cells.flatMap((c) => c.told ?? []));
  expect(told.filter((text) => /^=.*BURN\.\w+\.RODS\(\w+\[@\[?[\w ,.#']+\]/.test(text)).length).toBeGreaterThan(3);
  expect(told.join()).not.toContain('#This Row');
});
