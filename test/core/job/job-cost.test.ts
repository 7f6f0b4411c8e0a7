import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobCost, type CostLine, type Prices } from '../../../src/core/job/job-cost.ts';
import type { PlanRow } from '../../../src/core/job/plan-row.ts';
import { operationOf } from '../../../src/core/operations/all.ts';
import { SCF } from '../../../src/core/units/quantities.ts';

const basis = new Basis(Assumptions.defaults());
const MINUTE = 60;
const row = (rod: string, rods: number, scf: number, crewMinutes: number, cylinders = 1): PlanRow => ({
  item: '1',
  rod,
  rods: { value: rods, low: rods - 1, high: rods + 3 },
  oxygen: { value: scf * SCF, low: 0.8 * scf * SCF, high: 1.5 * scf * SCF },
  crew: { value: crewMinutes * MINUTE, low: 0.9 * crewMinutes * MINUTE, high: 1.4 * crewMinutes * MINUTE },
  burnTime: 8 * MINUTE,
  cylinders,
  cooling: 0,
  operation: operationOf('PIN'),
});
/** Two pins: 16 rods of two sizes, 300 scf, 2 cylinders, 150 minutes. */
const PLAN = [row('3/8 x 36', 10, 200, 90), row('1/4 x 24', 6, 100, 60)];
const prices = (
  lines: Partial<
    Record<'oxygen' | 'cylinders' | 'cylinder rental' | 'crew' | 'plates' | 'ram hire' | 'mobilisation', number>
  >,
  more: Partial<Prices> = {},
): Prices => ({
  lines: new Map(Object.entries(lines)) as Prices['lines'],
  rods: new Map(),
  others: [],
  shares: new Map(),
  ...more,
});
const line = (lines: readonly CostLine[], name: string): CostLine => lines.find((l) => l.name === name)!;

