import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell, CellError } from '../../src/catalogue/cell.ts';
import { seeded } from '../../src/core/spread/seeded.ts';
import { fromSi } from '../../src/core/units/parse-quantity.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { randomPins, simulateLog } from '../core/job/simulated-log.ts';

const run = (name: string, ...args: readonly Argument[]): Cell[][] => call(findFunction(name)!, args) as Cell[][];
const message = (cells: readonly (readonly Cell[])[]): string => (cells[0]?.[0] as CellError).message;
const rowOf = (cells: readonly (readonly Cell[])[], name: string): readonly Cell[] =>
  cells.find((row) => row[0] === name)!;
const jobRows = (cells: readonly (readonly Cell[])[]): readonly (readonly Cell[])[] =>
  cells.slice(cells.findIndex((row) => row[1] === 'all') + 1);
const HEADING: Cell[] = [
  'Job',
  'Diameter',
  'Length',
  'Rods used',
  'Oxygen used, scf',
  'Burning minutes',
  'Crew minutes',
];

const random = seeded(11);
const pins = randomPins(20, random);
const LOG: Cell[][] = [
  HEADING,
  ...simulateLog(pins, { 'oxygen burnt share': 0.3, 'rod feed ratio': 0.42, 'flow factor': 0.85 }, random).map(
    (job, i): Cell[] => [
      `P${i + 1}`,
      pins[i]!.diameter,
      pins[i]!.length,
      job.noted.rods!,
      fromSi(job.noted.oxygen!, 'oxygen', 'US'),
      fromSi(job.noted.burning!, 'time', 'US'),
      fromSi(job.noted.crew!, 'time', 'US'),
    ],
  ),
];

