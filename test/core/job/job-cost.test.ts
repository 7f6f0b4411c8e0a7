import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobCost, jobCostWorking, type CostLine, type Prices } from '../../../src/core/job/job-cost.ts';
import type { Job } from '../../../src/core/job/job-list.ts';
import { jobSchedule } from '../../../src/core/job/job-schedule.ts';
import { jobStock } from '../../../src/core/job/job-stock.ts';
import { SCF } from '../../../src/core/units/quantities.ts';
import { jobWith } from './listed.ts';
import { sizePin } from './simulated-log.ts';

const basis = new Basis(Assumptions.defaults());
const HOUR = 3600;
const CREWING = { crews: 1, shift: 8 * HOUR };
const JOB = jobWith(
  [sizePin(4, 10, '3/8 x 36', basis), sizePin(3, 8, '1/4 x 24', basis), sizePin(5, 14, '3/8 x 36', basis)],
  basis,
  [1, 2, 1],
);
const prices = (lines: Readonly<Record<string, number>>, more: Partial<Prices> = {}): Prices => ({
  lines: new Map(Object.entries(lines)) as unknown as Prices['lines'],
  rods: new Map(),
  others: [],
  shares: new Map(),
  currency: '',
  ...more,
});
const cost = (p: Prices, confidence = 0.9, job: Job = JOB): readonly CostLine[] => jobCost(job, p, confidence, CREWING);
const line = (lines: readonly CostLine[], name: string): CostLine => lines.find((l) => l.name === name)!;
const load = (name: string, confidence = 0.9): number =>
  jobStock(JOB, confidence).lines.find((l) => l.name === name)!.load;

