/** Pins that are not solid, open and bare: with a bore already, blind, in a bushing, or got at from one side. */
import { describe, expect, it } from 'vitest';
import { isCellError, type Cell } from '../../../src/catalogue/cell.ts';
import { heatIntoWall } from '../../../src/core/heat/heat-into-wall.ts';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import { call } from '../../../src/sheet/call.ts';
import type { Argument } from '../../../src/sheet/host-function.ts';

type Rows = readonly (readonly Cell[])[];
/** Cells of a function with rows of `assume` last. */
function cellsOf(name: string, args: readonly Argument[], assume: Rows = []): Rows {
  const declared = findFunction(name)!;
  const between = Object.keys(declared.parameters).length - args.length;
  return call(declared, [
    ...args,
    ...Array.from({ length: between }, () => undefined),
    assume.length > 0 ? assume : undefined,
  ]);
}
const value = (name: string, args: readonly Argument[], assume: Rows = []): number => {
  const cell = cellsOf(name, args, assume)[0]?.[0];
  expect(cell, `${name} ${JSON.stringify(assume)}`).toBeTypeOf('number');
  return cell as number;
};
const message = (name: string, args: readonly Argument[], assume: Rows): string =>
  cellsOf(name, args, assume).flat().find(isCellError)?.message ?? 'no error';
const column = (heading: string, assume: Rows = []): number => {
  const [heads, row] = cellsOf('BURN.PIN.PLAN', [4, 10], assume);
  return row![heads!.findIndex((h) => String(h).startsWith(heading))] as number;
};
const AMOUNTS = ['BURN.PIN.OXYGEN', 'BURN.PIN.BURN', 'BURN.PIN.TIME'] as const;

describe('a pin with an existing bore', () => {
  it('takes what a solid one does where the bore is as good as none', () => {
    const ratio = (name: string): number => value(name, [4, 10], [['existing bore', 1e-6]]) / value(name, [4, 10]);
    for (const name of AMOUNTS.slice(0, 2)) expect(ratio(name)).toBeCloseTo(1, 6);
    // Cooling of solid pins is read from a table, of bored ones solved.
    expect(ratio('BURN.PIN.TIME')).toBeCloseTo(1, 2);
  });

  it('takes less the wider the bore, without a jump where the rod begins to pass through it', () => {
    const bores = Array.from({ length: 49 }, (_, i) => 0.05 * i);
    for (const name of AMOUNTS.slice(0, 2)) {
      const taken = bores.map((bore) => value(name, [4, 10], [['existing bore', bore]]));
      taken.slice(1).forEach((x, i) => {
        expect(x).toBeLessThanOrEqual(taken[i]!);
        expect(taken[i]! - x).toBeLessThan(0.12 * taken[0]!);
      });
    }
  });

  it('loses the metal of the ring between bore and hole, by hand; none where they are equal', () => {
    // 7850 kg/m3 (carbon steel) of the ring 1 to 2.4 in, 10 in long, in pounds.
    const pounds = (bore: number): number =>
      (7850 * (Math.PI / 4) * (2.4 ** 2 - bore ** 2) * 10 * 0.0254 ** 3) / 0.45359237;
    for (const bore of [0, 0.5, 1, 2])
      expect(column('removed', [['existing bore', bore]])).toBeCloseTo(pounds(bore), 6);
    expect(column('removed', [['existing bore', 2.4]])).toBeCloseTo(0, 9);
    expect(value('BURN.PIN.BURN', [4, 10], [['existing bore', 2.4]])).toBeCloseTo(0, 9);
  });

  it('takes up heat for the metal burnt alone', () => {
    const bore = { hole: 0.06, pilot: 0.02, burnTime: 600, heatPerMass: 8e5, density: 7850 };
    const heat = (existing: number): number =>
      heatIntoWall({ ...bore, existing }).reduce((sum, pass) => sum + pass.heat, 0);
    for (const existing of [0, 0.01, 0.02, 0.04])
      expect(heat(existing)).toBeCloseTo((8e5 * 7850 * Math.PI * (0.06 ** 2 - existing ** 2)) / 4, 3);
    expect(heatIntoWall({ ...bore, existing: 0.06 })).toEqual([]);
    expect(heatIntoWall({ ...bore, existing: 0.03 })).toHaveLength(1);
    expect(value('BURN.COOL.TIME', [4, 2.4, 10], [['existing bore', 2.4]])).toBe(0);
  });

  it('holds less before, since it gives more, so less of what it held is left to lose', () => {
    const before = (assume: Rows): number => cellsOf('BURN.GRIP.AFTER', [4, 10, 10, 2.4, 0], assume)[1]![2] as number;
    expect(before([['existing bore', 2]])).toBeLessThan(before([]));
  });

  it('is refused where the bore is wider than the hole', () => {
    expect(message('BURN.PIN.OXYGEN', [4, 10], [['existing bore', 2.5]])).toBe(
      "existing bore is 2.5 in; must be at most the hole's 2.4 in",
    );
  });
});

