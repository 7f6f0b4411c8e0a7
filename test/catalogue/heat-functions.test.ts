/** Functions of cooling, grip, push-out and plates as a cell has them: published values, limits, messages, and what the plan makes of them. */
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import { plainMetal } from '../../src/core/heat/metal.ts';
import { radialConduction } from '../../src/core/heat/radial-conduction.ts';
import { radialMesh } from '../../src/core/heat/radial-mesh.ts';
import { INSULATED } from '../../src/core/heat/flux-law.ts';
import { coolingTime } from '../../src/core/heat/cooling-time.ts';
import { tabulatedCoolingTime } from '../../src/core/heat/cooling-table.ts';
import { bossInForce, coolingInForce, physicsInForce } from '../../src/core/heat/heat-in-force.ts';
import { INCH } from '../../src/core/units/quantities.ts';
import { call } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const cells = (name: string, ...args: Argument[]): readonly (readonly Cell[])[] => call(findFunction(name)!, args);
const value = (name: string, ...args: Argument[]): number => cells(name, ...args)[0]?.[0] as number;
const message = (name: string, ...args: Argument[]): string => {
  const first = cells(name, ...args)
    .flat()
    .find(isCellError);
  return first ? `${first.error} ${first.message}` : 'no error';
};
const line = (name: string, what: string, ...args: Argument[]): readonly Cell[] =>
  cells(name, ...args).find((row) => row[0] === what) ?? [];
const LIKE_MARKS = [
  ['pin modulus', '30000 ksi'],
  ['boss modulus', '30000 ksi'],
  ['poisson ratio', 0.3],
];

