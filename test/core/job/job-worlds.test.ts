import { describe, expect, it } from 'vitest';
import { readList } from '../../../src/catalogue/read-list.ts';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { Job } from '../../../src/core/job/job-list.ts';
import { crewingOf, jobSchedule, type Schedule } from '../../../src/core/job/job-schedule.ts';
import { acrossWorlds } from '../../../src/core/job/job-worlds.ts';
import { drawPercentile } from '../../../src/core/spread/draw-percentile.ts';

const basis = new Basis(Assumptions.from([{ name: 'cooling method', word: 'air' }]));
const SHIFT = 8 * 3600;
const lasting = ({ shifts, end }: Schedule): number => (shifts - 1) * SHIFT + end;
const jobOf = (...sizes: readonly (readonly [number, number])[]): Job =>
  new Job(readList([['dia', 'length'], ...sizes], basis), basis);
const ENDS = [0.1, 0.5, 0.9] as const;
const JOBS: readonly (readonly (readonly [number, number])[])[] = [
  [[4, 10]],
  ...[11, 12, 13, 14].map(
    (length) =>
      [
        [4, 10],
        [3, 8],
        [5, length],
      ] as const,
  ),
  [
    [4, 10],
    [3, 8],
  ],
  [
    [6, 12],
    [3, 8],
    [5, 12],
  ],
  [
    [4, 8],
    [2, 6],
    [3, 9],
  ],
];

/** Every world laid out by itself. */
function exactly(job: Job, figure: (s: Schedule) => number): Float64Array {
  const { workTime, crewTime } = job.needs;
  const planned = crewTime.plain - workTime.plain;
  return workTime.draws.map((time, i) =>
    figure(jobSchedule(job, crewingOf(basis), time / workTime.plain, (crewTime.draws[i]! - time) / planned)),
  );
}

describe('a schedule in the worlds of the draws', () => {
  // A job that ends just about a break ends half an hour later in the next world: that may fall to either side.
  it.each(ENDS)('is near that of every world laid out by itself, where %d of the cases lie below', (p) => {
    const off = JOBS.map((sizes) => {
      const job = jobOf(...sizes);
      const [near, exact] = [acrossWorlds(job, crewingOf(basis), lasting), exactly(job, lasting)];
      const [ended, ends] = [drawPercentile(near, p), drawPercentile(exact, p)];
      expect(Math.abs(ended - ends)).toBeLessThan(0.03 * ends + 1800);
      return Math.abs(ended / ends - 1);
    });
    expect(off.reduce((sum, x) => sum + x, 0) / off.length).toBeLessThan(0.02);
  });

  it('has the cooling drawn: one pin in air is done later in more cases than its work alone would have it', () => {
    const job = jobOf([4, 10]);
    const { workTime } = job.needs;
    const workAlone = workTime.draws.map((time) => lasting(jobSchedule(job, crewingOf(basis), time / workTime.plain)));
    const drawn = acrossWorlds(job, crewingOf(basis), lasting);
    expect(drawPercentile(drawn, 0.9)).toBeGreaterThan(1.1 * drawPercentile(workAlone, 0.9));
  });

  it('are either done or without end: between two that are never done as well', () => {
    const job = jobOf([4, 10]);
    const crew = crewingOf(basis);
    const limit = drawPercentile(acrossWorlds(job, crew, lasting), 0.7);
    const times = acrossWorlds(job, crew, (laidOut) => (lasting(laidOut) > limit ? Infinity : lasting(laidOut)));
    expect(times.some((time) => time === Infinity)).toBe(true);
    expect(times.some((time) => Number.isNaN(time))).toBe(false);
  });
});
