import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobSchedule, stagesOf, type Schedule, type Slot } from '../../../src/core/job/job-schedule.ts';
import type { PlanRow } from '../../../src/core/job/plan-row.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { noiseHours } from '../../../src/core/safety/noise-hours.ts';
import { findNoiseRule } from '../../../src/core/safety/noise-rules.ts';
import { operationOf } from '../../../src/core/operations/all.ts';

const MINUTE = 60;
const HOUR = 3600;
/** Round figures: 10 before, 10 after, no pauses and no rod changes. */
const ROUND: readonly Override[] = [
  ...(['set-up time', 'plate time', 'push-out time', 'clean-up time'] as const).map((name) => ({
    name,
    value: 5 * MINUTE,
    kind: 'your value' as const,
  })),
  { name: 'burning duty', value: 1, kind: 'your value' },
  { name: 'rod change time', value: 0, kind: 'your value' },
];
const basisOf = (...more: readonly Override[]): Basis => new Basis(Assumptions.from([...ROUND, ...more]));
const certain = (value: number) => ({ value, low: value, high: value });
const pin = (item: string, burnMinutes: number, coolMinutes: number): PlanRow => ({
  item,
  rod: '3/8 x 36',
  rods: certain(5),
  oxygen: certain(4),
  crew: certain((20 + burnMinutes + coolMinutes) * MINUTE),
  burnTime: burnMinutes * MINUTE,
  cylinders: 1,
  cooling: coolMinutes * MINUTE,
  operation: operationOf('PIN'),
});
const watchOf = (s: Schedule): number => s.watch;

/** Every rule a schedule must keep. */
function check(schedule: Schedule, plan: readonly PlanRow[], crews: number, shift: number, basis: Basis): void {
  expect(new Set([...schedule.slots.map((s) => s.stages.item), ...schedule.left.map((s) => s.item)]).size).toBe(
    plan.length,
  );
  const rule = findNoiseRule(basis.a.word('noise rule'));
  const level = basis.a.value('burning noise') - basis.a.value('protector reduction');
  for (const s of schedule.slots) {
    expect(s.hotFrom - s.start).toBeCloseTo(s.stages.before, 6);
    expect(s.hotTo - s.hotFrom).toBeCloseTo(s.stages.hot, 6);
    expect(s.done - s.pushFrom).toBeCloseTo(s.stages.after, 6);
    expect(s.hotTo + watchOf(schedule), 'the fire watch ends within the shift').toBeLessThanOrEqual(shift + 1e-3);
    expect(s.done).toBeLessThanOrEqual(shift + 1e-3);
    expect(s.dose).toBeLessThanOrEqual(1 + 1e-6);
    if (s.pushShift === s.shift)
      expect(s.pushFrom, 'pressed out when cold').toBeGreaterThanOrEqual(s.hotTo + s.stages.cooling - 1e-3);
    else expect(s.pushShift).toBeGreaterThan(s.shift);
    expect(s.crew).toBeLessThanOrEqual(crews);
  }
  for (let crew = 1; crew <= crews; crew++) {
    const work = schedule.slots
      .filter((s) => s.crew === crew)
      .flatMap((s) => [
        { shift: s.shift, from: s.start, to: s.hotTo },
        { shift: s.pushShift, from: s.pushFrom, to: s.done },
      ]);
    work.sort((x, y) => x.shift - y.shift || x.from - y.from);
    work.forEach((w, i) => {
      const next = work[i + 1];
      if (next && next.shift === w.shift) expect(next.from, 'one thing at a time').toBeGreaterThanOrEqual(w.to - 1e-3);
    });
    for (let n = 1; n <= schedule.shifts; n++) {
      const burnt = schedule.slots
        .filter((s) => s.crew === crew && s.shift === n)
        .reduce((sum, s) => sum + s.stages.burning, 0);
      if (level >= rule.countedFrom)
        expect(burnt).toBeLessThanOrEqual(noiseHours(Math.max(30, level), rule) * (1 + 1e-6));
    }
  }
}