describe('the cost of a job', () => {
  it('is what is loaded and scheduled times its price, then the sums, as worked by hand', () => {
    const lines = cost(
      prices(
        {
          oxygen: 0.5 / SCF,
          'cylinder rental': 12,
          crew: 180 / HOUR,
          standby: 90 / HOUR,
          plates: 15,
          'ram hire': 250,
          mobilisation: 900,
        },
        {
          rods: new Map([
            ['3/8 x 36', 11],
            ['1/4', 7],
          ]),
          others: [{ name: 'other permit', amount: 120 }],
          shares: new Map([
            ['contingency', 0.1],
            ['margin', 0.2],
            ['tax', 0.07],
          ]),
        },
      ),
    );
    const amount = (name: string): number => line(lines, name).amount?.value ?? NaN;
    const { shifts, standby } = jobSchedule(JOB, CREWING);
    const parts = {
      'rod 3/8 x 36': 11 * load('rods 3/8 x 36'),
      'rod 1/4 x 24': 7 * load('rods 1/4 x 24'),
      oxygen: (0.5 * load('oxygen')) / SCF,
      'cylinder rental': 12 * load('cylinders') * shifts,
      'crew work': (180 * load('crew work')) / HOUR,
      standby: (90 * standby) / HOUR,
      plates: 15 * load('plates'),
      'ram hire': 250 * shifts,
      mobilisation: 900,
      'other permit': 120,
    };
    for (const [name, money] of Object.entries(parts)) expect(amount(name), name).toBeCloseTo(money, 9);
    const subtotal = Object.values(parts).reduce((a, b) => a + b, 0);
    expect(amount('subtotal')).toBeCloseTo(subtotal, 9);
    expect(amount('contingency')).toBeCloseTo(0.1 * subtotal, 9);
    expect(amount('price')).toBeCloseTo((1.1 * subtotal) / 0.8, 9);
    expect(amount('margin') / amount('price')).toBeCloseTo(0.2, 12);
    expect(amount('total')).toBeCloseTo(1.07 * amount('price'), 9);
    expect(line(lines, 'subtotal').note).toMatch(/^quoted: what is loaded for 90%; used low, used high: /);
  });

  it('tells how far the low and the high of the subtotal are known from so many draws', () => {
    const { note } = line(cost(prices({ crew: 0.05 })), 'subtotal');
    const [low = NaN, high = NaN] = [...note.matchAll(/\+- ([\d.]+)%/g)].map(([, percent]) => Number(percent));
    expect(low).toBeGreaterThan(0.3);
    expect(low).toBeLessThan(5);
    expect(high).toBeGreaterThan(0.3);
    expect(high).toBeLessThan(10);
    // Hours that are priced alike in every draw have no range.
    expect(line(cost(prices({ mobilisation: 1000 })), 'subtotal').note).not.toContain('+-');
  });

  it('tells a margin from a mark-up', () => {
    const of = (share: 'margin' | 'mark-up'): readonly CostLine[] =>
      cost(prices({ mobilisation: 1000 }, { shares: new Map([[share, 0.25]]) }));
    expect(line(of('mark-up'), 'price').amount?.value).toBe(1250);
    expect(line(of('margin'), 'price').amount?.value).toBeCloseTo(1000 / 0.75, 9);
    expect(line(of('mark-up'), 'mark-up').note).toContain('a share of the cost');
    expect(line(cost(prices({ mobilisation: 1000 })), 'price').note).toBe('no margin or mark-up given');
  });

  it('names lines without a price and leaves them out of the sum', () => {
    const lines = cost(prices({ crew: 0.05 }));
    expect(line(lines, 'subtotal').note).toMatch(
      /^without rod 3\/8 x 36, rod 1\/4 x 24, oxygen: no price given; quoted: /,
    );
    expect(line(lines, 'rod 3/8 x 36').amount).toBeUndefined();
    expect(line(lines, 'standby').note).toBe('priced as the crew');
    expect(line(lines, 'subtotal').amount?.value).toBeCloseTo(
      line(lines, 'crew work').amount!.value + line(lines, 'standby').amount!.value,
      9,
    );
  });

  it('takes any rod at the price of "rod" where neither name nor size is priced', () => {
    const rods = new Map([
      ['', 9],
      ['1/4 x 24', 6],
    ]);
    const lines = cost(prices({}, { rods }));
    expect(line(lines, 'rod 3/8 x 36').price).toBe(9);
    expect(line(lines, 'rod 1/4 x 24').price).toBe(6);
  });

  it('has low and high of its sums by the same draws: nearer together than those of its lines added up', () => {
    const lines = cost(prices({ oxygen: 1 / SCF, crew: 1 / 60 }, { rods: new Map([['', 30]]) }), 0.5);
    const parts = lines
      .slice(
        0,
        lines.findIndex((l) => l.name === 'subtotal'),
      )
      .flatMap((l) => l.amount ?? []);
    const sum = (of: (a: (typeof parts)[number]) => number): number => parts.reduce((all, a) => all + of(a), 0);
    const { usedLow, usedHigh, value } = line(lines, 'subtotal').amount!;
    expect(usedLow).toBeGreaterThan(sum((a) => a.usedLow));
    expect(usedHigh).toBeLessThan(sum((a) => a.usedHigh));
    expect(usedLow).toBeLessThan(value);
    expect(usedHigh).toBeGreaterThan(value);
  });

  it('keeps low and high whatever the confidence, and quotes more for more of it', () => {
    const p = prices({ oxygen: 1 / SCF, crew: 1 / 60, 'cylinder rental': 10 });
    const [half, most] = [line(cost(p, 0.5), 'price').amount!, line(cost(p, 0.95), 'price').amount!];
    expect([most.usedLow, most.usedHigh]).toEqual([half.usedLow, half.usedHigh]);
    expect(most.value).toBeGreaterThan(half.value);
    // Quoted for 95 % of the jobs: one in ten takes more than the high, one in twenty more than the quote.
    expect(most.value).toBeGreaterThan(most.usedHigh);
  });

  it('pays crews by the day where a day is priced, and says when oxygen or crew is priced twice', () => {
    const { crewShifts } = jobSchedule(JOB, { crews: 2, shift: 3 * HOUR });
    const lines = jobCost(JOB, prices({ 'crew day': 1500, oxygen: 1, cylinders: 30 }), 0.9, {
      crews: 2,
      shift: 3 * HOUR,
    });
    expect(line(lines, 'crew days').quantity).toBe(crewShifts);
    expect(lines.map((l) => l.name)).not.toContain('standby');
    expect(line(lines, 'oxygen').note).toContain('both count');
    expect(line(cost(prices({ crew: 0.05, 'crew day': 1500 })), 'crew days').note).toContain('both count');
  });

  it('keeps the high unknown where the heat often does not suffice, but for what costs nothing', () => {
    const cold = new Basis(
      Assumptions.from([{ name: 'oxygen burnt share', value: 0.16, low: 0.08, high: 0.24, kind: 'your value' }]),
    );
    const job = jobWith([sizePin(4, 10, '3/8 x 36', cold)], cold);
    const lines = cost(prices({ oxygen: 1 / SCF }), 0.3, job);
    expect(line(lines, 'oxygen').amount?.usedHigh).toBe(Infinity);
    expect(line(lines, 'subtotal').note).toContain('no used high');
    expect(line(cost(prices({ oxygen: 0 }), 0.3, job), 'subtotal').amount?.usedHigh).toBe(0);
  });

  it('shows in its working what it gives', () => {
    const p = prices({ oxygen: 1 / SCF, crew: 1 / 60 }, { shares: new Map([['tax', 0.2]]) });
    expect(jobCostWorking(JOB, p, 0.9, CREWING).value).toBeCloseTo(line(cost(p), 'total').amount!.value, 9);
  });
});
