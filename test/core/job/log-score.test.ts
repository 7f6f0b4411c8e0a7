import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { logFit } from '../../../src/core/job/log-fit.ts';
import type { LogJob } from '../../../src/core/job/log-job.ts';
import { logScore, type ChannelScore, type Verdict } from '../../../src/core/job/log-score.ts';
import { seeded, type Seeded } from '../../../src/core/spread/seeded.ts';
import { SHARED, drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { PIN, STEEL, drawBurningWorld, randomPins, simulateLog, type Truth } from './simulated-log.ts';

const basis = new Basis(Assumptions.defaults());
const scoreOf = (scores: readonly ChannelScore[], channel: ChannelScore['channel']): ChannelScore =>
  scores.find((s) => s.channel === channel)!;
const FACTORS = drawnFactors(
  PIN,
  simulateLog(randomPins(1, seeded(1)), {}, seeded(1))[0]!.sizing.rod.rod,
  STEEL,
  basis.a,
);
const worldOf = (random: Seeded): Truth => drawBurningWorld(FACTORS, random, basis);
const times = (job: LogJob, by: number): LogJob => ({
  ...job,
  noted: { ...job.noted, oxygen: by * (job.noted.oxygen ?? NaN) },
});

/** Factors known to within little, as after a fit to many jobs. */
function known(truth: Truth): Basis {
  const near = Object.entries(truth).map(([name, value]): Override => ({
    name: name as never,
    value,
    low: 0.985 * value,
    high: 1.015 * value,
    kind: 'your value',
  }));
  return new Basis(Assumptions.from(near));
}

describe('the score of a log', () => {
  it('finds logs honest that come from the ranges themselves', () => {
    const logs = 60;
    const verdicts: Verdict[] = [];
    let inside = 0;
    for (let i = 0; i < logs; i++) {
      const random = seeded(400 + i);
      const scores = logScore(simulateLog(randomPins(15, random), worldOf(random), random, undefined, basis), basis);
      verdicts.push(...scores.map((s) => s.verdict));
      inside += scoreOf(scores, 'oxygen').inside;
    }
    // Three tests of 2 % each a line.
    expect(verdicts.filter((v) => v === 'as claimed').length / verdicts.length).toBeGreaterThan(0.88);
    // Over many crews eight jobs in ten lie inside; crews differ, so that the standard error over 60 logs is about 4 %.
    expect(Math.abs(inside / logs - 0.8)).toBeLessThan(0.12);
  });

  it('says that estimates run low, high, too narrow or too wide', () => {
    const usual = (...names: readonly Parameters<Assumptions['value']>[0][]): Truth =>
      Object.fromEntries(names.map((name) => [name, basis.a.value(name)]));
    const truth = usual('oxygen burnt share', 'rod feed ratio');
    const sure = known({ ...truth, ...usual(...SHARED) });
    const random = seeded(31);
    const pins = randomPins(40, random);
    const jobs = simulateLog(pins, truth, random, undefined, sure);
    const verdict = (list: readonly LogJob[], b = sure): Verdict => scoreOf(logScore(list, b), 'oxygen').verdict;
    expect(verdict(jobs)).toBe('as claimed');
    expect(verdict(jobs.map((job) => times(job, 1.3)))).toBe('too low');
    expect(verdict(jobs.map((job) => times(job, 0.75)))).toBe('too high');
    expect(verdict(jobs.map((job, i) => times(job, i % 2 === 0 ? 1.35 : 0.74)))).toBe('too narrow');
    const quiet = simulateLog(
      pins,
      truth,
      random,
      { rods: 0.001, oxygen: 0.001, burning: 0.001, crew: 0.001 },
      new Basis(Assumptions.from([{ name: 'item scatter', value: 1, low: 0.999, high: 1.001, kind: 'your value' }])),
    );
    expect(verdict(quiet)).toBe('too wide');
    expect(verdict(jobs.slice(0, 4))).toBe('too few jobs');
  });

  it('counts shares under low, middle and high by hand', () => {
    const random = seeded(32);
    const jobs = simulateLog(randomPins(10, random), {}, random).map((job) => ({
      ...job,
      noted: { ...job.noted, burning: undefined, crew: undefined },
    }));
    const scores = logScore(
      [...jobs.slice(0, 5).map((job) => times(job, 0.01)), ...jobs.slice(5).map((job) => times(job, 100))],
      basis,
    );
    expect(scores.map((s) => s.channel)).toEqual(['rods', 'oxygen']);
    expect(scoreOf(scores, 'oxygen')).toMatchObject({
      jobs: 10,
      underLow: 0.5,
      underMiddle: 0.5,
      underHigh: 0.5,
      inside: 0,
    });
  });

  it('is little moved by one wild job', () => {
    const random = seeded(33);
    const jobs = simulateLog(randomPins(25, random), {}, random);
    const before = scoreOf(logScore(jobs, basis), 'oxygen');
    const after = scoreOf(
      logScore(
        jobs.map((job, i) => (i === 3 ? times(job, 20) : job)),
        basis,
      ),
      'oxygen',
    );
    expect(Math.abs(after.bias / before.bias - 1)).toBeLessThan(0.05);
    expect(after.verdict).toBe(before.verdict);
  });

  it('improves where the assumptions were fitted to other jobs of the same crew', () => {
    const random = seeded(34);
    const truth: Truth = {
      // As far above the default as a good crew may be.
      'oxygen burnt share': 0.5,
      'rod feed ratio': 0.42,
      'flow factor': 0.82,
      'burning duty': 0.58,
    };
    const fit = logFit(simulateLog(randomPins(40, random), truth, random), basis);
    const later = simulateLog(randomPins(40, random), truth, random);
    const fitted = new Basis(
      Assumptions.from(
        fit.factors.map((f): Override => ({
          name: f.name,
          value: f.range.value,
          low: f.range.low,
          high: f.range.high,
          kind: 'your log',
        })),
      ),
    );
    const sizedAfter = later.map((job) => ({
      ...job,
      // What is worked out when it is asked for goes along, as a copy would leave it behind.
      sizing: Object.create(job.sizing, {
        flow: { value: job.sizing.flow * fitted.a.value('flow factor') },
      }) as typeof job.sizing,
    }));
    const [before, after] = [logScore(later, basis), logScore(sizedAfter, fitted)];
    for (const channel of ['oxygen', 'rods', 'burning', 'crew'] as const) {
      // Standard error of the median of 40 jobs, and that of the fit: together about 0.04 for crew minutes.
      expect(Math.abs(Math.log(scoreOf(after, channel).bias)), channel).toBeLessThan(0.1);
      expect(scoreOf(after, channel).inside, channel).toBeGreaterThan(0.65);
      expect(scoreOf(after, channel).inside, channel).toBeLessThanOrEqual(1);
      // Fitted factors come apart as independent rows, so that estimates made from them stand wider than the log knows.
      expect(['as claimed', 'too wide'], channel).toContain(scoreOf(after, channel).verdict);
    }
    expect(Math.abs(Math.log(scoreOf(before, 'oxygen').bias))).toBeGreaterThan(0.15);
  });

  it('gives nothing where nothing is noted', () => {
    expect(logScore([], basis)).toEqual([]);
  });

  it('comes as near as the ratios of the other jobs where the factors are known, and loses to them where it is off by half', () => {
    const logs = 12;
    let [close, off, own] = [0, 0, 0];
    for (let i = 0; i < logs; i++) {
      const random = seeded(900 + i);
      const truth = worldOf(random);
      const jobs = simulateLog(randomPins(12, random), truth, random, undefined, basis);
      const near = scoreOf(logScore(jobs, known(truth)), 'oxygen');
      const far = scoreOf(
        logScore(
          jobs.map((job) => times(job, 1.5)),
          known(truth),
        ),
        'oxygen',
      );
      close += near.crps / logs;
      own += near.crpsOfOwn / logs;
      off += far.crps / far.crpsOfOwn / logs;
    }
    // Eleven ratios know the middle nearly as well as who knows the factors; neither knows more than the scatter.
    expect(close / own).toBeLessThan(1.1);
    expect(close / own).toBeGreaterThan(0.9);
    expect(off).toBeGreaterThan(1.5);
  });

  it('vouches for a range from nine jobs on, which holds the middle of the ratios', () => {
    const random = seeded(77);
    const jobs = simulateLog(randomPins(9, random), worldOf(random), random, undefined, basis);
    const [low, high] = scoreOf(logScore(jobs, basis), 'oxygen').vouched!;
    const { bias } = scoreOf(logScore(jobs, basis), 'oxygen');
    expect(low).toBeLessThan(bias);
    expect(high).toBeGreaterThan(bias);
    expect(scoreOf(logScore(jobs.slice(0, 8), basis), 'oxygen').vouched).toBeUndefined();
  });
});
