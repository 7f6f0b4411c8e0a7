/** How many draws a list takes, and whether what its +- say is so. */
import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import type { Job } from '../../../src/core/job/job-list.ts';
import { jobStock, linesOf, loaded } from '../../../src/core/job/job-stock.ts';
import { operationOf } from '../../../src/core/operations/all.ts';
import { RANGE_OF } from '../../../src/core/job/vouched-ranges.ts';
import { percentilesWithin, shareOfDraws } from '../../../src/core/spread/draw-percentile.ts';
import { sized } from '../operations/sized.ts';
import { jobWith } from './listed.ts';
import { IN, sizePin } from './simulated-log.ts';

/** Enough for the percentiles to stand still. */
const ALL = 65_536;
const FIRST = 1024;

const basisOf = (rows: readonly Override[] = []): Basis => new Basis(Assumptions.from(rows));
const WATER: Override = { name: 'cooling method', word: 'water' };
/** As a log of few jobs that came out far from their plans hands them back. */
const WIDE = Object.values(RANGE_OF).map((name): Override => ({
  name,
  value: 2.5,
  low: 2.5,
  high: 2.5,
  kind: 'your log',
}));

const pins = (basis: Basis, ...quantities: readonly number[]): Job => {
  const sizes = [
    [4, 10],
    [3, 8],
    [5.5, 17],
    [2, 5],
  ] as const;
  return jobWith(
    quantities.map((_, i) => sizePin(sizes[i]![0], sizes[i]![1], undefined, basis)),
    basis,
    quantities,
  );
};
const cuts = (basis: Basis): Job =>
  jobWith([sized(operationOf('CUT'), [1 * IN, 24 * IN], { basis }), sizePin(4, 10, undefined, basis)], basis, [3, 1]);

const LISTS: readonly (readonly [string, Job])[] = [
  ['a pin', pins(basisOf(), 1)],
  ['pins', pins(basisOf(), 1, 2, 1)],
  ['pins in water', pins(basisOf([WATER]), 3, 1, 1, 2)],
  ['cuts and a pin', cuts(basisOf())],
  ['pins with wide ranges', pins(basisOf(WIDE), 1, 2)],
];

describe('the +- of a list', () => {
  it('hold what 65,536 draws say, of percentiles and of loads, at least as often as they claim', () => {
    const count = new Map<string, { all: number; held: number }>();
    const note = (what: string, held: boolean): void => {
      const each = count.get(what) ?? { all: 0, held: 0 };
      count.set(what, { all: each.all + 1, held: each.held + Number(held) });
    };
    for (const [, job] of LISTS) {
      const needs = job.needsIn(ALL);
      const lines = linesOf(job, needs);
      const wanted = [0.5, 0.9, 0.99].map((confidence) => ({ confidence, right: loaded(lines, confidence).lines }));
      // Each 1,024 of them are as good as the first.
      for (let from = 0; from < ALL; from += 4 * FIRST) {
        const some = (draws: Float64Array): Float64Array => draws.subarray(from, from + FIRST);
        for (const { draws } of [needs.oxygen, needs.crewTime]) {
          const shares = [0.1, 0.5, 0.9, 0.99];
          const right = percentilesWithin(draws, shares);
          percentilesWithin(some(draws), shares).forEach(({ value, within }, i) =>
            note(`P${100 * shares[i]!}`, Math.abs(value - right[i]!.value) <= within),
          );
        }
        for (const { confidence, right } of wanted) {
          const found = loaded(
            lines.map((line) => ({ ...line, draws: some(line.draws) })),
            confidence,
          );
          const alike = found.lines.every((line, i) => !line.whole || line.load === right[i]!.load);
          found.lines.forEach(({ name, whole, counts, load, within }, i) => {
            // The crew work is that of the whole things loaded.
            if (whole || !counts || alike)
              note(whole ? 'whole things' : name, Math.abs(load - right[i]!.load) <= within);
          });
          const lacking = shareOfDraws(ALL, (i) =>
            lines.some((line, k) => line.counts && line.draws[i]! > found.lines[k]!.load),
          );
          note('falls short', Math.abs(lacking - found.short) <= found.within);
        }
      }
    }
    for (const [what, { all, held }] of count) {
      expect(all, what).toBeGreaterThan(100);
      expect(held / all, what).toBeGreaterThanOrEqual(0.95);
    }
  }, 120_000);

  it('are at most 5 %, or one of what is whole, and that of a chance 3.1 points, where draws may be added', () => {
    for (const [name, job] of LISTS) {
      if (job.pieces > 1)
        for (const { value, within } of [...job.needs.ends.oxygen, ...job.needs.ends.crew])
          expect(within / value, name).toBeLessThanOrEqual(0.05);
      for (const confidence of [0.5, 0.8, 0.9, 0.95]) {
        const { lines, within } = jobStock(job, confidence);
        expect(within).toBeLessThan(0.031);
        for (const line of lines)
          expect(line.within, `${name}, ${line.name}`).toBeLessThanOrEqual(
            Math.max(0.05 * line.load, line.whole ? 1 : 0),
          );
      }
    }
  });
});

describe('the draws of a list', () => {
  it('are added far out in the tails and with wide ranges, and are the first ones with others behind', () => {
    const narrow = pins(basisOf(), 1, 2, 1);
    const countOf = (job: Job, confidence: number): number => jobStock(job, confidence).lines[0]!.draws.length;
    expect(narrow.needs.count).toBe(FIRST);
    expect(countOf(narrow, 0.8)).toBe(FIRST);
    expect(countOf(narrow, 0.99)).toBeGreaterThan(FIRST);
    const wide = pins(basisOf(WIDE), 1, 2);
    expect(wide.needs.count).toBe(4 * FIRST);
    for (const what of ['oxygen', 'crewTime', 'workTime', 'allRods', 'lightings'] as const)
      expect(wide.needsIn(4 * FIRST)[what].draws.slice(0, FIRST)).toEqual(wide.needsIn(FIRST)[what].draws);
  });

  it('are as many, and the same, when they are asked for again', () => {
    const [one, other] = [pins(basisOf(WIDE), 1, 2), pins(basisOf(WIDE), 1, 2)];
    jobStock(one, 0.99);
    expect(other.needs).toEqual(one.needs);
    expect(jobStock(other, 0.99)).toEqual(jobStock(one, 0.99));
  });

  it('are fewer for a long list, whose +- then says more', () => {
    const job = pins(basisOf(WIDE), 400, 150);
    expect(job.needs.count).toBe(FIRST);
    expect(job.needs.ends.oxygen.some(({ close }) => !close)).toBe(true);
    expect(jobStock(job, 0.99).lines[0]!.draws.length).toBe(FIRST);
    expect(pins(basisOf(WIDE), 225, 75).needs.count).toBe(2 * FIRST);
    expect(pins(basisOf(WIDE), 90, 30).needs.count).toBe(8 * FIRST);
  });

  it('of a row that stands alone are those of its total', () => {
    const job = pins(basisOf(WIDE), 3);
    expect(job.spread(job.items[0]!)).toEqual(job.total);
    const one = pins(basisOf(WIDE), 1);
    expect(one.spread(one.items[0]!)).toEqual(one.total);
  });
});
