import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { drawItem } from '../../../src/core/operations/draw-item.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { jobTotals } from '../../../src/core/job/job-cost.ts';
import { jobRange } from '../../../src/core/job/job-range.ts';
import { ownScatter } from '../../../src/core/operations/own-scatter.ts';
import { DRAWS, spreadItem } from '../../../src/core/operations/spread-item.ts';
import { PIN, sizePin } from './simulated-log.ts';

const item = { value: 100, low: 80, high: 150, ownDown: 10, ownUp: 20 };

describe('the range of a sum', () => {
  it("is the item's own for one item", () => {
    expect(jobRange([item])).toEqual({ value: 100, low: 80, high: 150 });
  });

  it('adds lows and highs where items have no scatter of their own', () => {
    expect(jobRange(new Array(9).fill({ ...item, ownDown: 0, ownUp: 0 }))).toEqual({
      value: 900,
      low: 720,
      high: 1350,
    });
  });

  it('adds departures in squares where items share nothing', () => {
    const { low, high } = jobRange(new Array(9).fill({ ...item, ownDown: 20, ownUp: 50 }));
    expect(low).toBeCloseTo(900 - 3 * 20, 9);
    expect(high).toBeCloseTo(900 + 3 * 50, 9);
  });

  it('lies between the two otherwise, and has no high where an item has none', () => {
    const { low, high } = jobRange(new Array(9).fill(item));
    expect(low).toBeGreaterThan(720);
    expect(low).toBeLessThan(840);
    expect(high).toBeGreaterThan(1050);
    expect(high).toBeLessThan(1350);
    expect(jobRange([item, { ...item, high: Infinity }]).high).toBe(Infinity);
  });

  it('comes near what drawing the whole job gives', () => {
    const basis = new Basis(Assumptions.defaults());
    const sizings = (
      [
        [4, 10],
        [3, 8],
        [5, 14],
        [4, 12],
        [2.5, 8],
        [6, 16],
      ] as const
    ).map(([d, l]) => sizePin(d, l, '3/8 x 36', basis));
    const total = { oxygen: new Float64Array(DRAWS), crew: new Float64Array(DRAWS) };
    sizings.forEach((sizing, i) => {
      const each = drawItem(sizing, DRAWS, basis, ownScatter(i, DRAWS, basis));
      for (let w = 0; w < DRAWS; w++) {
        total.oxygen[w] = (total.oxygen[w] ?? 0) + (each.oxygen[w] ?? 0);
        total.crew[w] = (total.crew[w] ?? 0) + (each.crewTime[w] ?? 0);
      }
    });
    const plan = sizings.map((s, i) => {
      const spread = spreadItem(s, basis);
      return {
        item: String(i + 1),
        rod: s.name,
        rods: { value: s.rods, low: spread.lowRods, high: spread.highRods },
        oxygen: { value: s.oxygen, low: spread.lowOxygen, high: spread.highOxygen },
        crew: { value: s.crewTime, low: spread.lowCrewTime, high: spread.highCrewTime },
        burnTime: s.burnTime,
        cylinders: undefined,
        cooling: s.cooling,
        operation: PIN,
      };
    });
    const totals = jobTotals(plan, basis);
    const [oxygenLow = NaN, oxygenHigh = NaN] = drawPercentiles(total.oxygen, [0.1, 0.9]);
    expect(Math.abs(totals.oxygen.low / oxygenLow - 1)).toBeLessThan(0.03);
    expect(Math.abs(totals.oxygen.high / oxygenHigh - 1)).toBeLessThan(0.03);
    const [crewLow = NaN, crewHigh = NaN] = drawPercentiles(total.crew, [0.1, 0.9]);
    expect(Math.abs(totals.crew.low / crewLow - 1)).toBeLessThan(0.03);
    expect(Math.abs(totals.crew.high / crewHigh - 1)).toBeLessThan(0.03);
  });
});
