import { describe, expect, it } from 'vitest';
import { Assumptions, type Correlation } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import { coolingFactors } from '../../../src/core/heat/cooling-draws.ts';
import { cooledBy, drawItem, drawsOfCooling, drawsOfShared } from '../../../src/core/operations/draw-item.ts';
import { itemIndices } from '../../../src/core/operations/item-indices.ts';
import { spreadItem } from '../../../src/core/operations/spread-item.ts';
import { normalColumn } from '../../../src/core/spread/draws.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { correlatedScores, drawnWith } from '../../../src/core/spread/drawn-together.ts';
import { PIN, sizePin } from '../job/simulated-log.ts';

const COUNT = 1024;
const correlated = (...rows: readonly (readonly [NumberName, NumberName, number])[]): Assumptions =>
  Assumptions.defaults().correlated(
    rows.map(([x, y, value]): Correlation => ({ names: [x, y], value, kind: 'your value' })),
  );
const drawn = (name: NumberName, a: Assumptions): Float64Array => drawsOfShared(name, COUNT, new Basis(a));

/** Correlation of two columns by their ranks, turned into that of normal scores: 2 sin(pi rho / 6), Pearson 1907, from memory. */
function scoreCorrelation(x: Float64Array, y: Float64Array): number {
  const ranks = (column: Float64Array): Float64Array => {
    const rank = new Float64Array(column.length);
    Array.from(column.keys())
      .sort((i, j) => column[i]! - column[j]!)
      .forEach((place, k) => (rank[place] = k));
    return rank;
  };
  const [p, q] = [ranks(x), ranks(y)];
  const middle = (x.length - 1) / 2;
  const sum = (of: (i: number) => number): number => p.reduce((all, _, i) => all + of(i), 0);
  const rho = sum((i) => (p[i]! - middle) * (q[i]! - middle)) / sum((i) => (p[i]! - middle) ** 2);
  return 2 * Math.sin((Math.PI / 6) * rho);
}

