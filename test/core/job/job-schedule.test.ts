import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobSchedule as schedule_, stagesOf, type Schedule, type Slot } from '../../../src/core/job/job-schedule.ts';
import type { Job, ListItem } from '../../../src/core/job/job-list.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { noiseHours } from '../../../src/core/safety/noise-hours.ts';
import { findNoiseRule } from '../../../src/core/safety/noise-rules.ts';
import { jobOfItems, jobWith, stagedItem } from './listed.ts';
import { sizePin } from './simulated-log.ts';

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
  { name: 'break after', value: 24 * HOUR, kind: 'your value' },
  { name: 'cylinder change time', value: 0, kind: 'your value' },
];
const basisOf = (...more: readonly Override[]): Basis => new Basis(Assumptions.from([...ROUND, ...more]));
const pin = (mark: string, burnMinutes: number, coolMinutes: number, basis = basisOf()): ListItem =>
  stagedItem(mark, burnMinutes, coolMinutes, basis);
const jobOf = (items: readonly ListItem[], basis: Basis): Job =>
  jobOfItems(
    items.map((item, i) => ({ ...item, row: i + 1 })),
    basis,
  );
const jobSchedule = (items: readonly ListItem[], crews: number, shift: number, basis: Basis): Schedule =>
  schedule_(jobOf(items, basis), { crews, shift });
const watchOf = (s: Schedule): number => s.watch;

/** Every rule a schedule must keep. */
function check(schedule: Schedule, plan: readonly ListItem[], crews: number, shift: number, basis: Basis): void {
  expect(new Set([...schedule.slots.map((s) => s.stages.item), ...schedule.left.map((l) => l.stages.item)]).size).toBe(
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
  it('add up to its crew time', () => {
    const basis = new Basis(Assumptions.defaults());
    const sized = sizePin(5, 16, undefined, basis);
    const [one, two] = stagesOf(jobWith([sized], basis, [2]));
    expect(one!.before + one!.hot + one!.cooling + one!.after).toBeCloseTo(sized.crewTime, 6);
    expect(one!.hot).toBeCloseTo(sized.timeAtWork, 9);
    expect(one!.after).toBeCloseTo(basis.a.value('push-out time') + basis.a.value('clean-up time'), 9);
    expect([one!.name, two!.name]).toEqual(['pin 1, 1 of 2', 'pin 1, 2 of 2']);
  });

  it('of a hole have no plates and no pressing', () => {
    const basis = basisOf();
    const [s] = stagesOf(jobOf([stagedItem('a', 8, 0, basis, { operation: 'HOLE' })], basis));
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
    expect(s.standby).toBeCloseTo(20 * MINUTE, 6);
  });

  it('never ends before the work is done, and with no cooling ends just then', () => {
    const basis = basisOf();
    const plan = Array.from({ length: 5 }, (_, i) => pin(String(i + 1), 6 + i, 0));
    const s = jobSchedule(plan, 1, 10 * HOUR, basis);
    expect(s.end).toBeCloseTo((5 * 20 + 40) * MINUTE, 6);
    expect(s.standby).toBe(0);
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
    expect(s.left.map((l) => [l.stages.name, l.reason])).toEqual([
      ['loud', expect.stringContaining('takes 1 h 26 with its fire watch; does not fit a shift of 1 h 24')],
    ]);
    const t = jobSchedule([pin('loud', 16, 0), pin('good', 5, 0)], 1, 8 * HOUR, basis);
    expect(t.left.map((l) => l.reason)).toEqual([
      expect.stringContaining('burns for 16 min; OSHA allows one burner 15 min in a shift'),
    ]);
    expect(t.slots.map((x) => x.stages.name)).toEqual(['good']);
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

  it('gives a crew its break between two pieces, and counts a long wait as one', () => {
    const basis = basisOf(
      { name: 'break after', value: 1 * HOUR, kind: 'your value' },
      { name: 'break length', value: 15 * MINUTE, kind: 'your value' },
    );
    const plan = Array.from({ length: 4 }, (_, i) => pin(String(i + 1), 10, 0, basis));
    const s = jobSchedule(plan, 1, 10 * HOUR, basis);
    check(s, plan, 1, 10 * HOUR, basis);
    // By hand: 30 min a pin without cooling, so a break after the second.
    expect(s.pauses).toEqual([{ crew: 1, shift: 1, from: 60 * MINUTE, to: 75 * MINUTE, waitsFor: undefined }]);
    expect(s.end).toBeCloseTo(135 * MINUTE, 6);
    expect(s.breaks).toBeCloseTo(15 * MINUTE, 6);
    const waiting = jobSchedule([pin('a', 60, 40, basis)], 1, 10 * HOUR, basis);
    expect(waiting.pauses).toMatchObject([{ from: 70 * MINUTE, to: 110 * MINUTE, waitsFor: { name: 'a' } }]);
    expect(waiting.breaks).toBe(0);
  });

  it('changes cylinders where the oxygen is used up, and takes time for it', () => {
    const basis = basisOf({ name: 'cylinder change time', value: 6 * MINUTE, kind: 'your value' });
    const items = Array.from({ length: 5 }, (_, i) => ({
      ...stagedItem(String(i + 1), 10, 0, basis, { scf: 100 }),
      row: i + 1,
    }));
    const job = jobOfItems(items, basis);
    const s = schedule_(job, { crews: 1, shift: 10 * HOUR });
    const content = job.content;
    const cylinders = Math.ceil((5 * items[0]!.sized.oxygen) / content);
    expect(cylinders).toBe(3);
    expect(s.cylinders).toBe(cylinders);
    const changes = s.slots.flatMap((slot) => slot.changes);
    expect(changes).toHaveLength(cylinders - 1);
    // Half of the third piece's oxygen and more comes from the second cylinder: the change is as far into its burning.
    const third = s.slots[2]!;
    const share = (content - 2 * third.stages.oxygen) / third.stages.oxygen;
    expect(third.changes[0]).toBeCloseTo(third.hotFrom + share * third.stages.hot, 6);
    expect(third.hotTo - third.hotFrom).toBeCloseTo(third.stages.hot + 6 * MINUTE, 6);
    expect(s.end).toBeCloseTo((5 * 30 + 2 * 6) * MINUTE, 6);
    expect(s.work).toBeCloseTo(s.end, 6);
  });
});