describe('grip', () => {
  it("meets Marks' example: 4 in pin, 6 in boss, 0.001 in, 30e6 psi, solid: 2083 psi, printed as 2100", () => {
    // Brown, Marks' Calculations for Machine Design (2005), interference fits, example 6.
    expect(value('BURN.GRIP.PRESSURE', 4, 0.001, 6, undefined, LIKE_MARKS)).toBeCloseTo(2083.33, 1);
  });

  it.each([
    // Lame's thick rings worked by hand: p = delta E / (D (k_h + k_s)), one modulus and Poisson's ratio for both.
    [4, 0.002, 8, 0],
    [4, 0.001, 10, 2],
    [3, 0.0015, 6, 1.5],
    [6, 0.003, 12, 3],
  ])('follows Lame for a %d in pin, %d in interference, %d in boss, bored %d in', (D, delta, Do, d) => {
    const hand = (delta * 30e6) / (D * ((Do * Do + D * D) / (Do * Do - D * D) + (D * D + d * d) / (D * D - d * d)));
    expect(value('BURN.GRIP.PRESSURE', D, delta, Do, d, LIKE_MARKS) / hand).toBeCloseTo(1, 9);
  });

  it('hardly changes with a boss that is very thick already, where pin or boss yields', () => {
    // What a boss adds falls with the square of its diameter (Lame), so past 25 pin diameters nothing worth counting is added.
    const pressures = [10, 25, 100, 1000].map((ratio) => value('BURN.GRIP.PRESSURE', 0.1, 0.0003, 0.1 * ratio));
    expect(pressures[1]).toBeGreaterThan(pressures[0] ?? NaN);
    for (const p of pressures.slice(2)) expect(p / (pressures[1] ?? NaN)).toBeCloseTo(1, 2);
  });

  it('yields instead of growing without end: less than Lame beyond the elastic limit, and never less with more interference', () => {
    const pressures = [0.002, 0.005, 0.01, 0.02].map((delta) => value('BURN.GRIP.PRESSURE', 4, delta, 6, 2.5));
    expect(pressures[3]!).toBeLessThan(0.6 * 10 * pressures[0]!);
    pressures.slice(1).forEach((p, i) => expect(p).toBeGreaterThanOrEqual(pressures[i]!));
  });

  it('falls as the hole grows and rises with the boss, in pressure and in force', () => {
    const byHole = [0, 1, 2, 2.5, 3, 3.5].map((d) => value('BURN.GRIP.FORCE', 4, 10, 0.0012, 10, d));
    byHole.slice(1).forEach((f, i) => expect(f).toBeLessThan(byHole[i]!));
    const byBoss = [5, 6, 8, 12].map((Do) => value('BURN.GRIP.FORCE', 4, 10, 0.0012, Do));
    byBoss.slice(1).forEach((f, i) => expect(f).toBeGreaterThan(byBoss[i]!));
  });

  it('is the sum of friction and rust over the joint', () => {
    const p = value('BURN.GRIP.PRESSURE', 4, 0.0012, 10);
    // Defaults: friction 0.15, rust bond 450 psi; 2000 lbf a short ton.
    expect(value('BURN.GRIP.FORCE', 4, 10, 0.0012, 10)).toBeCloseTo((Math.PI * 4 * 10 * (0.15 * p + 450)) / 2000, 6);
  });

  it('of a 4 in x 10 in pin that 60 tons could not move encloses 30 tons after burning and cooling', () => {
    // Common practice, no source.
    for (const method of ['air', 'water']) {
      const [, low, likely, high] = line('BURN.GRIP.AFTER', 'force after', 4, 10, 10, 2.5, 60, [
        ['cooling method', method],
      ]) as [string, number, number, number];
      expect(low).toBeLessThan(30);
      expect(high).toBeGreaterThan(30);
      expect(likely).toBeLessThan(60);
      expect(
        line('BURN.GRIP.AFTER', 'force before', 4, 10, 10, 2.5, 60, [['cooling method', method]])[1],
      ).toBeGreaterThanOrEqual(60);
    }
  });

  it('says in how many cases pin or boss yields: the more heat the more, and in none where there is hardly any', () => {
    const said = (heat: number): string =>
      String(line('BURN.GRIP.AFTER', 'force after', 4, 10, 10, 2.5, 60, [['heat into the part', heat]]).at(-1));
    expect(said(0.1)).toContain('yields in 0 of 32 cases, else it loosens only while colder than its boss');
    const yielding = [0.1, 0.3, 0.8, 1.6].map((heat) => Number(/yields in (\d+) of 32 cases/.exec(said(heat))?.[1]));
    yielding.slice(1).forEach((count, i) => expect(count).toBeGreaterThan(yielding[i]!));
  });

  it('gives every ram a chance that rises with its rating', () => {
    const chances = cells('BURN.GRIP.AFTER', 4, 10, 10, 2.5, 60)
      .filter((row) => String(row[0]).startsWith('ram of'))
      .map((row) => row[4] as number);
    expect(chances.length).toBeGreaterThan(3);
    chances.slice(1).forEach((c, i) => expect(c).toBeGreaterThanOrEqual(chances[i]!));
    expect(chances.at(-1)).toBeGreaterThan(95);
  });

  it('says which assumption to raise where no grip could have held', () => {
    expect(message('BURN.GRIP.AFTER', 4, 10, 10, 2.5, 2000)).toMatch(
      /#N\/A a ram of 2000 ton did not move it.*raise the high of rust bond, interference or friction/,
    );
    expect(message('BURN.GRIP.AFTER', 4, 10, 3, 2.5, 60)).toBe(
      "#VALUE! boss is 3 in; must be more than the pin's 4 in",
    );
  });
});