describe('a blind pin', () => {
  const BLIND: Rows = [['pin ends', 'one']];

  it('takes more oxygen for less metal, and leaves a floor', () => {
    expect(value('BURN.PIN.OXYGEN', [4, 10], BLIND)).toBeGreaterThan(value('BURN.PIN.OXYGEN', [4, 10]));
    // 9.5 of 10 in.
    expect(column('removed', BLIND) / column('removed')).toBeCloseTo(0.95, 6);
    const certain: Rows = [...BLIND, ['blind removal', 1], ['blind floor', 0]];
    for (const name of AMOUNTS) expect(value(name, [4, 10], certain)).toBeCloseTo(value(name, [4, 10]), 2);
  });

  it('is refused from two ends, with a bore right through, or where nothing but the floor is left', () => {
    expect(message('BURN.PIN.TIME', [4, 10], [...BLIND, ['ends worked', 2]])).toBe(
      'ends worked is 2 and pin ends is one; with one, ends worked must be 1',
    );
    expect(message('BURN.PIN.TIME', [4, 10], [...BLIND, ['existing bore', 1]])).toMatch(
      /^existing bore is 1 in and pin ends is one;/,
    );
    expect(message('BURN.PIN.TIME', [4, 10], [...BLIND, ['blind floor', 10]])).toBe(
      "blind floor is 10 in; must be less than the pin's length of 10 in",
    );
  });

  it('is not pushed through', () => {
    for (const [name, args] of [
      ['BURN.PUSH.SPACERS', [10, 6]],
      ['BURN.PUSH.CHECK', [30, 4, 2.5, 10]],
    ] as const)
      expect(message(name, args, BLIND)).toMatch(/cannot be pushed through its boss: pull it/);
  });

  it('brings up how it is pulled', () => {
    const cautions = String(column('cautions', BLIND));
    expect(cautions).toContain('blind pin');
    expect(String(column('conditions', BLIND))).toContain('closed bore');
  });
});

describe('a pin in a bushing', () => {
  it('cools more slowly, since heat has one more joint to cross, and as without one where it is as good as none', () => {
    const time = (wall: number, method = 'air'): number =>
      value('BURN.COOL.TIME', [4, 2.4, 10, method], [['bushing wall', wall]]);
    expect(time(0)).toBe(value('BURN.COOL.TIME', [4, 2.4, 10, 'air']));
    expect(time(0.5)).toBeGreaterThan(time(0));
    // With a joint that conducts as if there were none, the bushing is boss.
    const tight = (wall: number): number =>
      value(
        'BURN.COOL.TIME',
        [4, 2.4, 10],
        [
          ['bushing wall', wall],
          ['joint conductance', '1000000 W/m2K'],
        ],
      );
    expect(tight(0.5) / tight(0)).toBeCloseTo(1, 1);
  });

  it('loosens at least as much: what is hot is kept from its boss', () => {
    expect(value('BURN.COOL.SHRINK', [4, 2.4], [['bushing wall', 0.5]])).toBeGreaterThan(
      value('BURN.COOL.SHRINK', [4, 2.4]),
    );
  });

  it('leaves less of the boss to bear the reaction, by hand', () => {
    const stress = cellsOf('BURN.PUSH.CHECK', [30, 4, 2.5, 10], [['bushing wall', 0.5]]).find(
      (row) => row[0] === 'reaction',
    )![1] as number;
    expect(stress).toBeCloseTo(60000 / ((Math.PI / 4) * (10 ** 2 - 5 ** 2)), 6);
  });

  it('is refused where it leaves no boss', () => {
    expect(message('BURN.COOL.TIME', [4, 2.4, 10], [['bushing wall', 3.2]])).toBe(
      'boss is 10 in; must be more than the 10.4 in of the pin with a bushing wall of 3.2 in',
    );
  });
});

describe('work that is got at from one side', () => {
  it('is refused from two ends, and says what nobody sees', () => {
    expect(
      message(
        'BURN.PIN.TIME',
        [4, 10],
        [
          ['access side', 'one'],
          ['ends worked', 2],
        ],
      ),
    ).toBe('ends worked is 2 and access side is one; with one, ends worked must be 1');
    expect(String(column('cautions', [['access side', 'one']]))).toContain('one side only');
  });
});
