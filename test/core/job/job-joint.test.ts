import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobCost, type Prices } from '../../../src/core/job/job-cost.ts';
import { jobJoint, type JobJoint } from '../../../src/core/job/job-joint.ts';
import { jobSchedule } from '../../../src/core/job/job-schedule.ts';
import { SCF } from '../../../src/core/units/quantities.ts';
import { jobWith } from './listed.ts';
import { sizePin } from './simulated-log.ts';

const HOUR = 3600;
const CREWING = { crews: 1, shift: 10 * HOUR };
const PRICES: Prices = {
  lines: new Map([
    ['oxygen', 0.5 / SCF],
    ['crew', 180 / HOUR],
  ]),
  rods: new Map([['', 9]]),
  others: [],
  shares: new Map([['contingency', 0.1]]),
  currency: '',
};
const basis = new Basis(Assumptions.defaults());
const JOB = jobWith([sizePin(4, 10, '3/8 x 36', basis), sizePin(3, 8, '1/4 x 24', basis)], basis, [2, 3]);
const joint = (cost: number, time: number): JobJoint => jobJoint(JOB, PRICES, { cost, time }, 0.9, CREWING);
const subtotal = jobCost(JOB, PRICES, 0.9, CREWING).find(({ name }) => name === 'subtotal')!.amount!;

describe('the chance that cost and time hold', () => {
  it('is that of the cost alone where there is time enough, by the same draws as the cost', () => {
    const { asked } = joint(subtotal.usedHigh, 1000 * HOUR);
    expect(asked.timeHolds).toBe(1);
    expect(asked.costHolds).toBeCloseTo(0.9, 2);
    expect(asked.bothHold).toBe(asked.costHolds);
    expect(joint(subtotal.usedLow, 1000 * HOUR).asked.costHolds).toBeCloseTo(0.1, 2);
  });

  it('is less than that of either, and more than if they had nothing to do with each other', () => {
    const { planned } = joint(1, 1);
    const { asked } = joint(1.1 * planned.cost, 1.1 * planned.time);
    expect(asked.bothHold).toBeLessThan(Math.min(asked.costHolds, asked.timeHolds));
    expect(asked.bothHold).toBeGreaterThan(asked.costHolds * asked.timeHolds);
    // JCGM 101, 7.9: twice the standard deviation of a share counted over 1024 draws.
    expect(asked.within).toBeCloseTo(1.96 * Math.sqrt((asked.bothHold * (1 - asked.bothHold)) / 1024), 12);
  });

  it('never falls where there is more money or more time', () => {
    const { planned } = joint(1, 1);
    let before = 0;
    for (let k = 0.7; k < 1.8; k += 0.02) {
      const { bothHold } = joint(k * planned.cost, k * planned.time).asked;
      expect(bothHold).toBeGreaterThanOrEqual(before);
      before = bothHold;
    }
    expect(before).toBeGreaterThan(0.9);
  });

  it('is what each point of a frontier says, where less money means more time', () => {
    for (const { chance, points } of joint(1, 1).frontiers) {
      expect(points.length).toBeGreaterThan(1);
      points.forEach((point, i) => {
        expect(joint(point.cost, point.time).asked.bothHold).toBe(point.bothHold);
        expect(point.bothHold).toBeGreaterThanOrEqual(chance);
        expect(point.bothHold).toBeLessThan(chance + 0.003);
        expect(joint(point.cost * 0.98, point.time).asked.bothHold).toBeLessThan(chance);
        const next = points[i + 1];
        if (next) expect(next.cost < point.cost && next.time > point.time).toBe(true);
      });
    }
  });

  it('has the time of the schedule', () => {
    const { end, shifts } = jobSchedule(JOB, CREWING);
    expect(joint(1, 1).planned.time).toBe((shifts - 1) * CREWING.shift + end);
  });
});