describe('cooling', () => {
  it('takes longer towards a cooler target and is far shorter with water', () => {
    const times = ['600 F', '400 F', '300 F', '200 F', '120 F'].map((target) =>
      value('BURN.COOL.TIME', 4, 2.5, 10, 'air', target),
    );
    times.slice(1).forEach((t, i) => expect(t).toBeGreaterThanOrEqual(times[i]!));
    expect(value('BURN.COOL.TIME', 4, 2.5, 10, 'water')).toBeLessThan(0.5 * value('BURN.COOL.TIME', 4, 2.5, 10, 'air'));
  });

  it('shrinks the pin more with water than in air', () => {
    // Common practice, no source.
    for (const D of [2, 3, 4, 6])
      for (const ratio of [0.6, 0.7])
        expect(value('BURN.COOL.SHRINK', D, ratio * D, 'water')).toBeGreaterThan(
          value('BURN.COOL.SHRINK', D, ratio * D, 'air'),
        );
  });

  it('says in its working why nothing loosens', () => {
    const { steps } = explain(findFunction('BURN.COOL.SHRINK')!, [4, 1, 'air', [['heat into the part', 0.1]]]);
    expect(steps.find((s) => s.symbol === 'why')?.value).toContain('neither pin nor boss yielded');
  });

  it.each(['air', 'water'])(
    'curves with %s start hottest in the bore, fall to the target and never below what cools them',
    (method) => {
      const [, ...rows] = cells('BURN.COOL.CURVE', 4, 2.5, 10, 10, method, 15) as number[][];
      expect(rows).toHaveLength(15);
      expect(rows[0]![1]).toBeGreaterThan(rows[0]![2]!);
      expect(rows[0]![2]).toBeGreaterThan(rows[0]![3]!);
      rows.slice(1).forEach((row, i) => expect(row[1]).toBeLessThan(rows[i]![1]!));
      for (const row of rows) for (const t of row.slice(1)) expect(t).toBeGreaterThan(method === 'water' ? 59.9 : 69.9);
      // The steps of conduction are good to 1 K.
      expect(Math.max(rows.at(-1)![1]!, rows.at(-1)![2]!)).toBeLessThanOrEqual(method === 'water' ? 201.8 : 301.8);
    },
  );

  it('that finds no solution says what to change', () => {
    const mesh = radialMesh([{ inner: 0.01, outer: 0.02, cells: 4 }]);
    const wild = plainMetal(7850, NaN, 40);
    expect(() =>
      radialConduction(mesh, wild, 300, [{ duration: 10, bore: INSULATED, outside: INSULATED }], {
        contact: 1000,
        tolerance: 1,
      }),
    ).toThrow(/finds no solution.*heat into the part, heated zone/);
  });

  it('names the target and what it came with', () => {
    expect(message('BURN.COOL.TIME', 4, 2.5, 10, 'air', '60 F')).toBe(
      "#VALUE! target is 60 F; must be more than the air's 70 F",
    );
    expect(message('BURN.COOL.TIME', 4, 2.5, 10, 'oil')).toBe('#VALUE! method is "oil"; must be one of air, water');
    expect(message('BURN.COOL.TIME', '100 mm', '120 mm', '250 mm', undefined, undefined, [['units', 'SI']])).toBe(
      "#VALUE! hole is 120 mm; must be less than the pin's 100 mm",
    );
  });
});

describe('push-out and plates', () => {
  it('brings the next common ram, worked to four fifths', () => {
    expect(value('BURN.PUSH.RAM', 24)).toBe(30);
    expect(value('BURN.PUSH.RAM', 24.1)).toBe(50);
    expect(message('BURN.PUSH.RAM', 3000)).toContain('burn a larger bore, run water, or push with more than one ram');
  });

  it('makes spacers that carry the pin through', () => {
    const [, row] = cells('BURN.PUSH.SPACERS', 10, 6);
    expect(row).toEqual([
      1,
      3,
      2,
      expect.closeTo(5.4, 9),
      11,
      expect.closeTo(10.8, 9),
      'one spacer goes in after every stroke but the last',
    ]);
  });

  it('checks a push: stress is force over area, too much is named, energy warns', () => {
    const [, stress, allowed, used] = line('BURN.PUSH.CHECK', 'bearing', 30, 4, 2.5, 10, 3.5) as [
      string,
      number,
      number,
      number,
    ];
    expect(stress).toBeCloseTo(60000 / ((Math.PI / 4) * (3.5 ** 2 - 2.5 ** 2)), 6);
    expect(used).toBeCloseTo((100 * stress) / allowed, 9);
    expect(String(line('BURN.PUSH.CHECK', 'bearing', 200, 4, 2.5, 10, 3)[4])).toMatch(/^TOO MUCH/);
    expect(String(line('BURN.PUSH.CHECK', 'energy let go', 30, 4, 2.5, 10)[4])).toMatch(
      /can fly at up to .* restrain it/,
    );
    expect(message('BURN.PUSH.CHECK', 30, 4, 2.5, 10, 2)).toContain('into which it would slip');
  });

  it('warns where the drift of a deep pierce reaches the boss', () => {
    expect(line('BURN.GUARD.PLATES', 'drift', 4, 10)[1]).toBe('stays in the pin');
    expect(String(line('BURN.GUARD.PLATES', 'drift', 3, 40)[3])).toContain('WARNING');
    const walls = [5, 10, 20, 40].map((L) => line('BURN.GUARD.PLATES', 'wall likely', 4, L)[1] as number);
    walls.slice(1).forEach((w, i) => expect(w).toBeLessThan(walls[i]!));
  });
});

