/**
 * A sample of the hostile run: no case throws what it should not, tells a number that is none, moves again after it was
 * written, or changes what is not ours. `npm run hostile` tries more; HOSTILE_SEED takes other cases.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { hostileRun, type Tried } from './hostile-run.ts';
import { SPOILINGS } from './workbooks.ts';

const TIMES = 5;
const KINDS = SPOILINGS.length + 3;

describe('hostile files and formulas', () => {
  let all: readonly Tried[];
  beforeAll(async () => {
    all = await hostileRun(Number(process.env['HOSTILE_SEED'] ?? 1), TIMES);
  });
  it.each(Array.from({ length: KINDS }, (_, i) => i))('of kind %i end well', (i) => {
    const { kind, cases, faults } = all[i]!;
    expect(cases, kind).toBeGreaterThanOrEqual(TIMES);
    expect(faults, kind).toEqual([]);
  });
  it('are read in part and refused in part', () => {
    const workbooks = all.filter(({ kind }) => kind.startsWith('workbook'));
    const count = (outcome: string): number => workbooks.reduce((sum, { came }) => sum + (came.get(outcome) ?? 0), 0);
    expect(workbooks).toHaveLength(SPOILINGS.length);
    expect(count('refused')).toBeGreaterThan(TIMES / 2);
    expect(count('same') + count('moved') + count('broken') + count('kept')).toBeGreaterThan(TIMES);
  });
});
