import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import type { LogJob } from '../../../src/core/job/log-job.ts';
import { RANGE_OF, vouchedRanges } from '../../../src/core/job/vouched-ranges.ts';
import { drawItem } from '../../../src/core/operations/draw-item.ts';
import { DRAWS, spreadItem } from '../../../src/core/operations/spread-item.ts';
import { itemPercentile } from '../../../src/core/operations/item-percentile.ts';
import { sized } from '../../../src/core/operations/sized.ts';
import { OPERATION_IDS, operationOf } from '../../../src/core/operations/all.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { basisVouched, coverage } from './coverage.ts';
import { SWEEP } from '../operations/sweep-items.ts';
import { randomPins, simulateLog, sizePin } from './simulated-log.ts';

const basis = new Basis(Assumptions.defaults());
const ranged = (values: Partial<Record<NumberName, number>>): Basis =>
  new Basis(
    Assumptions.from(
      Object.entries(values).map(([name, value]): Override => ({
        name: name as NumberName,
        value,
        low: value,
        high: value,
        kind: 'your log',
      })),
    ),
  );
const ALL = Object.values(RANGE_OF);
const log = (count: number, seed: number): readonly LogJob[] => {
  const random = seeded(seed);
  return simulateLog(randomPins(count, random), {}, random, undefined, basis);
};

describe('ranges that finished jobs vouch for', () => {
  it('hold new pins about as often as they claim, where the model is wrong on purpose', () => {
    const odd = (random: { uniform: () => number }): number => 1.4 * (random.uniform() < 0.25 ? 2 : 1);
    const found = coverage(
      { logs: 60, jobs: 14, fresh: 4, seed: 41_000 },
      basis,
      { claimed: (_, given) => given, vouched: (_, given, jobs) => basisVouched(jobs, given) },
      odd,
    );
    for (const figure of ['oxygen', 'burning'] as const) {
      const [claimed, vouched] = [found.get('claimed')![figure], found.get('vouched')![figure]];
      expect(claimed.share).toBeLessThan(0.55);
      expect(Math.abs(vouched.share - 0.8)).toBeLessThan(0.03 + 2 * vouched.error);
    }
  }, 120_000);

  it('widen where jobs come out farther than claimed, narrow where nearer, and are found again where they are in force', () => {
    const jobs = log(20, 5);
    const by = (list: readonly LogJob[], on = basis): readonly number[] => vouchedRanges(list, on).map((r) => r.by!);
    const [rods, oxygen, burning, crew] = by(jobs);
    const farther = jobs.map((job) => {
      const { rods: n, oxygen: o, burning: b, crew: c } = job.noted;
      const of = (x: number, planned: number): number => planned * (x / planned) ** 3;
      const { sizing } = job;
      return {
        ...job,
        noted: {
          rods: n,
          oxygen: of(o!, sizing.oxygen),
          burning: of(b!, sizing.burnTime),
          crew: of(c!, sizing.crewTime),
        },
      };
    });
    const far = by(farther);
    expect(far[0]).toBe(rods);
    expect(far[1]! / oxygen!).toBeCloseTo(3, 9);
    expect(far[2]! / burning!).toBeCloseTo(3, 9);
    expect(far[3]! / crew!).toBeCloseTo(3, 9);
    expect(by(jobs, ranged(Object.fromEntries(ALL.map((name) => [name, 2]))))).toEqual([rods, oxygen, burning, crew]);
  });

  it('are none for fewer than nine jobs, nor for jobs of one or two rods', () => {
    expect(vouchedRanges(log(8, 6), basis).map(({ by }) => by)).toEqual([undefined, undefined, undefined, undefined]);
    expect(vouchedRanges([], basis)).toEqual([]);
    const jobs = log(9, 6).map((job) => ({ ...job, noted: { ...job.noted, rods: 1 } }));
    const found = vouchedRanges(jobs, basis);
    expect(found.map(({ channel }) => channel)).toEqual(['oxygen', 'burning', 'crew']);
  });
});

