import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { drawItem, emptyDraws, type ItemDraws } from '../../../src/core/operations/draw-item.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { ownScatter } from '../../../src/core/operations/own-scatter.ts';
import { SOBOL_DIMENSIONS } from '../../../src/core/spread/sobol.ts';
import { drawnFactors, worldsOf } from '../../../src/core/operations/worlds.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import type { Operation } from '../../../src/core/operations/operation.ts';
import { sizeItem, type Sizing } from '../../../src/core/operations/size-item.ts';
import { DRAWS, spreadItem } from '../../../src/core/operations/spread-item.ts';
import { IN, PIN, STEEL, basisWith, scattered, sizePin } from '../job/simulated-log.ts';

const basisOf = (): Basis => new Basis(Assumptions.defaults());
const SHORT = findRod('3/8').rod;
const BAR = findRod('3/8 pipe').rod;

describe('the draws', () => {
  it('take in every crew time of every operation', () => {
    for (const id of OPERATION_IDS) {
      const operation = operationOf(id);
      const drawn = drawnFactors(operation, SHORT, STEEL, Assumptions.defaults());
      for (const name of operation.crewTimes) expect(drawn, `${id} ${name}`).toContain(name);
      expect(drawn.length + 20).toBeLessThan(SOBOL_DIMENSIONS);
    }
  });

  it('are the same for every item of a call, whatever rod and material it takes', () => {
    const basis = basisOf();
    const one = worldsOf(PIN, SHORT, STEEL, 64, basis);
    const other = worldsOf(PIN, BAR, findMaterial('stainless steel'), 64, basis);
    for (const name of ['slag temperature', 'burning duty', 'set-up time', 'flow factor'] as const) {
      expect(one.drawn(name)).toEqual(other.drawn(name));
      expect(new Set(one.drawn(name)).size).toBe(64);
    }
    expect(one.drawn('oxygen burnt share')).not.toEqual(other.drawn('oxygen burnt share'));
  });

  it('draw nothing that is certain', () => {
    const basis = basisWith({ 'burning duty': 0.6 });
    expect([...worldsOf(PIN, SHORT, STEEL, 16, basis).drawn('burning duty')]).toEqual(new Array(16).fill(0.6));
  });

  it("size an item in each world as sizing it with that world's assumptions does", () => {
    const basis = basisOf();
    const sizing = sizePin(4, 16, '3/8 x 36', basis);
    const draws = emptyDraws(32);
    drawItem(PIN, sizing, basis, draws);
    const names = drawnFactors(PIN, SHORT, STEEL, basis.a);
    const worlds = worldsOf(PIN, SHORT, STEEL, 32, basis);
    worlds.own.forEach((own, i) => {
      const certain = basisWith(Object.fromEntries(names.map((name) => [name, worlds.read(i)(name)])));
      const took = scattered(sizePin(4, 16, '3/8 x 36', certain), own, certain, sizing.cooling);
      expect(draws.rods[i]).toBe(took.rods);
      expect(draws.oxygen[i]).toBeCloseTo(took.oxygen, 9);
      expect(draws.burnTime[i]).toBeCloseTo(took.burning, 6);
      expect(draws.crewTime[i]).toBeCloseTo(took.crew, 6);
    });
  });
});

const WORKS: readonly (readonly [
  OperationId,
  Readonly<Record<string, number>>,
  string,
  Parameters<typeof Assumptions.from>[0],
])[] = [
  ['PIN', { diameter: 4 * IN, length: 10 * IN }, 'carbon steel', []],
  [
    'PIN',
    { diameter: 1 * IN, length: 10 * IN, hole: 0.6 * IN },
    'carbon steel',
    [{ name: 'ends worked', value: 2, kind: 'your value' }],
  ],
  ['HOLE', { hole: 1 * IN, depth: 6 * IN }, 'copper alloy', []],
  [
    'GOUGE',
    { width: 1.6 * IN, depth: 0.7 * IN, length: 24 * IN },
    'stainless steel',
    [{ name: 'position', word: 'overhead' }],
  ],
  ['CUT', { thickness: 0.4 * IN, length: 24 * IN }, 'carbon steel', [{ name: 'cut method', word: 'kerf' }]],
  [
    'CUT',
    { thickness: 3 * IN, length: 24 * IN },
    'cast iron',
    [
      { name: 'cut method', word: 'kerf' },
      { name: 'access', word: 'tight' },
    ],
  ],
  [
    'CUT',
    { thickness: 3 * IN, length: 24 * IN },
    'carbon steel',
    [
      { name: 'cut method', word: 'row of holes' },
      { name: 'position', word: 'vertical down' },
    ],
  ],
  ['STUD', { diameter: 2 * IN, count: 7 }, 'carbon steel', []],
  ['BREACH', { thickness: 24 * IN, hole: 2.5 * IN, count: 3 }, 'reinforced concrete', []],
];

describe('the work that a draw makes of an item', () => {
  // What `draw` writes out for speed must be what `work` says, draw by draw and to the last bit.
  it.each(WORKS)('%s %o of %s with %o is its work with the numbers of the draw', (id, sizes, material, rows) => {
    const operation = operationOf(id);
    expect('draw' in operation).toBe(true);
    const slow: Operation = Object.fromEntries(
      Object.entries(operation).filter(([key]) => key !== 'draw'),
    ) as unknown as Operation;
    const basis = new Basis(Assumptions.from(rows));
    const sizing = sizeItem(operation, sizes, undefined, findMaterial(material), basis);
    const [one, other] = [emptyDraws(256), emptyDraws(256)];
    drawItem(operation, sizing, basis, one);
    drawItem(slow, sizing, basis, other);
    expect(one).toEqual(other);
    expect(new Set(one.oxygen).size).toBeGreaterThan(200);
    const worlds = worldsOf(operation, sizing.rod.rod, sizing.material, 256, basis);
    for (let i = 0; i < 256; i++) {
      const { reach, pierceDepth } = operation.work(
        sizing.planned,
        sizing.rod.rod,
        worlds.read(i),
        basis.a,
        undefined,
        sizing.method,
      );
      expect([reach, pierceDepth]).toEqual([sizing.work.reach, sizing.work.pierceDepth]);
    }
  });
});