describe('the cost of a job', () => {
  it('is quantity times price, as worked by hand', () => {
    const lines = jobCost(
      PLAN,
      prices(
        { oxygen: 0.5 / SCF, 'cylinder rental': 12, crew: 180 / 3600, plates: 15, 'ram hire': 250, mobilisation: 900 },
        {
          rods: new Map([
            ['3/8 x 36', 11],
            ['1/4', 7],
          ]),
          others: [{ name: 'other permit', amount: 120 }],
          shares: new Map([
            ['contingency', 0.1],
            ['margin', 0.2],
          ]),
        },
      ),
      basis,
    );
    const amount = (name: string): number => line(lines, name).amount?.value ?? NaN;
    expect(amount('rod 3/8 x 36')).toBe(110);
    expect(amount('rod 1/4 x 24')).toBe(42);
    expect(amount('oxygen')).toBeCloseTo(150, 9);
    expect(amount('cylinder rental')).toBe(24); // 2 cylinders, 1 day
    expect(amount('crew')).toBeCloseTo(450, 9); // 2.5 h
    expect(amount('plates')).toBe(60); // 2 a pin
    expect(amount('ram hire')).toBe(250);
    expect(amount('mobilisation')).toBe(900);
    expect(amount('other permit')).toBe(120);
    const subtotal = 110 + 42 + 150 + 24 + 450 + 60 + 250 + 900 + 120;
    expect(amount('subtotal')).toBeCloseTo(subtotal, 9);
    expect(amount('contingency')).toBeCloseTo(0.1 * subtotal, 9);
    expect(amount('cost')).toBeCloseTo(1.1 * subtotal, 9);
    expect(amount('price')).toBeCloseTo((1.1 * subtotal) / 0.8, 9);
    expect(amount('margin') / amount('price')).toBeCloseTo(0.2, 12);
    expect(line(lines, 'subtotal').note).toBe('');
  });

  it('tells a margin from a mark-up', () => {
    const price = (share: 'margin' | 'mark-up'): number =>
      line(jobCost(PLAN, prices({ mobilisation: 1000 }, { shares: new Map([[share, 0.25]]) }), basis), 'price').amount
        ?.value ?? NaN;
    expect(price('mark-up')).toBe(1250);
    expect(price('margin')).toBeCloseTo(1000 / 0.75, 9);
    const lines = jobCost(PLAN, prices({ mobilisation: 1000 }, { shares: new Map([['mark-up', 0.25]]) }), basis);
    expect(line(lines, 'mark-up').note).toContain('a share of the cost');
    expect(line(jobCost(PLAN, prices({ mobilisation: 1000 }), basis), 'price').note).toBe('no margin or mark-up given');
  });

  it('names lines without a price and leaves them out of the sum', () => {
    const lines = jobCost(PLAN, prices({ crew: 0.05 }), basis);
    expect(line(lines, 'subtotal').note).toBe('without rod 3/8 x 36, rod 1/4 x 24, oxygen: no price given');
    expect(line(lines, 'rod 3/8 x 36').amount).toBeUndefined();
    expect(line(lines, 'subtotal').amount?.value).toBeCloseTo(450, 9);
  });

  it('takes any rod at the price of "rod" where neither name nor size is priced', () => {
    const lines = jobCost(
      PLAN,
      prices(
        {},
        {
          rods: new Map([
            ['', 9],
            ['1/4 x 24', 6],
          ]),
        },
      ),
      basis,
    );
    expect(line(lines, 'rod 3/8 x 36').amount?.value).toBe(90);
    expect(line(lines, 'rod 1/4 x 24').amount?.value).toBe(36);
  });

  it("has low and high from the plan, in order, with each item's own scatter added up in squares", () => {
    const lines = jobCost(PLAN, prices({ oxygen: 1 / SCF, crew: 1 / 60 }), basis);
    for (const l of lines)
      if (l.amount) expect(l.amount.low <= l.amount.value && l.amount.value <= l.amount.high, l.name).toBe(true);
    const oxygen = line(lines, 'oxygen').amount!;
    expect(oxygen.low).toBeGreaterThan(0.8 * 300);
    expect(oxygen.high).toBeLessThan(1.5 * 300);
    const total = line(lines, 'cost').amount!;
    expect(total.low).toBeCloseTo(oxygen.low + line(lines, 'crew').amount!.low, 9);
  });

  it('counts days of rental by the day length and says when oxygen is priced twice', () => {
    const long = Array.from({ length: 8 }, () => row('3/8 x 36', 10, 200, 90)); // 12 h: 2 days of 8 h
    const lines = jobCost(long, prices({ 'ram hire': 250, oxygen: 1, cylinders: 30 }), basis);
    expect(line(lines, 'ram hire').quantity).toBe(2);
    expect(line(lines, 'cylinders').quantity).toBe(8);
    expect(line(lines, 'oxygen').note).toContain('both count');
    const short = new Basis(Assumptions.from([{ name: 'day length', value: 4 * 3600, kind: 'your value' }]));
    expect(line(jobCost(long, prices({ 'ram hire': 250 }), short), 'ram hire').quantity).toBe(3);
  });

  it('keeps the high unknown where the plan has none, but for what costs nothing', () => {
    const bad = [{ ...PLAN[0]!, oxygen: { ...PLAN[0]!.oxygen, high: Infinity } }];
    const lines = jobCost(bad, prices({ oxygen: 1 / SCF }), basis);
    expect(line(lines, 'oxygen').amount?.high).toBe(Infinity);
    expect(line(lines, 'subtotal').note).toContain('no high');
    expect(line(jobCost(bad, prices({ oxygen: 0 }), basis), 'subtotal').amount?.high).toBe(0);
  });

  it('counts plates for pins only', () => {
    const hole: PlanRow = { ...PLAN[0]!, operation: operationOf('HOLE') };
    expect(line(jobCost([...PLAN, hole], prices({ plates: 10 }), basis), 'plates').quantity).toBe(4);
  });
});
