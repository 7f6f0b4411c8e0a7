import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import type { CoolingMethod } from '../../../src/core/heat/cool-pin.ts';
import { coolingDraws, coolingFactors } from '../../../src/core/heat/cooling-draws.ts';
import { tabulatedCoolingTime } from '../../../src/core/heat/cooling-table.ts';
import { coolingTime, LONGEST } from '../../../src/core/heat/cooling-time.ts';
import { bossInForce, coolingInForce, physicsInForce } from '../../../src/core/heat/heat-in-force.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { normalColumn } from '../../../src/core/spread/draws.ts';
import { johnson, johnsonColumn } from '../../../src/core/spread/johnson.ts';
import { INCH } from './physics.ts';

const PACE = 0.008;
const COUNT = 128;
const GRIDS = { air: { pinCells: 3, bossCells: 4, tolerance: 6 }, water: { pinCells: 4, bossCells: 5, tolerance: 4 } };

const assumptions = (method: CoolingMethod, ...rows: readonly Override[]): Assumptions =>
  Assumptions.from([{ name: 'cooling method', word: method }, ...rows]);

/** Draws of their own, in other coordinates than those of an estimate. */
const columnsOf = (method: CoolingMethod, a: Assumptions): readonly Float64Array[] =>
  coolingFactors(method).map((name, k) => johnsonColumn(johnson(a.inForce(name)), normalColumn(k + 20, COUNT, 5)));

const pinOf = (diameter: number, bore: number, length: number) => ({
  diameter: diameter * INCH,
  hole: bore * diameter * INCH,
  length: length * INCH,
});

/** Every draw solved by itself. */
function solvedDraws(
  pin: ReturnType<typeof pinOf>,
  method: CoolingMethod,
  columns: readonly Float64Array[],
  a: Assumptions,
): Float64Array {
  return Float64Array.from({ length: COUNT }, (_, i) => {
    const world = Assumptions.from(
      coolingFactors(method).map((name, k): Override => ({ name, value: columns[k]![i]!, kind: 'your value' })),
      a,
    );
    const boss = bossInForce(pin.diameter, world);
    return coolingTime(
      coolingInForce({ ...pin, boss }, method, undefined, PACE, world),
      physicsInForce(world),
      GRIDS[method],
    );
  });
}

const PINS: readonly (readonly [diameter: number, bore: number, length: number])[] = [
  [1.5, 0.7, 6],
  [3, 0.66, 12],
  [4, 0.8, 8],
  [6, 0.6, 24],
  [10, 0.62, 16],
];

describe('the draws of a cooling', () => {
  it.each(['air', 'water'] as const)('with %s stand near those of every draw solved by itself', (method) => {
    const a = assumptions(method);
    const columns = columnsOf(method, a);
    const basis = new Basis(a);
    const off = PINS.map(([diameter, bore, length]) => {
      const pin = pinOf(diameter, bore, length);
      const draws = coolingDraws(pin, PACE, tabulatedCoolingTime(pin, PACE, basis), columns, basis);
      const [low, middle, high] = drawPercentiles(draws, [0.1, 0.5, 0.9]);
      const [l, m, h] = drawPercentiles(solvedDraws(pin, method, columns, a), [0.1, 0.5, 0.9]);
      const pairs = [
        [low!, l!],
        [middle!, m!],
        [high!, h!],
      ] as const;
      for (const [x, solved] of pairs) expect(Math.abs(x - solved)).toBeLessThan(Math.max(0.3 * solved, 120));
      return pairs.map(([x, solved]) => x / solved - 1);
    });
    const each = off.flat();
    expect(Math.sqrt(each.reduce((sum, x) => sum + x * x, 0) / each.length)).toBeLessThan(0.16);
  });

  it('have the planned time in every draw where all is certain', () => {
    const sure = coolingFactors('air').map((name): Override => {
      const value = Assumptions.defaults().value(name);
      return { name, value, low: value, high: value, kind: 'your value' };
    });
    const a = assumptions('air', ...sure);
    const basis = new Basis(a);
    const draws = coolingDraws(pinOf(4, 0.6, 10), PACE, 321, columnsOf('air', a), basis);
    expect(new Set(draws)).toEqual(new Set([321]));
  });

  it('move with the plan, in proportion, since length and pace are in it', () => {
    const a = assumptions('air');
    const basis = new Basis(a);
    const columns = columnsOf('air', a);
    const once = coolingDraws(pinOf(4, 0.6, 10), PACE, 300, columns, basis).slice();
    const twice = coolingDraws(pinOf(4, 0.6, 10), PACE, 600, columns, basis);
    twice.forEach((t, i) => expect(t).toBeCloseTo(2 * once[i]!, 6));
  });

  it('go over from pin to pin without a jump', () => {
    const a = assumptions('air');
    const basis = new Basis(a);
    const columns = columnsOf('air', a);
    for (const [diameter, bore] of [
      [4, 0.6],
      [4, 0.65],
      [Math.exp(-2 * Math.log(4)) / INCH, 0.63],
    ] as const) {
      const ends = [1 - 1e-7, 1 + 1e-7].map((by) =>
        coolingDraws(pinOf(diameter * by, bore * by, 10), PACE, 300, columns, basis).slice(),
      );
      ends[0]!.forEach((t, i) => expect(Math.abs(t / ends[1]![i]! - 1)).toBeLessThan(1e-4));
    }
  });

  it('solve a pin with a bushing or a bore by itself', () => {
    const bored = assumptions('air', { name: 'existing bore', value: 1 * INCH, kind: 'your value' });
    const pin = pinOf(4, 0.7, 10);
    const planned = (a: Assumptions): number => tabulatedCoolingTime(pin, PACE, new Basis(a));
    const drawn = (a: Assumptions): Float64Array =>
      coolingDraws(pin, PACE, planned(a), columnsOf('air', a), new Basis(a)).slice();
    expect(drawn(bored)).not.toEqual(drawn(assumptions('air')));
    const bushed = assumptions('air', { name: 'bushing wall', value: 0.25 * INCH, kind: 'your value' });
    expect(Math.min(...drawn(bushed))).toBeGreaterThan(0);
  });

  it('count a draw that never gets to its target as the longest cooling followed', () => {
    const rows = (['low', 'value', 'high'] as const).map(
      (level) => Assumptions.defaults().inForce('ambient temperature')[level],
    );
    const [low, , high] = rows as [number, number, number];
    const a = assumptions(
      'air',
      { name: 'ambient temperature', value: 294, low, high, kind: 'your value' },
      { name: 'cooling target in air', value: 296, low: 280, high: 330, kind: 'your value' },
    );
    const basis = new Basis(a);
    const pin = pinOf(2, 0.6, 5);
    const planned = tabulatedCoolingTime(pin, PACE, basis);
    const draws = coolingDraws(pin, PACE, planned, columnsOf('air', a), basis);
    expect(draws.every(Number.isFinite)).toBe(true);
    expect(Math.max(...draws)).toBeGreaterThan(LONGEST / 100);
  });

  it('name nothing twice', () => {
    for (const method of ['air', 'water'] as const) {
      const names: readonly NumberName[] = coolingFactors(method);
      expect(new Set(names).size).toBe(names.length);
    }
  });
});
