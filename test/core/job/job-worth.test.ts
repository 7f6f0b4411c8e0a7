import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobSpending, type Prices } from '../../../src/core/job/job-cost.ts';
import type { Job } from '../../../src/core/job/job-list.ts';
import { jobWorth, type JobWorth } from '../../../src/core/job/job-worth.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { SCF } from '../../../src/core/units/quantities.ts';
import { jobWith } from './listed.ts';
import { sizePin } from './simulated-log.ts';

const HOUR = 3600;
const CREWING = { crews: 1, shift: 10 * HOUR };
const priced = (times = 1): Prices => ({
  lines: new Map([
    ['oxygen', (times * 0.5) / SCF],
    ['crew', (times * 180) / HOUR],
  ]),
  rods: new Map([['', times * 9]]),
  others: [],
  shares: new Map(),
  currency: '',
});
const jobOn = (...changes: readonly Override[]): Job => {
  const basis = new Basis(Assumptions.from(changes));
  return jobWith([sizePin(4, 10, '3/8 x 36', basis), sizePin(3, 8, '1/4 x 24', basis)], basis, [2, 3]);
};
const certain = (job: Job, name: 'oxygen burnt share' | 'item scatter'): Override => {
  const { value } = job.basis.a.inForce(name);
  return { name, value, low: value, high: value, kind: 'your value' };
};
const worth = (job: Job, prices = priced()): JobWorth => jobWorth(job, prices, 0.9, CREWING);
const JOB = jobOn();

describe('what it is worth to measure', () => {
  it('is less for one assumption than for everything, best first', () => {
    const { each, everything } = worth(JOB);
    expect(each.length).toBeGreaterThan(2);
    expect(each[0]!.worth).toBeLessThan(everything);
    expect(each.map((w) => w.worth)).toEqual(each.map((w) => w.worth).sort((x, y) => y - x));
    for (const w of each) expect(w.share).toBeCloseTo(w.worth / everything, 12);
  });

  it('of everything is near that of a normal cost', () => {
    // Newsvendor with a normal demand: the loss is sd phi(z) (1 + (1 - c)/c), z the quantile of c.
    const { draws } = jobSpending(JOB, priced(), 0.9, CREWING);
    const [low = NaN, high = NaN] = drawPercentiles(draws, [0.1, 0.9]);
    const deviation = (high - low) / (2 * 1.281552);
    const loss = (deviation * Math.exp(-(1.281552 ** 2) / 2)) / Math.sqrt(2 * Math.PI) / 0.9;
    expect(worth(JOB).everything / loss).toBeGreaterThan(0.85);
    // Skewed to the dear side, it is more.
    expect(worth(JOB).everything / loss).toBeLessThan(1.4);
  });

  it('grows with the prices, and names what it was before', () => {
    const [one, three] = [worth(JOB), worth(JOB, priced(3))];
    expect(three.everything / one.everything).toBeCloseTo(3, 9);
    expect(three.each.map((w) => w.names)).toEqual(one.each.map((w) => w.names));
  });

  it('is nothing for what is known, which leaves less to be known', () => {
    const known = worth(jobOn(certain(JOB, 'oxygen burnt share')));
    expect(worth(JOB).each.flatMap((w) => w.names)).toContain('oxygen burnt share');
    expect(known.each.flatMap((w) => w.names)).not.toContain('oxygen burnt share');
    expect(known.everything).toBeLessThan(worth(JOB).everything);
  });

  it('is what the loss falls by where the assumption is known, taken at many values of it', () => {
    const { worth: claimed } = worth(JOB).each.find(({ names }) => names[0] === 'oxygen burnt share')!;
    const { low, value, high } = JOB.basis.a.inForce('oxygen burnt share');
    // P10, P30, P50, P70, P90 of a distribution near normal, five equal shares of it.
    const between = [low, value - 0.41 * (value - low), value, value + 0.41 * (high - value), high];
    const left = between.map(
      (at) => worth(jobOn({ name: 'oxygen burnt share', value: at, low: at, high: at, kind: 'your value' })).everything,
    );
    const expected = worth(JOB).everything - left.reduce((sum, x) => sum + x, 0) / left.length;
    expect(claimed / expected).toBeGreaterThan(0.75);
    expect(claimed / expected).toBeLessThan(1.33);
  });

  it('is nothing where nothing has a price', () => {
    expect(worth(JOB, { ...priced(), lines: new Map([['oxygen', 0]]), rods: new Map() })).toEqual({
      each: [],
      everything: 0,
    });
  });
});
