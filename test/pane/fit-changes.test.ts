import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { readAssume } from '../../src/catalogue/read-assume.ts';
import { isChoice } from '../../src/core/assumptions/assumption.ts';
import { findAssumption, type NumberName } from '../../src/core/assumptions/registry.ts';
import { fitChanges, type FitChanges } from '../../src/pane/fit-changes.ts';
import { areaOf } from '../../src/formula/reference-area.ts';
import { call } from '../../src/sheet/call.ts';
import { FINISHED_JOBS } from '../../src/trial/demo/finished-jobs-log.ts';

type Rows = readonly (readonly Cell[])[];

const run = (name: string, ...args: readonly (Cell | Rows | undefined)[]): Rows => call(findFunction(name)!, args);
const LOG = FINISHED_JOBS as Rows;
const FIT = run('BURN.LOG.FIT', LOG);
const LISTING = run('BURN.ASSUMED');
/** As the job's template has it: with room for what a fit adds. */
const ROOMY: Rows = [...LISTING, ...Array.from({ length: 60 }, () => LISTING[0]!.map(() => null))];
const isCorrelation = (row: readonly Cell[]): boolean => String(row[0]).startsWith('correlation of ');

/** The range once the changes are written into it. */
function after(range: Rows, { changes }: FitChanges, corner = 'A1'): Rows {
  const { top, left } = areaOf(corner, 'Set')!;
  const rows = range.map((row) => [...row]);
  for (const { address, value } of changes.flatMap((c) => c.cells)) {
    const area = areaOf(address, 'Set')!;
    rows[area.top - top]![area.left - left] = value;
  }
  return rows;
}
const changesIn = (range: Rows, corner = 'A1', fit = FIT): FitChanges => fitChanges(fit, range, areaOf(corner, 'Set')!);

/** Whether a range assumes of all that the fit found what the fit says. */
function expectFitted(range: Rows, fit = FIT, digits = 4): void {
  const [own, fitted] = [readAssume(range), readAssume(fit)];
  const names = fitted.departures();
  expect(names.length).toBeGreaterThan(4);
  for (const name of names) {
    const entry = findAssumption(name)!;
    if (isChoice(entry)) continue;
    const [x, y] = [own.inForce(name as NumberName), fitted.inForce(name as NumberName)];
    for (const key of ['value', 'low', 'high'] as const)
      expect(Math.abs(x[key] - y[key]), `${name}, ${key}`).toBeLessThanOrEqual(10 ** -digits * Math.abs(y[key]));
    expect(x.kind).toBe('your log');
  }
}

describe('a fit that goes into the assumptions of a job', () => {
  it('changes the cells of its rows alone, and then they assume what the fit says', () => {
    const found = changesIn(ROOMY);
    const written = after(ROOMY, found);
    expectFitted(written);
    expect(readAssume(written).correlations.length).toBeGreaterThan(4);
    readAssume(written).correlations.forEach(({ names, value }, i) => {
      expect(readAssume(FIT).correlations[i]!.names).toEqual(names);
      expect(value).toBeCloseTo(readAssume(FIT).correlations[i]!.value, 4);
    });
    expect(found.noRoom).toEqual([]);
    expect(found.noRange).toBe(false);
    const touched = new Set(found.changes.map((c) => c.name));
    written.forEach((row, i) => {
      if (!touched.has(String(row[0]))) expect(row).toEqual(ROOMY[i]);
    });
    // Of what is shown to be changed every figure is.
    for (const { before, after: shown } of found.changes) expect(before).not.toBe(shown);
    expect(changesIn(written).changes).toEqual([]);
  });

  it('takes back what an earlier fit correlated and this one does not, and says once where there is no room', () => {
    const name = 'correlation of cylinder pressure with strike time';
    const before: Rows = [...LISTING, [name, 0.5, null, null, null, 'your log', null, null]];
    const found = changesIn(before);
    expect(found.changes.at(-1)).toMatchObject({ name, after: '' });
    expect(readAssume(after(before, found)).correlations).toEqual([]);
    expect(found.noRoom).toEqual(['correlations']);
    const typed: Rows = [...LISTING, [name, 0.5, null, null, null, 'your value', null, null]];
    expect(readAssume(after(typed, changesIn(typed))).correlations).toHaveLength(1);
    expect(FIT.filter(isCorrelation).length).toBeLessThan(40);
  });

  it('says before and after in the unit of the row, from where the range stands', () => {
    const small: Rows = [
      ['name', 'value', 'low', 'high', 'unit'],
      ['set-up time', 600, 300, 900, 's'],
      [null, null, null, null, null],
    ];
    const fit: Rows = [
      ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'],
      ['set-up time', 15, 12, 20, 'min', 'your log', 'fitted', ''],
      ['burning duty', 0.5, 0.4, 0.6, '', 'your log', 'fitted', ''],
      ['stub', 3, 2, 4, 'in', 'common practice', 'x', ''],
      [null, 'job', null, null, null, null, null, null],
    ];
    const found = changesIn(small, 'C4', fit);
    expect(found.changes).toEqual([
      {
        name: 'set-up time',
        before: '600 s (300 to 900)',
        after: '900 s (720 to 1200)',
        cells: [
          { address: 'D5', value: 900 },
          { address: 'E5', value: 720 },
          { address: 'F5', value: 1200 },
        ],
      },
      expect.objectContaining({ name: 'burning duty', before: '' }) as unknown,
    ]);
    expect(readAssume(after(small, found, 'C4')).value('burning duty')).toBe(0.5);
  });

  it('says for what there is no room, and that a range of two columns takes values alone', () => {
    const found = changesIn([
      ['burning duty', 0.3],
      ['position', 'overhead'],
    ]);
    expect(found.noRange).toBe(true);
    expect(found.changes.map((c) => c.name)).toEqual(['burning duty']);
    expect(found.changes[0]?.cells.map((c) => c.address)).toEqual(['B1']);
    expect(found.noRoom.length).toBeGreaterThan(3);
  });

  it('takes away who said why of a value that it replaces, and of no other', () => {
    const range: Rows = [
      ['name', 'value', 'low', 'high', 'why', 'by', 'date'],
      ['rod change time', 2, 1.5, 2.5, 'cold hands', 'the foreman', 46000],
      ['stub', 4, 3, 5, 'short holder', 'the foreman', 46000],
    ];
    const [, fitted, kept] = after(range, changesIn(range));
    expect(fitted![1]).not.toBe(2);
    expect(fitted!.slice(4)).toEqual(['', '', '']);
    expect(kept).toEqual(range[2]);
  });
});
