import { describe, expect, it } from 'vitest';
import { cylinderPressures } from '../../../src/core/job/cylinder-pressure.ts';
import { jobSchedule } from '../../../src/core/job/job-schedule.ts';
import { fullCylinder } from '../../../src/core/oxygen/full-cylinder.ts';
import { gaugeAfter } from '../../../src/core/oxygen/gauge-after.ts';
import { drawnTo } from '../../../src/core/oxygen/cylinder-content.ts';
import { drawableContent } from '../../../src/core/oxygen/drawable-content.ts';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { jobOf } from '../../../src/catalogue/read-list.ts';
import { PSI } from '../../../src/core/units/quantities.ts';

const basis = new Basis(Assumptions.defaults());
const LIST = [
  ['mark', 'qty', 'dia', 'length'],
  ['Boom foot', 2, 5, 18],
  ['Lock pin', 4, 1.5, 6],
  ['Stick', 6, 4, 14],
];
const HOUR = 3600;

describe('the gauge of a cylinder that has served', () => {
  it('reads what is full at first, and little more than what is left at the end', () => {
    const { pressure } = fullCylinder(basis.a);
    const [first, last] = [gaugeAfter(0, basis), gaugeAfter(drawableContent(basis), basis)];
    // Putting it on lost some.
    expect(first).toBeLessThan(pressure - basis.a.value('air pressure'));
    expect(first).toBeGreaterThan(0.95 * pressure);
    // The cold held some back, which is seen once it has warmed up.
    expect(last).toBeGreaterThan(basis.a.value('leftover pressure'));
    expect(last).toBeLessThan(400 * PSI);
  });

  it('is that from which as much can still be drawn', () => {
    const { volume, pressure, temperature } = fullCylinder(basis.a);
    const [served, loss, air] = [3, basis.a.value('cylinder change loss'), basis.a.value('air pressure')];
    expect(drawnTo(volume, pressure, temperature, gaugeAfter(served, basis) + air)).toBeCloseTo(served + loss, 9);
  });
});

describe('the pressure in the cylinder in use', () => {
  it.each([1, 2])('falls while pieces burn, and starts anew at each change, with %i crews', (crews) => {
    const job = jobOf(LIST, basis);
    const schedule = jobSchedule(job, { crews, shift: 6 * HOUR });
    const points = cylinderPressures(job, schedule);
    expect(points.at(-1)?.cylinder).toBe(schedule.cylinders);
    expect(new Set(points.map((p) => p.shift)).size).toBe(schedule.shifts);
    const full = gaugeAfter(0, basis);
    points.slice(1).forEach((p, i) => {
      const before = points[i]!;
      if (p.cylinder > before.cylinder) expect(p.pressure).toBeCloseTo(full, 3);
      else expect(p.pressure).toBeLessThanOrEqual(before.pressure + 1e-6);
      if (p.shift === before.shift) expect(p.time).toBeGreaterThanOrEqual(before.time);
    });
  });

  it('changes when the schedule of one crew does', () => {
    const job = jobOf(LIST, basis);
    const schedule = jobSchedule(job, { crews: 1, shift: 10 * HOUR });
    const points = cylinderPressures(job, schedule);
    const changed = points.flatMap((p, i) =>
      i > 0 && p.cylinder > points[i - 1]!.cylinder ? [points[i - 1]!.time] : [],
    );
    expect(changed).toHaveLength(schedule.slots.flatMap((s) => s.changes).length);
    schedule.slots.flatMap((s) => s.changes).forEach((time, i) => expect(changed[i]).toBeCloseTo(time, 6));
    // What is left at the end is what the schedule's oxygen leaves of the last.
    const used = schedule.slots.reduce((sum, s) => sum + s.stages.oxygen, 0);
    expect(points.at(-1)?.pressure).toBeCloseTo(gaugeAfter(used - (schedule.cylinders! - 1) * job.content, basis), 0);
  });
});