describe('a range in force', () => {
  const pin = (on: Basis) => sizePin(4, 10, undefined, on);

  it('takes each draw so many times as far from the plan, and leaves the plan', () => {
    const on = ranged({ 'range of oxygen': 2, 'range of burning': 0.5, 'range of crew time': 1.5 });
    const [before, after] = [pin(basis), pin(on)];
    expect(after.oxygen).toBe(before.oxygen);
    expect(after.crewTime).toBe(before.crewTime);
    const plain = drawItem(before, DRAWS, basis);
    const columns = { oxygen: plain.oxygen.slice(), burn: plain.burnTime.slice(), crew: plain.crewTime.slice() };
    const wide = drawItem(after, DRAWS, on);
    columns.oxygen.forEach((x, i) =>
      expect(Math.log(wide.oxygen[i]! / after.oxygen)).toBeCloseTo(2 * Math.log(x / before.oxygen), 9),
    );
    columns.burn.forEach((x, i) =>
      expect(Math.log(wide.burnTime[i]! / after.burnTime)).toBeCloseTo(0.5 * Math.log(x / before.burnTime), 9),
    );
    const crew = wide.crewTime;
    columns.crew.forEach((x, i) =>
      expect(Math.log(crew[i]! / after.crewTime)).toBeCloseTo(1.5 * Math.log(x / before.crewTime), 9),
    );
    // The work is a part of the crew time.
    wide.workTime.forEach((time, i) => expect(time).toBeLessThanOrEqual(crew[i]!));
  });

  it.each([0.3, 1, 2])('of %d moves low, high and every other percentile alike, rods whole', (by) => {
    const on = ranged(Object.fromEntries(ALL.map((name) => [name, by])));
    const [before, after] = [pin(basis), pin(on)];
    const [a, b] = [spreadItem(before, basis), spreadItem(after, on)];
    const carried = (x: number, planned: number): number => planned * (x / planned) ** by;
    expect(b.lowOxygen / carried(a.lowOxygen, before.oxygen)).toBeCloseTo(1, 3);
    expect(b.highCrewTime / carried(a.highCrewTime, before.crewTime)).toBeCloseTo(1, 3);
    expect(Number.isInteger(b.lowRods) && Number.isInteger(b.highRods)).toBe(true);
    expect(b.lowRods).toBeLessThanOrEqual(after.rods);
    expect(b.highRods).toBeGreaterThanOrEqual(after.rods);
    if (by < 1) expect(b.highRods - b.lowRods).toBeLessThan(a.highRods - a.lowRods);
    if (by > 1) expect(b.highRods - b.lowRods).toBeGreaterThan(a.highRods - a.lowRods);
    expect(itemPercentile(after, 'oxygen', 0.9, on).value).toBe(b.highOxygen);
    const p97 = itemPercentile(before, 'oxygen', 0.97, basis).value;
    expect(itemPercentile(after, 'oxygen', 0.97, on).value / carried(p97, before.oxygen)).toBeCloseTo(1, 1);
  });

  it('of 1 is none, to the last digit; others keep rods whole and lightings no fewer than rods in every operation', () => {
    const one = ranged(Object.fromEntries(ALL.map((name) => [name, 1])));
    const wide = ranged(Object.fromEntries(ALL.map((name) => [name, 1.7])));
    for (const id of OPERATION_IDS) {
      const operation = operationOf(id);
      const sizes = Object.fromEntries(
        operation.order.map((name, i) => {
          const size = SWEEP[id][0]![i];
          return [name, operation.sizes[name]!.quantity === 'length' && size !== undefined ? size * 0.0254 : size];
        }),
      );
      const item = (on: Basis) => sized({ operation, sizes, basis: on });
      const read = (on: Basis) => {
        const { rods, used, lightings, oxygen, burnTime, crewTime } = drawItem(item(on), DRAWS, on);
        return [rods, used, lightings, oxygen, burnTime, crewTime].map((column) => column.slice());
      };
      expect(read(one)).toEqual(read(basis));
      const [rods, used, lightings] = read(wide) as [Float64Array, Float64Array, Float64Array];
      rods.forEach((n, i) => {
        if (n === Infinity) return;
        expect(Number.isInteger(n)).toBe(true);
        expect(n).toBeGreaterThanOrEqual(used[i]! - 1e-9);
        expect(lightings[i]).toBeGreaterThanOrEqual(n);
      });
    }
  });
});