describe('the stages of a pin', () => {
  it('add up to the crew minutes of the plan, cooling being the rest where the plan does not say', () => {
    const [told] = stagesOf([pin('1', 8, 30)], basisOf());
    const [derived] = stagesOf([{ ...pin('1', 8, 30), cooling: undefined }], basisOf());
    expect(derived).toEqual(told);
    expect(told).toMatchObject({
      before: 10 * MINUTE,
      hot: 8 * MINUTE,
      burning: 8 * MINUTE,
      cooling: 30 * MINUTE,
      after: 10 * MINUTE,
      note: '',
    });
  });

  it('are shrunk with a note where the plan was made with other assumptions', () => {
    const [s] = stagesOf([{ ...pin('1', 8, 0), crew: certain(20 * MINUTE), cooling: undefined }], basisOf());
    expect(s?.note).toContain('give both the same assume');
    expect((s?.before ?? 0) + (s?.hot ?? 0) + (s?.after ?? 0)).toBeCloseTo(20 * MINUTE, 6);
  });

  it('of a hole have no plates and no pressing', () => {
    const [s] = stagesOf([{ ...pin('1', 8, 0), operation: operationOf('HOLE') }], basisOf());
    expect(s).toMatchObject({ before: 5 * MINUTE, after: 5 * MINUTE });
  });
});