describe('BURN.LOG.FIT', () => {
  const fit = run('BURN.LOG.FIT', LOG);

  it('gives rows headed and laid out as those of BURN.ASSUMED, then the jobs', () => {
    expect(fit[0]).toEqual(run('BURN.ASSUMED')[0]);
    const row = rowOf(fit, 'oxygen burnt share');
    expect(row[1]).toBeCloseTo(0.3, 1);
    expect((row[2] as number) < (row[1] as number) && (row[1] as number) < (row[3] as number)).toBe(true);
    expect(row.slice(4, 6)).toEqual(['', 'your log']);
    expect(row[6]).toMatch(/^your log: 20 jobs, standard error [\d.]+%; four in five sure of 0\.\d+ to 0\.\d+$/);
    expect(jobRows(fit).map((r) => r[1])).toEqual(LOG.slice(1).map((r) => r[0]));
    expect(jobRows(fit).every((r) => r[0] === null)).toBe(true);
  });

  it('works as assume, the whole spill or its rows alone', () => {
    const rows = fit.slice(
      0,
      fit.findIndex((row) => row.every((c) => c === null)),
    );
    const plan = (assume: Cell[][] | undefined): Cell[][] =>
      run('BURN.PIN.PLAN', 4, 10, undefined, undefined, undefined, assume);
    expect(plan(fit)).toEqual(plan(rows));
    const [before, after] = [plan(undefined)[1]!, plan(fit)[1]!];
    const at = plan(undefined)[0]!.indexOf('oxygen, scf');
    // The crew of the log burned less of its oxygen than the default says, so its pins take more.
    expect(after[at]).toBeGreaterThan(before[at] as number);
    expect((after[at + 2] as number) - (after[at + 1] as number)).toBeLessThan(
      0.5 * ((before[at + 2] as number) - (before[at + 1] as number)),
    );
    const sources = call(findFunction('BURN.PIN.STEPS')!, [4, 10, undefined, undefined, undefined, fit]) as Cell[][];
    expect(sources.find((row) => row[0] === 'oxygen burnt share')?.[5]).toBe('your log');
  });

  it('returns the defaults where no job is noted', () => {
    const none = run('BURN.LOG.FIT', [HEADING]);
    for (const row of none.slice(
      1,
      none.findIndex((r) => r.every((c) => c === null)),
    )) {
      expect(row.slice(0, 6)).toEqual(rowOf(run('BURN.ASSUMED'), row[0] as string).slice(0, 6));
    }
    expect(jobRows(none)).toEqual([]);
    expect(none.find((row) => row[1] === 'all')?.[7]).toBe(
      'no job notes rods, oxygen or minutes: everything stays as it was',
    );
  });

  it('brings along what assume changed besides', () => {
    const rows = run('BURN.LOG.FIT', LOG, [
      ['stub', '4 in'],
      ['position', 'overhead'],
    ]);
    expect(rowOf(rows, 'stub').slice(0, 6)).toEqual([
      'stub',
      expect.closeTo(4, 9),
      expect.closeTo(10 / 3, 9),
      expect.closeTo(14 / 3, 9),
      'in',
      'your value',
    ]);
    expect(rowOf(rows, 'position').slice(0, 2)).toEqual(['position', 'overhead']);
    const si = run(
      'BURN.LOG.FIT',
      LOG.map((row, i) =>
        i === 0
          ? ['Job', 'Diameter, in', 'Length, in', 'Rods used', 'Oxygen used, scf', 'Burning minutes', 'Crew minutes']
          : row,
      ),
      [['units', 'SI']],
    );
    expect(rowOf(si, 'units')[1]).toBe('SI');
    expect(rowOf(si, 'advance limit')[4]).toBe('mm/min');
    expect(rowOf(si, 'oxygen burnt share')[1]).toBeCloseTo(rowOf(fit, 'oxygen burnt share')[1] as number, 9);
  });

  it('names an outlier, in its row and in the summary', () => {
    const wild = run(
      'BURN.LOG.FIT',
      LOG.map((row, i) => (i === 5 ? row.map((c, k) => (k === 4 ? 4 * (c as number) : c)) : row)),
    );
    expect(jobRows(wild)[4]?.[7]).toMatch(/^outlier: [\d.]+ deviations off, counts [\d.]+%/);
    expect(wild.find((row) => row[1] === 'all')?.[7]).toContain('count less, since they contradict the others: P5');
  });

  it('leaves bad rows out and says why, and passes rows without sizes over', () => {
    const cells = run('BURN.LOG.FIT', [
      ...LOG.slice(0, 6),
      ['sum', null, null, 40],
      ['bad', 4, 10, 'many'],
      ['odd', 4, 10, 6, null, 90, 60],
    ]);
    const left = cells.filter((row) => row[1] === 'left out').map((row) => row[7]);
    expect(left).toEqual([
      'log row 8: rods used is "many"; must be a number',
      'log row 9: burning minutes is 90 min; must be at most the crew minutes of 60 min',
    ]);
    expect(cells.find((row) => row[1] === 'all')?.[7]).toContain('2 rows were left out');
    expect(jobRows(cells).filter((row) => row[1] !== 'left out')).toHaveLength(5);
  });

  it('turns gauge readings into oxygen through the real gas', () => {
    // 43 L at 2200 psig and 70 F hold 244 scf (US Army TC 9-237); 1783 psig at 0 F and 2377 at 100 F are the same fill.
    const ratio = (before: Cell, after: Cell, temperature: Cell, cylinders: Cell = 1): number =>
      run('BURN.LOG.FIT', [
        ['diameter', 'length', 'gauge before', 'gauge after', 'temperature', 'cylinders'],
        [5, 14, before, after, temperature, cylinders],
      ]).find((row) => row[1] === 'row 2')![3] as number;
    const noted = run('BURN.LOG.FIT', [
      ['diameter', 'length', 'oxygen used'],
      [5, 14, 242.2],
    ]).find((row) => row[1] === 'row 2')![3] as number;
    expect(ratio(2200, 0, 70) / noted).toBeCloseTo(1, 2);
    expect(ratio(1783, 0, 0) / ratio(2200, 0, 70)).toBeCloseTo(1, 2);
    expect(ratio(2377, 0, 100) / ratio(2200, 0, 70)).toBeCloseTo(1, 2);
    expect(
      run('BURN.LOG.FIT', [
        ['diameter', 'length', 'gauge before', 'gauge after', 'temperature'],
        [5, 14, 900, 1000, 70],
      ])
        .flat()
        .filter((c) => typeof c === 'object' && c !== null),
    ).toHaveLength(1);
  });

  it('says what a log needs', () => {
    expect(message(run('BURN.LOG.FIT', [[4, 10, 6]]))).toMatch(
      /^log has no heading row; it needs columns headed job, name, operation, diameter/,
    );
    expect(
      message(
        run('BURN.LOG.FIT', [
          ['operation', 'diameter', 'length', 'rods used'],
          ['PINS', 4, 10, 6],
        ]),
      ),
    ).toMatch(/no row of log can be used; the first: log row 2: operation is "PINS"/);
  });

  it('fits several operations together', () => {
    const cells = run('BURN.LOG.FIT', [
      ['operation', 'diameter', 'length', 'hole', 'depth', 'thickness', 'rods used', 'oxygen used'],
      ['PIN', 4, 10, null, null, null, 6, 120],
      ['HOLE', null, null, 1.5, 6, null, 2, 40],
      ['CUT', null, 20, null, null, 2, 5, 110],
      ['STUD', 2, null, null, null, null, 1, 12],
    ]);
    expect(jobRows(cells)).toHaveLength(4);
    expect(rowOf(cells, 'oxygen burnt share')[5]).toBe('your log');
  });
});