describe('own scatter', () => {
  it('has the same values for each item, in an order of its own', () => {
    const basis = basisOf();
    const columns = Array.from({ length: 12 }, (_, item) => ownScatter(item, DRAWS, basis));
    const sorted = columns.map((c) => Float64Array.from(c).sort());
    for (const s of sorted) expect(s).toEqual(sorted[0]);
    const mean = (columns[0] ?? new Float64Array(1)).reduce((sum, x) => sum + x, 0) / DRAWS;
    const covariance = (a: Float64Array, b: Float64Array): number =>
      a.reduce((sum, x, i) => sum + (x - mean) * ((b[i] ?? NaN) - mean), 0) / DRAWS;
    for (let i = 0; i < 12; i++) {
      for (let j = 0; j < i; j++) {
        const [a, b] = [columns[i], columns[j]] as [Float64Array, Float64Array];
        // Standard error of a correlation of 1024 independent pairs: 0.031.
        expect(Math.abs(covariance(a, b) / covariance(a, a))).toBeLessThan(0.12);
      }
    }
  });
});

const ITEMS: readonly (readonly [string, () => Sizing, number])[] = [
  ...(
    [
      [1, 4],
      [1.5, 6],
      [2, 8],
      [3, 6],
      [3.5, 14],
      [4, 10],
      [5, 16],
      [6, 24],
      [8, 12],
    ] as const
  ).map(([d, l]) => [`a pin of ${d} x ${l} in`, () => sizePin(d, l, undefined, basisOf()), 0.01] as const),
  [
    'a hole of 2 x 8 in',
    () => sizeItem(operationOf('HOLE'), { hole: 2 * IN, depth: 8 * IN }, undefined, STEEL, basisOf()),
    0.01,
  ],
  [
    'a cut of 2 x 20 in',
    () => sizeItem(operationOf('CUT'), { thickness: 2 * IN, length: 20 * IN }, undefined, STEEL, basisOf()),
    0.01,
  ],
  [
    'studs of 1.5 in',
    () => sizeItem(operationOf('STUD'), { diameter: 1.5 * IN, count: 8 }, undefined, STEEL, basisOf()),
    0.01,
  ],
  [
    'a groove of 3/4 x 1/2 x 24 in',
    () =>
      sizeItem(
        operationOf('GOUGE'),
        { width: 0.75 * IN, depth: 0.5 * IN, length: 24 * IN },
        undefined,
        STEEL,
        basisOf(),
      ),
    0.015,
  ],
];

describe('the spread of an item', () => {
  it.each(ITEMS)('has converged to 1 percent at the default count for %s', (name, make, tolerance) => {
    const operation = operationOf(
      name.includes('hole')
        ? 'HOLE'
        : name.includes('cut')
          ? 'CUT'
          : name.includes('stud')
            ? 'STUD'
            : name.includes('groove')
              ? 'GOUGE'
              : 'PIN',
    );
    const sizing = make();
    const ends = (count: number): readonly number[] => {
      const draws = emptyDraws(count);
      drawItem(operation, sizing, basisOf(), draws);
      return [draws.oxygen, draws.burnTime, draws.crewTime].flatMap((d) => drawPercentiles(d, [0.1, 0.9]));
    };
    const many = ends(2 ** 14);
    ends(DRAWS).forEach((value, i) => expect(Math.abs(value / (many[i] ?? NaN) - 1)).toBeLessThan(tolerance));
  });

  it('stays the same for the same item, alone or in a list', () => {
    const basis = basisOf();
    const list = [sizePin(3, 9, undefined, basis), sizePin(4, 10, undefined, basis)];
    const [, second] = list.map((s) => spreadItem(PIN, s, basis));
    const alone = basisOf();
    expect(spreadItem(PIN, sizePin(4, 10, undefined, alone), alone)).toEqual(second);
  });

  it('closes in on the plan as the factors become certain', () => {
    const names = [...drawnFactors(PIN, SHORT, STEEL, Assumptions.defaults()), 'item scatter'] as const;
    const certain = basisWith(Object.fromEntries(names.map((name) => [name, Assumptions.defaults().value(name)])));
    const sizing = sizePin(4, 10, undefined, certain);
    const spread = spreadItem(PIN, sizing, certain);
    expect(spread.lowOxygen).toBeCloseTo(sizing.oxygen, 12);
    expect(spread.highOxygen).toBeCloseTo(sizing.oxygen, 12);
    expect([spread.lowRods, spread.highRods]).toEqual([sizing.rods, sizing.rods]);
    expect(spread.lowCrewTime).toBeCloseTo(sizing.crewTime, 9);
  });

  it('reaches as high as it must where the heat often does not suffice', () => {
    const basis = new Basis(
      Assumptions.from([{ name: 'oxygen burnt share', value: 0.08, low: 0.04, high: 0.12, kind: 'your value' }]),
    );
    const draws: ItemDraws = emptyDraws(DRAWS);
    const sizing = sizePin(4, 10, undefined, basis);
    drawItem(PIN, sizing, basis, draws);
    const unsolved = draws.oxygen.filter((o) => o === Infinity).length / DRAWS;
    expect(unsolved).toBeGreaterThan(0.1);
    expect(spreadItem(PIN, sizing, basis).highOxygen).toBe(Infinity);
  });
});