describe('correlations in force', () => {
  const names = ['oxygen burnt share', 'rod feed ratio', 'flow factor'] as const;
  const a = correlated([names[0], names[1], 0.7], [names[2], names[1], -0.4], [names[0], 'boss over pin', -0.5]);

  it('are those of the draws, those without one stay apart, and each keeps its own distribution', () => {
    const [burnt, feed, flow] = names.map((name) => drawn(name, a)) as [Float64Array, Float64Array, Float64Array];
    const boss = drawsOfCooling(PIN, COUNT, new Basis(a))[0]!;
    // Standard error of a correlation of 1024 draws: 0.03 at most; evenly spread ones are nearer.
    expect(scoreCorrelation(burnt, feed)).toBeCloseTo(0.7, 1);
    expect(scoreCorrelation(flow, feed)).toBeCloseTo(-0.4, 1);
    expect(scoreCorrelation(burnt, boss)).toBeCloseTo(-0.5, 1);
    expect(scoreCorrelation(flow, drawn('heat lost share', a))).toBeCloseTo(0, 1);
    for (const [name, column] of [
      ['rod feed ratio', feed],
      ['flow factor', flow],
    ] as const) {
      const { low, value, high } = a.inForce(name);
      drawPercentiles(column, [0.1, 0.5, 0.9]).forEach((x, i) =>
        expect(Math.abs(x / [low, value, high][i]! - 1), name).toBeLessThan(0.01),
      );
    }
  });

  it('leave every other draw as it was, to the last digit', () => {
    for (const name of ['heat lost share', 'set-up time', 'burning duty', 'cylinder pressure'] as const)
      expect(drawn(name, a)).toEqual(drawn(name, Assumptions.defaults()));
    const scores = names.map((_, k) => normalColumn(k, 16, 1));
    expect(correlatedScores(names, scores, Assumptions.defaults())).toBe(scores);
  });

  it('take the burning duty apart from the times of the crew, which stay as one, and only where they tell of both', () => {
    const apart = correlated(['plate time', 'burning duty', 0.6], ['clean-up time', 'flow factor', 0.3]);
    expect(scoreCorrelation(drawn('push-out time', apart), drawn('burning duty', apart))).toBeCloseTo(0.6, 1);
    expect(scoreCorrelation(drawn('set-up time', apart), drawn('plate time', apart))).toBeCloseTo(1, 9);
    expect(scoreCorrelation(drawn('set-up time', apart), drawn('flow factor', apart))).toBeCloseTo(0.3, 1);
    const together = correlated(['burning duty', 'flow factor', 0.5]);
    expect(drawnWith('burning duty', together)).toEqual({ name: 'set-up time', falling: true });
    expect(scoreCorrelation(drawn('burning duty', together), drawn('flow factor', together))).toBeCloseTo(0.5, 1);
    expect(scoreCorrelation(drawn('burning duty', together), drawn('set-up time', together))).toBeCloseTo(-1, 9);
  });

  it('set what does not cool against how much longer pins cool, which stands for all that the cooling rests on once it is told', () => {
    const [low, value, high] = [-60, 240, 900];
    const a = Assumptions.from([{ name: 'longer cooling', value, low, high, kind: 'your log' }]).correlated([
      { names: ['set-up time', 'longer cooling'], value: -0.8, kind: 'your log' },
      { names: ['heat into the part', 'longer cooling'], value: 0.3, kind: 'your log' },
    ]);
    const [basis, asAssumed] = [new Basis(a), new Basis(Assumptions.defaults())];
    for (const diameter of [2, 4, 8]) {
      const pin = sizePin(diameter, 10, '3/8 x 36', basis);
      const calculated = sizePin(diameter, 10, '3/8 x 36', asAssumed).cooling;
      expect(pin.cooling - calculated).toBeCloseTo((value * diameter) / 4, 6);
      const { crewTime, workTime } = drawItem(pin, COUNT, basis);
      const cooling = crewTime.map((time, i) => time - workTime[i]!);
      drawPercentiles(cooling, [0.1, 0.5, 0.9]).forEach((time, i) =>
        expect(Math.abs(time - calculated - ([low, value, high][i]! * diameter) / 4)).toBeLessThan(0.02 * high),
      );
      expect(scoreCorrelation(drawn('plate time', a), cooling)).toBeCloseTo(-0.8, 1);
      expect(scoreCorrelation(drawn('heat into the part', a), cooling)).toBeCloseTo(0.3, 1);
    }
    expect(cooledBy(PIN, a)).toEqual(['longer cooling']);
  });

  it('leave the cooling with water to what it rests on, whatever a log told of air', () => {
    const rows = [{ name: 'cooling method', word: 'water' }] as const;
    const told = Assumptions.from([
      ...rows,
      { name: 'longer cooling', value: 240, low: 0, high: 900, kind: 'your log' },
    ]);
    const cooling = (a: Assumptions): number => sizePin(4, 10, '3/8 x 36', new Basis(a)).cooling;
    expect(cooling(told)).toBe(cooling(Assumptions.from(rows)));
    expect(cooledBy(PIN, told)).toEqual(coolingFactors('water'));
  });

  it('widen or narrow what an item takes', () => {
    const width = (r: number): number => {
      const basis = new Basis(correlated(['oxygen burnt share', 'heat into the part', r]));
      const { lowOxygen, highOxygen } = spreadItem(sizePin(4, 10, '3/8 x 36', basis), basis);
      return highOxygen / lowOxygen;
    };
    // More oxygen burnt and more heat left in the part make up for each other.
    expect(width(0.9)).toBeLessThan(0.85 * width(0));
    expect(width(-0.9)).toBeGreaterThan(1.1 * width(0));
  });

  it('stand for one index where they are shared out', () => {
    const basis = new Basis(correlated(['oxygen burnt share', 'heat into the part', 0.5]));
    const indices = itemIndices(sizePin(4, 10, '3/8 x 36', basis), basis);
    const [burnt, heat, lost] = (['oxygen burnt share', 'heat into the part', 'heat lost share'] as const).map((name) =>
      indices.get(name),
    );
    expect(burnt).toEqual(heat);
    expect(burnt![0]!.total).toBeGreaterThan(lost![0]!.total);
    expect(burnt![0]!.first).toBeLessThan(1);
  });

  it('are weakened where rounding made them impossible, and refused where they contradict each other', () => {
    const three = (x: number, y: number, z: number): Assumptions =>
      correlated([names[0], names[1], x], [names[1], names[2], y], [names[0], names[2], z]);
    // With 0.99 twice the third cannot be less than 2 x 0.99^2 - 1 = 0.9602.
    const rounded = three(0.99, 0.99, 0.959);
    expect(scoreCorrelation(drawn(names[0], rounded), drawn(names[2], rounded))).toBeCloseTo(0.959, 2);
    expect(() => drawn('flow factor', three(0.9, 0.9, -0.9))).toThrow('contradict each other');
  });
});

describe("a burning bar's feed", () => {
  it('goes with what burns, until a correlation with it is told', () => {
    const none = Assumptions.defaults();
    expect(drawnWith('bar feed ratio', none)).toEqual({ name: 'bar oxygen burnt share', falling: false });
    expect(scoreCorrelation(drawn('bar feed ratio', none), drawn('bar oxygen burnt share', none))).toBeCloseTo(1, 9);
    const told = correlated(['bar feed ratio', 'bar oxygen burnt share', 0.5]);
    expect(scoreCorrelation(drawn('bar feed ratio', told), drawn('bar oxygen burnt share', told))).toBeCloseTo(0.5, 1);
  });

  it('is apart from that of short rods', () => {
    const none = Assumptions.defaults();
    expect(scoreCorrelation(drawn('rod feed ratio', none), drawn('oxygen burnt share', none))).toBeCloseTo(0, 1);
  });
});