describe('BURN.LOG.RANGE', () => {
  const NAMES = ['range of rods', 'range of oxygen', 'range of burning', 'range of crew time'];
  const ranges = run('BURN.LOG.RANGE', LOG);
  const low = (cells: Cell[][], heading: string): number =>
    cells[1]![cells[0]!.findIndex((h) => String(h).split(',')[0] === heading)] as number;
  const plan = (assume?: Cell[][]): Cell[][] => run('BURN.PIN.PLAN', 4, 10, undefined, undefined, undefined, assume);

  it('gives rows that work as assume: low and high move, and nothing else of a plan', () => {
    expect(ranges[0]).toEqual(run('BURN.ASSUMED')[0]);
    expect(ranges.slice(1, 5).map((row) => row[0])).toEqual(NAMES);
    for (const row of ranges.slice(1, 5))
      expect(row.slice(4, 7)).toEqual(['', 'your log', expect.stringMatching(/^your log: \d+ jobs$/)]);
    const [before, after] = [plan(), plan(ranges)];
    const by = rowOf(ranges, 'range of oxygen')[1] as number;
    const planned = low(before, 'oxygen');
    for (const end of ['oxygen low', 'oxygen high'])
      expect(Math.log(low(after, end) / planned)).toBeCloseTo(by * Math.log(low(before, end) / planned), 3);
    before[0]!.forEach((heading, i) => {
      if (/ (low|high)\b/.test(String(heading))) return;
      expect(after[1]![i], String(heading)).toEqual(before[1]![i]);
    });
  });

  it('brings along what assume changed besides, and says where that comes from a log', () => {
    const fit = run('BURN.LOG.FIT', LOG);
    const both = run('BURN.LOG.RANGE', LOG, fit);
    expect(rowOf(both, 'oxygen burnt share').slice(0, 4)).toEqual(rowOf(fit, 'oxygen burnt share').slice(0, 4));
    const told = (cells: Cell[][]): Cell[] =>
      cells.map((row) => row[0]!).filter((name) => String(name).startsWith('correlation of '));
    expect(told(both)).toEqual(told(fit));
    expect(both.find((row) => row[1] === 'note')?.at(-1)).toContain('if from these same jobs');
    expect(run('BURN.LOG.RANGE', LOG, ranges).slice(1, 5)).toEqual(ranges.slice(1, 5));
    expect(plan(both)[1]).not.toEqual(plan(fit)[1]);
  });

  it('refuses fewer than nine jobs, and names the figure that has fewer', () => {
    expect(message(run('BURN.LOG.RANGE', LOG.slice(0, 9)))).toBe(
      'fewer than nine jobs: the log cannot vouch for the range',
    );
    const some = LOG.map((row, i) => (i < 15 ? row : row.map((cell, k) => (k === 4 ? null : cell)))).slice(0, 21);
    const few = run(
      'BURN.LOG.RANGE',
      some.map((row, i) => (i === 0 || i > 8 ? row.map((cell, k) => (i > 0 && k === 6 ? null : cell)) : row)),
    );
    expect(rowOf(few, 'range of crew time')).toBeUndefined();
    expect(few.find((row) => row[1] === 'crew')?.at(-1)).toContain('fewer than nine jobs');
    expect(rowOf(few, 'range of oxygen')[1]).toBeGreaterThan(0);
    expect(
      message(
        run('BURN.LOG.RANGE', [
          ['diameter', 'length', 'rods used'],
          [4, 10, null],
        ]),
      ),
    ).toContain('log notes no rods, oxygen, burning minutes or crew minutes');
    // No widening brings an estimate that is certain to them.
    const certain = run(
      'BURN.LOG.RANGE',
      LOG.map((row, i) => (i === 0 ? row : row.map((c, k) => (k === 4 ? 1e4 * (c as number) : c)))),
    );
    expect(certain.find((row) => row[1] === 'oxygen')?.at(-1)).toContain('fit them with BURN.LOG.FIT first');
  });
});