describe('the plan of a pin', () => {
  const planOf = (...args: Argument[]): Readonly<Record<string, Cell>> => {
    const [heads, row] = cells('BURN.PIN.PLAN', ...args);
    return Object.fromEntries(heads!.map((h, i) => [String(h), row![i]!]));
  };

  it('holds cooling and ram, and the crew waits through the cooling', () => {
    const plan = planOf(4, 10);
    const water = planOf(4, 10, undefined, undefined, undefined, [['cooling method', 'water']]);
    expect(plan['ram, ton']).toBe(50);
    expect((plan['crew, min'] as number) - (water['crew, min'] as number)).toBeCloseTo(
      (plan['cooling, min'] as number) - (water['cooling, min'] as number),
      9,
    );
    expect([plan['conditions'], water['conditions']]).toEqual(['', 'water quench']);
    expect(water['cautions']).toContain('steam in the bore');
  });

  it('of 4 in x 10 in takes the crew about an hour in all', () => {
    // Common practice, no source.
    const plan = planOf(4, 10);
    expect(plan['crew low, min']).toBeLessThan(60);
    expect(plan['crew high, min']).toBeGreaterThan(60);
  });

  it('gives a pin the same alone as in a list', () => {
    const D = [[2.2], [4], [5.3], [7.7]];
    const list = cells('BURN.PIN.TIME', D, 11).map((row) => row[0]);
    expect(list).toEqual(D.map(([d]) => value('BURN.PIN.TIME', d, 11)));
  });

  it('leaves cooling and ram blank for what is not pushed out', () => {
    const [heads, row] = cells('BURN.HOLE.PLAN', 2, 4);
    expect(heads!.map(String)).toContain('ram, ton');
    expect(row![heads!.map(String).indexOf('cooling, min')]).toBeNull();
  });

  it.each([
    ['air', 0.25, 1],
    ['air', 1, 12],
    ['water', 0.25, 1],
    ['water', 1, 12],
  ] as const)(
    'reads cooling with %s of pins of %d to %d in from a table mostly within 10 percent or 2 minutes of the solution, always within 6',
    (method, least, most) => {
      const a = Assumptions.from([{ name: 'cooling method', word: method }]);
      const basis = new Basis(a);
      const PINS = 150;
      let beyond = 0;
      for (let i = 0; i < PINS; i++) {
        // Spread evenly: bored 0.2 to 0.955 of the diameter, 0.5 to 6.5 diameters long.
        const diameter = INCH * least * (most / least) ** ((i * 0.618034) % 1);
        const pin = {
          diameter,
          hole: (0.2 + 0.755 * ((i * 0.754877) % 1)) * diameter,
          length: (0.5 + 6 * ((i * 0.56984) % 1)) * diameter,
        };
        // Pins of a plan are burnt at 0.3 to 1.6 lb a minute.
        const pace = 0.0023 * (0.012 / 0.0023) ** ((i * 0.3819) % 1);
        const solved = coolingTime(
          coolingInForce({ ...pin, boss: bossInForce(diameter, a) }, method, undefined, pace, a),
          physicsInForce(a),
        );
        const off = Math.abs(tabulatedCoolingTime(pin, pace, basis) - solved);
        if (off > Math.max(0.1 * solved, 120)) beyond++;
        expect(off).toBeLessThan(Math.max(0.1 * solved, 360));
      }
      expect(beyond).toBeLessThanOrEqual(0.02 * PINS);
    },
  );
});