describe('the schedule of a job', () => {
  it('burns the second pin while the first one cools', () => {
    const basis = basisOf();
    const plan = [pin('1', 10, 30), pin('2', 10, 30)];
    const s = jobSchedule(plan, 1, 8 * HOUR, basis);
    check(s, plan, 1, 8 * HOUR, basis);
    const [first, second] = s.slots as [Slot, Slot];
    expect(second.hotFrom).toBeLessThan(first.hotTo + first.stages.cooling);
    // By hand: burn 0-20 and 20-40, first cold at 50, second at 70; press 50-60 and 70-80.
    expect(s.end).toBeCloseTo(80 * MINUTE, 6);
    expect(s.idle).toBeCloseTo(20 * MINUTE, 6);
  });

  it('never ends before the work is done, and with no cooling ends just then', () => {
    const basis = basisOf();
    const plan = Array.from({ length: 5 }, (_, i) => pin(String(i + 1), 6 + i, 0));
    const s = jobSchedule(plan, 1, 10 * HOUR, basis);
    expect(s.end).toBeCloseTo((5 * 20 + 40) * MINUTE, 6);
    expect(s.idle).toBe(0);
  });

  it('is as short as the best order for a few pins, tried one by one', () => {
    const basis = basisOf();
    const random = seeded(12);
    const permutations = <T>(xs: readonly T[]): readonly (readonly T[])[] =>
      xs.length <= 1
        ? [xs]
        : xs.flatMap((x, i) => permutations([...xs.slice(0, i), ...xs.slice(i + 1)]).map((rest) => [x, ...rest]));
    let [ours, best] = [0, 0];
    for (let t = 0; t < 12; t++) {
      const plan = Array.from({ length: 4 }, (_, i) =>
        pin(String(i + 1), 4 + Math.round(20 * random.uniform()), Math.round(60 * random.uniform())),
      );
      ours += jobSchedule(plan, 1, 12 * HOUR, basis).end;
      best += Math.min(...permutations(plan).map((order) => jobSchedule(order, 1, 12 * HOUR, basis).end));
    }
    expect(ours / best).toBeLessThan(1.02);
  });

  it('keeps every rule on many pins, crews and shifts', () => {
    const random = seeded(13);
    for (let t = 0; t < 60; t++) {
      const basis = basisOf(
        { name: 'protector reduction', value: 25 * random.uniform(), kind: 'your value' },
        ...(t % 3 === 0 ? [{ name: 'noise rule', word: 'NIOSH' } as const] : []),
        ...(t % 4 === 0 ? [{ name: 'fire watch rule', word: 'OSHA' } as const] : []),
      );
      const plan = Array.from({ length: 1 + Math.floor(25 * random.uniform()) }, (_, i) =>
        pin(String(i + 1), 2 + 40 * random.uniform(), 120 * random.uniform()),
      );
      const crews = 1 + Math.floor(3 * random.uniform());
      const shift = (3 + 9 * random.uniform()) * HOUR;
      check(jobSchedule(plan, crews, shift, basis), plan, crews, shift, basis);
    }
  });

  it('needs no more shifts with two crews, or with longer shifts', () => {
    const basis = basisOf();
    const plan = Array.from({ length: 16 }, (_, i) => pin(String(i + 1), 10, 30));
    const one = jobSchedule(plan, 1, 5 * HOUR, basis);
    expect(one.shifts).toBeGreaterThan(1);
    expect(jobSchedule(plan, 2, 5 * HOUR, basis).shifts).toBeLessThan(one.shifts);
    expect(jobSchedule(plan, 1, 12 * HOUR, basis).shifts).toBeLessThan(one.shifts);
  });

  it('burns no more in a shift than the noise allows', () => {
    // OSHA at 110 dBA: half an hour (29 CFR 1910.95, Table G-16).
    const basis = basisOf(
      { name: 'burning noise', value: 110, kind: 'your value' },
      { name: 'protector reduction', value: 0, kind: 'your value' },
    );
    const plan = Array.from({ length: 6 }, (_, i) => pin(String(i + 1), 12, 0));
    const s = jobSchedule(plan, 1, 10 * HOUR, basis);
    check(s, plan, 1, 10 * HOUR, basis);
    expect(s.shifts).toBe(3);
    expect(s.noiseRule).toBe('OSHA');
    expect(s.bareDose).toBeCloseTo(0.8, 9);
  });

  it('leaves out a pin that fits no shift or no dose, and says why', () => {
    const basis = basisOf(
      { name: 'burning noise', value: 115, kind: 'your value' },
      { name: 'protector reduction', value: 0, kind: 'your value' },
    );
    const s = jobSchedule([pin('long', 10, 0), pin('loud', 16, 0), pin('good', 5, 0)], 1, 1.4 * HOUR, basis);
    expect(s.left.map((l) => [l.item, l.note])).toEqual([
      ['loud', expect.stringContaining('takes 1.43 h with its fire watch; does not fit a shift of 1.4 h')],
    ]);
    const t = jobSchedule([pin('loud', 16, 0), pin('good', 5, 0)], 1, 8 * HOUR, basis);
    expect(t.left.map((l) => l.note)).toEqual([
      expect.stringContaining('burns for 16.2 min; OSHA allows one burner 15 min in a shift'),
    ]);
    expect(t.slots.map((x) => x.stages.item)).toEqual(['good']);
  });

  it('lets a pin cool overnight', () => {
    const basis = basisOf();
    const s = jobSchedule([pin('1', 10, 600)], 1, 2 * HOUR, basis);
    expect(s.slots[0]).toMatchObject({ shift: 1, pushShift: 2, pushFrom: 0 });
  });

  it('ends the burning an hour before the shift does, or half an hour by OSHA', () => {
    const plan = Array.from({ length: 30 }, (_, i) => pin(String(i + 1), 10, 0));
    const hour = jobSchedule(plan, 1, 6 * HOUR, basisOf());
    const half = jobSchedule(plan, 1, 6 * HOUR, basisOf({ name: 'fire watch rule', word: 'OSHA' }));
    expect(Math.max(...hour.lastHot.map((x) => x ?? 0))).toBeLessThanOrEqual(5 * HOUR + 1e-3);
    expect(Math.max(...half.lastHot.map((x) => x ?? 0))).toBeGreaterThan(5 * HOUR);
    expect(Math.max(...half.lastHot.map((x) => x ?? 0))).toBeLessThanOrEqual(5.5 * HOUR + 1e-3);
  });
});