describe('BURN.LOG.SCORE', () => {
  it('scores each figure that is noted, and better after a fit', () => {
    const before = run('BURN.LOG.SCORE', LOG);
    expect(before.slice(1).map((row) => row[0])).toEqual(['rods', 'oxygen', 'burning', 'crew']);
    const fit = run('BURN.LOG.FIT', LOG);
    const after = run('BURN.LOG.SCORE', LOG, fit);
    expect(Math.abs(Math.log(rowOf(after, 'oxygen')[2] as number))).toBeLessThan(
      Math.abs(Math.log(rowOf(before, 'oxygen')[2] as number)),
    );
    expect(rowOf(after, 'note').at(-1)).toContain('if from these same jobs the score flatters');
    for (const row of before.slice(1))
      for (const cell of row.slice(3, 11)) expect((cell as number) >= 0 && (cell as number) <= 100).toBe(true);
  });

  it('says where the ratios of the log alone come nearer, and what range it vouches for', () => {
    const heading = run('BURN.LOG.SCORE', LOG)[0]!;
    const of = (cells: readonly (readonly Cell[])[], name: string): Cell =>
      rowOf(cells, 'oxygen')[heading.findIndex((h) => String(h).replace(/, %$/, '') === name)]!;
    const twice = LOG.map((row, i) => (i === 0 ? row : row.map((c, k) => (k === 4 ? 2 * (c as number) : c))));
    const [plain, off] = [run('BURN.LOG.SCORE', LOG), run('BURN.LOG.SCORE', twice)];
    expect(of(off, 'skill') as number).toBeLessThan(Math.min(0, of(plain, 'skill') as number));
    expect(of(off, 'note')).toContain('the estimates lose to your own jobs');
    // Twice as much noted is vouched for as twice as much.
    expect((of(off, 'vouched from') as number) / (of(plain, 'vouched from') as number)).toBeCloseTo(2, 1);
    expect(of(run('BURN.LOG.SCORE', LOG.slice(0, 9)), 'note')).toContain('the log cannot vouch for the range');
  });

  it('says when estimates run low, and that nothing is noted', () => {
    const high = LOG.map((row, i) => (i === 0 ? row : row.map((c, k) => (k === 4 ? 3 * (c as number) : c))));
    expect(rowOf(run('BURN.LOG.SCORE', high), 'oxygen')[11]).toMatch(
      /^estimates run low: the typical job took \d+% more, beyond chance$/,
    );
    expect(
      message(
        run('BURN.LOG.SCORE', [
          ['diameter', 'length', 'rods used'],
          [4, 10, null],
        ]),
      ),
    ).toContain('log notes no rods, oxygen, burning minutes or crew minutes');
    expect(rowOf(run('BURN.LOG.SCORE', LOG.slice(0, 4)), 'oxygen')[11]).toBe('too few jobs to tell');
  });
});
