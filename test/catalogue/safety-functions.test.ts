import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell, type CellError } from '../../src/catalogue/cell.ts';
import type { Declaration } from '../../src/catalogue/declaration.ts';
import { SAFETY_FUNCTIONS } from '../../src/catalogue/safety-functions.ts';
import { findMaterial } from '../../src/core/burn/materials.ts';
import { CAUTIONS, cautionsOf, type RaisedCaution } from '../../src/core/safety/cautions.ts';
import { parseConditions } from '../../src/core/safety/conditions.ts';
import { itemOf } from '../../src/core/safety/item.ts';
import { SEVERITIES } from '../../src/core/safety/caution.ts';
import { OPERATION_IDS, isOperation, type OperationId } from '../../src/core/operations/all.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { REGISTRY, type NumberName } from '../../src/core/assumptions/registry.ts';
import { findSource } from '../../src/core/sources/register.ts';
import { call } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { replay } from '../core/model/replay.ts';

const named = (name: string): Declaration => {
  const d = findFunction(name);
  if (!d) throw new Error(name);
  return d;
};
const cells = (name: string, ...args: readonly Argument[]): readonly (readonly Cell[])[] => call(named(name), args);
function value(name: string, ...args: readonly Argument[]): number {
  const [[cell] = []] = cells(name, ...args);
  if (typeof cell !== 'number') throw new Error(`${name}: ${JSON.stringify(cell)}`);
  return cell;
}
function error(name: string, ...args: readonly Argument[]): CellError {
  const [[cell] = []] = cells(name, ...args);
  if (cell === undefined || !isCellError(cell)) throw new Error(`${name}: ${JSON.stringify(cell)}`);
  return cell;
}
/** What a cell shows; nothing for an error. */
const text = (cell: Cell | undefined): string =>
  cell === undefined || cell === null || isCellError(cell) ? '' : String(cell);
const column = (...xs: readonly Cell[]): readonly (readonly Cell[])[] => xs.map((x) => [x]);
/** A table by its headings, without the units in them. */
const table = (name: string, ...args: readonly Argument[]): readonly Readonly<Record<string, Cell>>[] => {
  const [headings = [], ...rows] = cells(name, ...args);
  return rows.map((row): Readonly<Record<string, Cell>> =>
    Object.fromEntries(headings.map((h, i): readonly [string, Cell] => [text(h).split(',')[0] ?? '', row[i] ?? null])),
  );
};
const cautionsFor = (operation: OperationId, conditions: readonly string[]): readonly RaisedCaution[] =>
  cautionsOf(itemOf({ operation, material: findMaterial('carbon steel'), conditions: parseConditions(conditions) }));
const steps = (name: string, ...args: readonly Argument[]) => explain(named(name), args).steps;

describe('BURN.NOISE.HOURS', () => {
  /** 29 CFR 1910.95, Table G-16, as printed (92 prints 6 and 102 prints 1.5 for 6.06 and 1.52 of the note's formula). */
  const G16 = [
    [90, 8],
    [92, 6],
    [95, 4],
    [97, 3],
    [100, 2],
    [102, 1.5],
    [105, 1],
    [110, 0.5],
    [115, 0.25],
  ] as const;

  it('gives the hours of Table G-16, and of its formula', () => {
    for (const [level, hours] of G16) {
      const ours = value('BURN.NOISE.HOURS', level, 'OSHA');
      expect(Math.abs(ours - hours), String(level)).toBeLessThanOrEqual(0.07);
      expect(ours).toBeCloseTo(8 / 2 ** ((level - 90) / 5), 10);
    }
  });

  it('gives the minutes of NIOSH 98-126, 480 / 2^((L - 85) / 3)', () => {
    for (const [level, minutes] of [
      [85, 480],
      [88, 240],
      [91, 120],
      [94, 60],
      [97, 30],
      [100, 15],
      [103, 7.5],
    ] as const) {
      expect(60 * value('BURN.NOISE.HOURS', level, 'niosh')).toBeCloseTo(minutes, 9);
    }
  });

  it('spills over levels and rules, and takes the assumption where no rule is named', () => {
    expect(cells('BURN.NOISE.HOURS', column(90, 95), [['OSHA', 'NIOSH']])).toHaveLength(2);
    const inForce = REGISTRY.find((a) => a.name === 'noise rule')?.value;
    expect(value('BURN.NOISE.HOURS', 92)).toBe(value('BURN.NOISE.HOURS', 92, inForce as string));
    expect(value('BURN.NOISE.HOURS', 92, undefined, [['noise rule', 'OSHA']])).toBe(
      value('BURN.NOISE.HOURS', 92, 'OSHA'),
    );
  });

  it('says that above 115 dBA OSHA allows no time', () => {
    expect(steps('BURN.NOISE.HOURS', 118, 'OSHA').at(-1)?.value).toBe('no time above 115 dBA');
    expect(steps('BURN.NOISE.HOURS', 115, 'OSHA').map((s) => s.symbol)).not.toContain('allowed');
  });

  it('refuses what is no level or no rule', () => {
    expect(error('BURN.NOISE.HOURS', 150).message).toBe('level is 150 dBA; must be at most 140 dBA');
    expect(error('BURN.NOISE.HOURS', 92, 'ISO').message).toBe('rule is "ISO"; must be one of OSHA, NIOSH, EU');
  });
});

describe('BURN.NOISE.DOSE', () => {
  it('adds the tasks of a shift as 29 CFR 1910.95 Appendix A does: 100 sum(C/T)', () => {
    expect(value('BURN.NOISE.DOSE', column(95, 100, 90), column(1, 0.5, 4), 'OSHA')).toBeCloseTo(
      100 * (1 / 4 + 0.5 / 2 + 4 / 8),
      9,
    );
    expect(value('BURN.NOISE.DOSE', [[95, 100, 90]], [[1, 0.5, 4]], 'OSHA')).toBeCloseTo(100, 9);
  });

  it("is 100 percent for 8 hours at each rule's own level, and leaves out what is under 80 dBA", () => {
    for (const [rule, level] of [
      ['OSHA', 90],
      ['NIOSH', 85],
      ['EU', 87],
    ] as const)
      expect(value('BURN.NOISE.DOSE', level, 8, rule)).toBeCloseTo(100, 9);
    expect(value('BURN.NOISE.DOSE', column(90, 79), column(8, 4), 'OSHA')).toBeCloseTo(100, 9);
  });

  it('is one for each rule of a range of rules', () => {
    expect(cells('BURN.NOISE.DOSE', column(92, 100), column(4, 0.5), [['OSHA', 'NIOSH']])[0]).toHaveLength(2);
  });

  it('passes over rows where both are blank, and takes one cell of hours for all', () => {
    expect(value('BURN.NOISE.DOSE', column(95, null, 90), column(1, null, 4), 'OSHA')).toBeCloseTo(75, 9);
    expect(value('BURN.NOISE.DOSE', column(95, 0, 90), column(1, 0, 4), 'OSHA')).toBeCloseTo(75, 9);
    expect(value('BURN.NOISE.DOSE', column(95, 90, null), 2, 'OSHA')).toBeCloseTo(75, 9);
    expect(value('BURN.NOISE.DOSE', 95, column(1, null, 1), 'OSHA')).toBeCloseTo(50, 9);
  });

  it('replays from its tasks', () => {
    const working = steps('BURN.NOISE.DOSE', column(95, 70, 100), column(1, 2, 0.5), 'EU');
    expect(new Set(working.map((s) => s.symbol)).size).toBe(working.length);
    for (const { step, value: again } of replay(working)) expect(again / (step.value as number)).toBeCloseTo(1, 12);
    expect(100 * (working.at(-1)?.value as number)).toBeCloseTo(
      value('BURN.NOISE.DOSE', column(95, 70, 100), column(1, 2, 0.5), 'EU'),
      9,
    );
  });

  it('names the row of a bad cell, unequal ranges, too long a shift and nothing at all', () => {
    expect(error('BURN.NOISE.DOSE', column(95, 'loud'), column(1, 2)).message).toMatch(
      /^levels row 2: level is "loud"; must be a number/,
    );
    expect(error('BURN.NOISE.DOSE', column(95, { error: '#N/A', message: '' }), column(1, 2)).message).toContain(
      'levels row 2: level holds the error #N/A',
    );
    expect(error('BURN.NOISE.DOSE', column(95, 90), column(1, null)).message).toBe(
      'hours row 2: hours is blank or zero; must be more than 0',
    );
    expect(error('BURN.NOISE.DOSE', column(95, 90), column(1, -2)).message).toBe(
      'hours row 2: hours is -2 h; must be more than 0 h',
    );
    expect(error('BURN.NOISE.DOSE', column(95, 90), column(1, 2, 3)).message).toMatch(
      /levels is 2 by 1 cells and hours is 3 by 1 cells/,
    );
    expect(error('BURN.NOISE.DOSE', column(95, 90), column(13, 12)).message).toBe(
      'hours add up to 25 h; must be at most 24 h in a shift',
    );
    expect(error('BURN.NOISE.DOSE', column(null, null), column(null, null)).message).toBe('levels is missing');
  });
});

describe('BURN.NOISE.SHIFT', () => {
  const stands = (level: number, rule: string): Readonly<Record<string, Cell>> =>
    Object.fromEntries(table('BURN.NOISE.SHIFT', level, 8, rule).map((r) => [text(r['figure']), r['stands'] ?? null]));

  it('holds the average beside the 80, 85 and 87 dBA of Directive 2003/10/EC, Article 3', () => {
    expect(stands(84, 'EU')).toMatchObject({
      'lower action value': 'exceeds',
      'upper action value': 'does not reach',
      'limit value': 'does not exceed',
    });
    expect(stands(85, 'EU')).toMatchObject({ 'upper action value': 'reaches' });
    expect(stands(88, 'EU')).toMatchObject({ 'limit value': 'exceeds' });
  });

  it('holds it beside the action level of 85 and the 90 dBA of 29 CFR 1910.95', () => {
    expect(stands(85, 'OSHA')).toMatchObject({
      'action level': 'reaches',
      'permissible exposure': 'does not exceed',
      dose: 'does not exceed',
    });
    expect(stands(92, 'OSHA')).toMatchObject({ 'permissible exposure': 'exceeds', dose: 'exceeds' });
  });

  it('asks for plugs and muffs together above 100 dBA, and above 105 in mines', () => {
    expect(stands(101, 'OSHA')).toMatchObject({
      'double hearing protection, as NIOSH advises': 'exceeds',
      'double hearing protection, in mines': 'does not exceed',
    });
    expect(stands(106, 'NIOSH')).toMatchObject({
      'double hearing protection': 'exceeds',
      'double hearing protection, in mines': 'exceeds',
    });
    expect(stands(116, 'OSHA')).toMatchObject({ 'loudest task': 'exceeds' });
  });

  it('gives no average where no level counts', () => {
    const rows = table('BURN.NOISE.SHIFT', 70, 8, 'OSHA');
    expect(rows[0]).toMatchObject({ figure: 'dose', value: 0 });
    expect(rows[1]).toMatchObject({ value: null, stands: 'no level counts' });
  });
});

describe('the air of a room', () => {
  it('follows the exact exponential; 1 scfm at 70 F and 14.696 psia is 1 cfm', () => {
    for (const [V, q, Q, t, start] of [
      [4000, 6, 150, 30, 20.9],
      [1000, 6, 0, 12, 20.9],
      [12000, 9, 2000, 60, 24],
    ] as const) {
      const settled = (100 * q + 20.9 * Q) / (q + Q);
      expect(value('BURN.AIR.OXYGEN', V, q, Q, t, start)).toBeCloseTo(
        settled + (start - settled) * Math.exp((-(q + Q) * t) / V),
        9,
      );
    }
  });

  it('agrees with its own equation, integrated by small steps', () => {
    const [V, q, Q] = [3000, 7, 120];
    const n = 20_000;
    let x = 0.209;
    for (let i = 0; i < n; i++) {
      const slope = (y: number): number => (q + 0.209 * Q - (q + Q) * y) / V;
      const h = 45 / n;
      x += h * slope(x + (h / 2) * slope(x));
    }
    expect(value('BURN.AIR.OXYGEN', V, q, Q, 45)).toBeCloseTo(100 * x, 6);
  });

  it('reaches 23.5 percent when BURN.AIR.RISE says, and is back there when BURN.AIR.CLEAR says (29 CFR 1910.146(b))', () => {
    const rise = value('BURN.AIR.RISE', 4000, 6, 100);
    expect(value('BURN.AIR.OXYGEN', 4000, 6, 100, rise)).toBeCloseTo(23.5, 9);
    const clear = value('BURN.AIR.CLEAR', 4000, 500, 26);
    expect(value('BURN.AIR.OXYGEN', 4000, 0, 500, clear, 26)).toBeCloseTo(23.5, 9);
    expect(clear).toBeCloseTo((4000 / 500) * Math.log((26 - 20.9) / (23.5 - 20.9)), 9);
    expect(value('BURN.AIR.CLEAR', 4000, 500, 22)).toBe(0);
    expect(value('BURN.AIR.RISE', 4000, 6, 100, 24)).toBe(0);
  });

  it('settles at 23.5 percent with the air that BURN.AIR.FRESH asks for: 29.4 cfm for each scfm in good mixing', () => {
    expect(value('BURN.AIR.FRESH', 1)).toBeCloseTo(76.5 / 2.6, 9);
    expect(value('BURN.AIR.OXYGEN', 4000, 6, value('BURN.AIR.FRESH', 6), 10_000)).toBeCloseTo(23.5, 9);
    expect(value('BURN.AIR.FRESH', 6, 22)).toBeGreaterThan(value('BURN.AIR.FRESH', 6));
  });

  it('takes poor mixing, warm air, height and leaks from the assumptions', () => {
    expect(value('BURN.AIR.FRESH', 6, undefined, [['air mixing factor', 3]])).toBeCloseTo(
      3 * value('BURN.AIR.FRESH', 6),
      9,
    );
    expect(value('BURN.AIR.OXYGEN', 4000, 6, 150, 30, undefined, [['air mixing factor', 5]])).toBeGreaterThan(
      value('BURN.AIR.OXYGEN', 4000, 6, 150, 30),
    );
    expect(value('BURN.AIR.FRESH', 6, undefined, [['room temperature', 110]]) / value('BURN.AIR.FRESH', 6)).toBeCloseTo(
      (110 + 459.67) / (70 + 459.67),
      9,
    );
    expect(value('BURN.AIR.FRESH', 6, undefined, [['air pressure', 12]]) / value('BURN.AIR.FRESH', 6)).toBeCloseTo(
      14.696 / 12,
      9,
    );
    // (1 - least share that burns) x 8 + 0.1: on the safe side for the air of a room, since less may burn than is most likely.
    const least = (name: NumberName): number => Assumptions.defaults().inForce(name).low;
    expect(value('BURN.AIR.RELEASE', 8)).toBeCloseTo((1 - least('oxygen burnt share')) * 8 + 0.1, 9);
    expect(value('BURN.AIR.RELEASE', 8)).toBeGreaterThan(
      (1 - Assumptions.defaults().value('oxygen burnt share')) * 8 + 0.1,
    );
    expect(value('BURN.AIR.RELEASE', 8, '1/2 pipe')).toBeCloseTo((1 - least('bar oxygen burnt share')) * 8 + 0.1, 9);
    expect(value('BURN.AIR.RELEASE', 8, undefined, [['leak flow', 1]])).toBeCloseTo(
      value('BURN.AIR.RELEASE', 8) + 0.9,
      9,
    );
    expect(value('BURN.AIR.RELEASE', 8, undefined, [['oxygen burnt share', 0.3, 0.3, 0.3]])).toBeCloseTo(5.7, 9);
    expect(steps('BURN.AIR.RELEASE', 8).find(({ symbol }) => symbol === 'eta')?.formula).toContain('the safe side');
  });

  it('takes percent as percent, and a cell formatted as a percentage too', () => {
    expect(value('BURN.AIR.OXYGEN', 4000, 6, 150, 0, 20.9)).toBeCloseTo(20.9, 12);
    expect(value('BURN.AIR.OXYGEN', 4000, 6, 150, 0, 0.209)).toBeCloseTo(20.9, 12);
    expect(value('BURN.AIR.OXYGEN', 4000, 6, 150, 0, '20.9%')).toBeCloseTo(20.9, 12);
    expect(value('BURN.AIR.FRESH', 6, 0.235)).toBeCloseTo(value('BURN.AIR.FRESH', 6, 23.5), 9);
  });

  it('says when there is no answer, with figures', () => {
    expect(error('BURN.AIR.RISE', 4000, 6, 2000)).toEqual({
      error: '#N/A',
      message:
        "by these figures the room's average levels off at 21.1366% oxygen and does not reach 23.5%; near the work it is higher: measure",
    });
    expect(error('BURN.AIR.CLEAR', 4000, 0, 26).message).toBe(
      'without fresh air the room does not clear; fresh air must be more than 0',
    );
    expect(error('BURN.AIR.FRESH', 6, 20).message).toContain('fresh air cannot bring the room to 20% oxygen');
    expect(error('BURN.AIR.OXYGEN', 0, 6, 150, 30).message).toContain('volume is blank or zero');
    expect(error('BURN.AIR.OXYGEN', 4000, 6, 150, 30, 120).message).toBe('start is 120 %; must be at most 100 %');
  });

  it('asks for 2000 cfm for each person under 10,000 cu ft, under 16 ft or in a confined space (29 CFR 1910.252(c)(2))', () => {
    expect(value('BURN.AIR.PEOPLE', 9999, 16, 1)).toBeCloseTo(2000, 9);
    expect(value('BURN.AIR.PEOPLE', 10_000, 16, 1)).toBe(0);
    expect(value('BURN.AIR.PEOPLE', 10_000, 16, 2)).toBeCloseTo(4000, 9);
    expect(value('BURN.AIR.PEOPLE', 60_000, 15.9, 3)).toBeCloseTo(6000, 9);
    expect(value('BURN.AIR.PEOPLE', 60_000, 30, 1, 'yes')).toBeCloseTo(2000, 9);
  });
});

describe('BURN.AIR.FUME', () => {
  it('holds iron oxide and manganese beside 10 and 5 mg/m3 of 29 CFR 1910.1000 and what NIOSH advises', () => {
    const rows = table('BURN.AIR.FUME', '3/8', 20, 4000, 150);
    expect(rows.map((r) => [r['over'], r['limit'], r['whose']])).toEqual(
      [
        ['8 hours', 10, 'legal limit'],
        ['8 hours', 5, 'recommended limit'],
        ['at any time', 5, 'legal limit'],
        ['15 minutes', 3, 'recommended limit'],
        ['8 hours', 1, 'recommended limit'],
      ].map(([over, limit, whose]): readonly unknown[] => [over, expect.closeTo(limit as number, 9) as unknown, whose]),
    );
    for (const r of rows)
      expect(text(r['stands'])).toMatch(Number(r['times the limit']) > 1 ? /exceeds/ : /does not exceed/);
  });

  it('grows with minutes and factor, falls with room and air, and is nothing where nothing burns', () => {
    const iron = (...args: readonly Argument[]): number => Number(table('BURN.AIR.FUME', ...args)[0]?.['in the air']);
    const base = iron('3/8', 20, 4000, 150);
    expect(iron('3/8', 40, 4000, 150)).toBeGreaterThan(base);
    expect(iron('3/8', 20, 8000, 150)).toBeLessThan(base);
    expect(iron('3/8', 20, 4000, 1500)).toBeLessThan(base);
    expect(iron('3/8', 0, 4000, 150)).toBe(0);
    expect(iron('3/8', 20, 4000, 150, [['fume factor', 6]]) / base).toBeCloseTo(2, 9);
    expect(iron('3/8', 20, 4000, 150, [['tip pressure', 60]])).toBeLessThan(base);
  });

  it("takes manganese steel at its own content, and only the rod's metal in concrete", () => {
    const manganese = (material: string): number =>
      Number(table('BURN.AIR.FUME', '3/8', 20, 4000, 150, [['material', material]])[4]?.['in the air']);
    expect(manganese('manganese steel')).toBeGreaterThan(5 * manganese('carbon steel'));
    expect(manganese('concrete')).toBeLessThan(manganese('carbon steel'));
    expect(manganese('concrete')).toBeGreaterThan(0);
  });

  it('replays, as an order of magnitude in air that is exchanged', () => {
    for (const args of [
      ['3/8', 20, 4000, 150],
      ['1/2 pipe', 60, 20_000, 5000],
      ['1/4', 5, 50_000, 10],
    ] as const) {
      const working = steps('BURN.AIR.FUME', ...args);
      expect(new Set(working.map((s) => s.symbol)).size).toBe(working.length);
      // A task under 15 minutes has no time before its last 15: a step of 0 comes again as 0.
      for (const { step, value: again } of replay(working)) {
        const was = step.value as number;
        expect(Math.abs(again - was), step.symbol).toBeLessThanOrEqual(5e-10 * Math.abs(was));
      }
    }
  });
});

describe('fire', () => {
  it('is watched for half an hour by 29 CFR 1910.252(a)(2)(iii)(B) and NFPA 51B of 2014, for an hour by that of 2019', () => {
    expect(value('BURN.FIRE.WATCH', 'OSHA')).toBe(30);
    expect(value('BURN.FIRE.WATCH', 'NFPA 51B 2014')).toBe(30);
    expect(value('BURN.FIRE.WATCH', 'NFPA 51B 2019')).toBe(60);
    expect(value('BURN.FIRE.WATCH', 2019)).toBe(60);
    expect(value('BURN.FIRE.WATCH', 'NFPA 51B')).toBe(60);
    expect(steps('BURN.FIRE.WATCH', 'NFPA 51B 2019').at(-1)).toMatchObject({
      name: 'monitoring after the watch',
      value: 180 * 60,
    });
    expect(value('BURN.FIRE.WATCH', undefined, [['fire watch rule', 'OSHA']])).toBe(30);
    expect(error('BURN.FIRE.WATCH', 'NFPA 1').message).toBe(
      'rule is "NFPA 1"; must be one of OSHA, NFPA 51B 2009, NFPA 51B 2014, NFPA 51B 2019',
    );
  });

  it('reaches 35 ft (29 CFR 1910.252(a)(2)(vii)) from the floor, and farther from a height', () => {
    expect(value('BURN.FIRE.REACH', 0)).toBeCloseTo(35, 9);
    const heights = column(10, 20, 40, 80, 160, 320);
    const reach = cells('BURN.FIRE.REACH', heights).map(([r]) => Number(r));
    expect([...reach].sort((a, b) => a - b)).toEqual(reach);
    expect(reach.at(-1)).toBeGreaterThan(70);
    expect(value('BURN.FIRE.REACH', 30, [['wind', '5 m/s']])).toBeGreaterThan(value('BURN.FIRE.REACH', 30));
    expect(value('BURN.FIRE.REACH', 30, [['drop diameter', '0.3 mm']])).toBeCloseTo(35, 9);
    expect(error('BURN.FIRE.REACH', 700).message).toMatch(/^height is 700 ft; must be at most 656/);
  });

  it('lists what lies inside, nearest first, then what to look for', () => {
    const rows = table('BURN.FIRE.CHECK', 10, [
      ['what', 'distance, m'],
      ['hay barn', 11],
      ['diesel tank', '20 ft'],
      [null, null],
      ['hut', 2],
    ]);
    expect(rows.slice(0, 3).map((r) => [r['look for'], Math.round(Number(r['distance']))])).toEqual([
      ['hut', 7],
      ['diesel tank', 20],
      ['loose combustibles: wood, paper, rags, packing, dry grass, oil and grease on the floor', 0],
    ]);
    expect(rows.length).toBeGreaterThan(10);
    expect(table('BURN.FIRE.CHECK', 10)).toHaveLength(rows.length - 2);
    expect(error('BURN.FIRE.CHECK', 10, column('hut')).message).toBe(
      'things is one column; must be two: name, distance',
    );
    expect(
      error('BURN.FIRE.CHECK', 10, [
        ['hut', 5],
        ['barn', 'far'],
      ]).message,
    ).toMatch(/^things row 2: distance is "far"/);
    expect(error('BURN.FIRE.CHECK', 10, [['hut', null]]).message).toBe('things row 1: distance is blank');
  });
});

describe('eyes, cylinders and power', () => {
  it('gives the least shade of 29 CFR 1910.133(a)(5) for oxygen cutting', () => {
    expect([0.5, 0.999, 1, 6, 6.001, '25 mm', '200 mm'].map((t) => value('BURN.EYE.SHADE', t))).toEqual([
      3, 3, 4, 4, 5, 3, 5,
    ]);
  });

  it('holds a distance beside 20 ft, or a barrier of 5 ft and half an hour (29 CFR 1910.253(b)(4)(iii))', () => {
    const rows = table(
      'BURN.CYLINDER.SEPARATION',
      column(20, 12, 12, 12),
      column(null, null, 5, 5),
      column(null, null, 30, 29),
    );
    expect(rows.map((r) => [r['missing'], r['barrier counts']])).toEqual([
      [0, ''],
      [expect.closeTo(8, 9), ''],
      [expect.closeTo(8, 9), 'yes'],
      [expect.closeTo(8, 9), 'no'],
    ]);
    expect(rows[1]?.['stands']).toContain('12 ft is less than the legal limit of 20 ft');
    expect(rows[2]?.['stands']).toContain('the barrier takes the place');
    expect(table('BURN.CYLINDER.SEPARATION', -3)[0]?.['stands']).toContain(
      'separation is -3 ft; must be at least 0 ft',
    );
  });

  it('holds a manifold beside 6000, 13,000 and 25,000 cu ft (29 CFR 1910.253(c)(2), 1910.104(b)(1))', () => {
    const stands = (...args: readonly Argument[]): readonly Cell[] =>
      table('BURN.CYLINDER.LIMITS', ...args).map((r) => r['stands'] ?? null);
    expect(stands(24, 250)).toEqual(['does not exceed', 'does not exceed', 'does not exceed']);
    expect(stands(25, 250)).toEqual(['exceeds', 'does not exceed', 'does not exceed']);
    expect(stands(53, 250)).toEqual(['exceeds', 'exceeds', 'does not exceed']);
    expect(stands(1, 250, 25_000)).toEqual(['does not exceed', 'does not exceed', 'exceeds']);
    // A full 43 L cylinder at 2200 psi holds 244 scf (US Army TC 9-237).
    expect(Number(table('BURN.CYLINDER.LIMITS', 1)[0]?.['oxygen'])).toBeCloseTo(244, 0);
  });

  it('loses volts as copper of ASTM B258 does: 2/0 has 0.0779 ohm in 1000 ft at 20 C, solid', () => {
    const solid: Argument = [
      ['lead temperature', '20 C'],
      ['lead lay', 1],
    ];
    expect(value('BURN.LEAD.DROP', 1, 1000, '2/0', solid)).toBeCloseTo(0.0779, 3);
    expect(value('BURN.LEAD.DROP', 150, 100, '2/0')).toBeCloseTo(1.5 * value('BURN.LEAD.DROP', 100, 100, '2/0'), 9);
    expect(error('BURN.LEAD.DROP', 150, 100, '7/0')).toMatchObject({ error: '#N/A' });
    expect(value('BURN.LEAD.DROP', 150, 100, 4)).toBeGreaterThan(value('BURN.LEAD.DROP', 150, 100, 2));
  });

  it('counts the rods a battery lights, plain seconds as seconds', () => {
    expect(value('BURN.BATTERY.STRIKES', 100, 100, 2)).toBe(value('BURN.BATTERY.STRIKES', 100));
    expect(value('BURN.BATTERY.STRIKES', 100, 100, '4 s')).toBe(value('BURN.BATTERY.STRIKES', 100, 100, 4));
    expect(value('BURN.BATTERY.STRIKES', 100, 100, 4)).toBe(Math.floor(value('BURN.BATTERY.STRIKES', 100, 100, 2) / 2));
    // No Peukert loss, all of the charge: 100 Ah x 3600 / (100 A x 2 s).
    expect(
      value('BURN.BATTERY.STRIKES', 100, 100, 2, [
        ['peukert exponent', 1],
        ['battery usable share', 100],
      ]),
    ).toBe(1800);
  });
});

describe('BURN.CAUTIONS', () => {
  it('lists the cautions of an operation and of the conditions in the cells, most severe first', () => {
    const rows = table(
      'BURN.CAUTIONS',
      'PIN',
      column(
        'confined',
        null,
        'height 30 ft',
        'galvanised',
        'hydraulic cylinder',
        'grease-packed',
        'water quench',
        'grounded work',
        'concrete',
      ),
    );
    const ranks = rows.map((r) => SEVERITIES.indexOf(r['severity'] as (typeof SEVERITIES)[number]));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    const because = new Set(rows.map((r) => r['because']));
    for (const word of [
      'confined',
      'height',
      'galvanised',
      'hydraulic cylinder',
      'grease packed',
      'water quench',
      'grounded work',
      'concrete',
      'PIN',
    ])
      expect(
        [...because].some((b) => text(b).includes(word)),
        word,
      ).toBe(true);
    for (const r of rows) {
      expect(r['source'], text(r['caution'])).not.toBe('');
      expect(text(r['what to do'])).not.toBe('');
    }
  });

  it('names clause and edition of the source', () => {
    const zinc = table('BURN.CAUTIONS', 'CUT', 'zinc').find((r) => r['because'] === 'galvanised');
    expect(zinc).toMatchObject({ clause: '1910.252(c)(6)' });
    expect(text(zinc?.['source'])).toContain('29 CFR 1910.252');
    expect(text(zinc?.['edition'])).toMatch(/^as in force 2024/);
  });

  it('takes several in one cell, a number or a tick beside its word, and several operations', () => {
    const because = (cellsOf: Argument, operation = 'PIN'): ReadonlySet<Cell> =>
      new Set(table('BURN.CAUTIONS', operation, cellsOf).map((r) => r['because'] ?? null));
    expect(because('confined, height 30 ft; wet')).toEqual(because(column('confined', 'height 30 ft', 'wet')));
    expect(
      because([
        ['condition', null],
        ['height', 30],
        ['confined', true],
        ['wet', false],
      ]),
    ).toEqual(because('height 30 ft, confined'));
    expect(because([['noise', 104]]).has('noise')).toBe(true);
    const both = new Set(table('BURN.CAUTIONS', 'pin, Cut').map((r) => r['caution']));
    for (const operation of ['PIN', 'CUT'])
      for (const r of table('BURN.CAUTIONS', operation)) expect(both.has(r['caution'] ?? null)).toBe(true);
    expect(because(column(30)).size).toBe(0);
  });

  it('answers an unknown word with #N/A and the nearest, a bad cell with its row', () => {
    expect(error('BURN.CAUTIONS', 'PIN', column('confined', 'galvinised'))).toEqual({
      error: '#N/A',
      message: expect.stringMatching(/condition "galvinised" is not in the register; nearest: galvanised/) as unknown,
    });
    expect(error('BURN.CAUTIONS', 'PINS').message).toContain('operation "PINS" is not in the register; nearest: PIN');
    expect(error('BURN.CAUTIONS', 'PIN', column('wet', { error: '#REF!', message: '' })).message).toBe(
      'conditions row 2: condition holds the error #REF!; mend that cell first',
    );
    expect(error('BURN.CAUTIONS', 'PIN', 'noise').message).toContain('needs a value, such as noise 95 dBA');
  });

  it('knows the words that BURN.CONDITIONS lists', () => {
    for (const { condition, value: asked } of table('BURN.CONDITIONS')) {
      const example = /^must follow: (.*)$/.exec(text(asked))?.[1];
      expect(cells('BURN.CAUTIONS', 'GOUGE', `${text(condition)} ${example ?? ''}`)[0]?.[0], text(condition)).toBe(
        'severity',
      );
    }
  });
});

describe('the items that BURN.CAUTIONS and BURN.PPE.LIST are asked about', () => {
  const titles = (...args: readonly Argument[]): readonly string[] =>
    table('BURN.CAUTIONS', ...args).map((r) => text(r['caution']));
  const CHROMIUM = expect.stringContaining('hexavalent chromium') as unknown;

  it('may be sizes with rod and material, or a plan, also one cut down to what cautions need', () => {
    expect(titles('PIN')).not.toContainEqual(CHROMIUM);
    expect(titles('PIN', undefined, [[4, 10, null, null, 'stainless steel']])).toContainEqual(CHROMIUM);
    const whole = cells('BURN.PIN.PLAN', column(4, 3), 10, undefined, undefined, column('carbon steel', 'stainless'));
    const cut = whole.map((row) =>
      ['rod', 'operation', 'material', 'conditions'].map(
        (heading) => row[whole[0]?.findIndex((h) => text(h) === heading) ?? -1] ?? null,
      ),
    );
    for (const plan of [whole, cut]) {
      expect(titles('PIN', undefined, plan)).toContainEqual(CHROMIUM);
      expect(table('BURN.PPE.LIST', 'PIN', undefined, plan).map((r) => r['because'])).toContain('stainless steel');
    }
  });

  it('may be a job list in place of the operation: each caution and each thing to wear with the marks it is for', () => {
    const list: Argument = [
      ['mark', 'op', 'dia', 'length', 'thk', 'material', 'condition', 'colour'],
      ['Boom foot', null, 5, 18, null, null, 'height 30 ft', null],
      ['Guard', 'CUT', null, 24, 1, 'stainless steel', null, null],
      [null, null, 2, 6, null, null, null, null],
      ['Stick', null, 4, null, null, null, null, null],
    ];
    const rows = table('BURN.CAUTIONS', list);
    const marksOf = (of: readonly Readonly<Record<string, Cell>>[], because: string): readonly Cell[] => [
      ...new Set(of.filter((r) => r['because'] === because).map((r) => r['for'] ?? null)),
    ];
    expect(marksOf(rows, 'height')).toEqual(['Boom foot']);
    expect(marksOf(rows, 'stainless steel')).toEqual(['Guard']);
    expect(marksOf(rows, 'PIN')).toContain('Boom foot; row 4');
    expect(
      rows.find((r) => r['caution'] === cautionsFor('PIN', []).find((c) => c.key === 'permit')?.title)?.['for'],
    ).toBe('all');
    const plan = cells('BURN.JOB.PLAN', list);
    expect(
      table('BURN.CAUTIONS', 'PIN, CUT', undefined, plan)
        .filter((r) => r['for'] !== null)
        .map((r) => r['caution']),
    ).toEqual(rows.filter((r) => r['for'] !== null).map((r) => r['caution']));
    const worn = table('BURN.PPE.LIST', list);
    expect(marksOf(worn, 'height')).toEqual(['Boom foot']);
    expect(marksOf(worn, 'every burn')).toEqual(['all']);
    for (const of of [cells('BURN.CAUTIONS', list), cells('BURN.PPE.LIST', list)]) {
      expect(of.find((r) => r[0] === 'left out')?.[1]).toBe('Stick: length is blank or zero; must be more than 0');
      expect(of.find((r) => r[0] === 'not read')?.[1]).toMatch(/^column "colour" is not read/);
    }
    // The place is for all of them; no operation by its word has marks.
    expect(marksOf(table('BURN.CAUTIONS', list, 'confined'), 'confined')).toEqual(['all']);
    expect(table('BURN.CAUTIONS', 'PIN').every((r) => r['for'] === null)).toBe(true);
    expect(titles([['PIN'], ['CUT']])).toEqual(titles('PIN, CUT'));
    expect(error('BURN.CAUTIONS', list, undefined, plan).message).toContain('leave items out');
  });

  it('of a list are under the assumptions that their own columns set', () => {
    const list: Argument = [
      ['mark', 'dia', 'length', 'access side', 'existing bore', 'cooling', 'position'],
      ['A', 5, 18, 'one', null, null, null],
      ['B', 4, 6, null, 1, null, 'overhead'],
      ['C', 4, 6, null, null, 'water', null],
    ];
    const of = table('BURN.CAUTIONS', list);
    for (const [because, mark] of [
      ['one side', 'A'],
      ['hollow pin', 'B'],
      ['overhead', 'B'],
      ['water quench', 'C'],
    ])
      // What comes with every pin is for all of them, whatever else brings it up.
      expect(
        [...new Set(of.filter((r) => r['because'] === because && r['for'] !== 'all').map((r) => r['for']))],
        because,
      ).toEqual([mark]);
    const sheet = cells('BURN.JOB.SHEET', list);
    const row = of.find((r) => r['because'] === 'overhead');
    expect(text(sheet.find((r) => r[1] === row?.['caution'])?.[3])).toMatch(/^for B: /);
  });

  it('are all those of a plan, and besides the operations that it lacks', () => {
    const plan = cells('BURN.PIN.PLAN', 4, 10);
    expect(titles('CUT', undefined, plan)).toEqual(titles('PIN, CUT'));
  });

  it('count with a material that is assumed besides that of the plan', () => {
    const plan = cells('BURN.PIN.PLAN', 4, 10);
    expect(titles('PIN', undefined, plan, [['material', 'stainless steel']])).toContainEqual(CHROMIUM);
  });

  it('are as assumed where their cells are blank', () => {
    expect(titles('PIN', undefined, column(null, null))).toEqual(titles('PIN'));
  });

  it('are named where a row does not say what they are', () => {
    const left = (items: Argument): readonly string[] =>
      table('BURN.CAUTIONS', 'PIN', undefined, items)
        .filter((r) => r['severity'] === 'left out')
        .map((r) => text(r['caution']));
    expect(
      left([
        [4, 10],
        ['x', 10],
      ]),
    ).toEqual([expect.stringMatching(/^items row 2: diameter is "x"/)]);
    expect(left(cells('BURN.PIN.PLAN', column(4, 'x'), 10))).toEqual([expect.stringMatching(/^plan row 3: /)]);
    expect(
      table('BURN.PPE.LIST', 'PIN', undefined, [
        [4, 10],
        ['x', 10],
      ]).filter((r) => r['wear'] === 'left out'),
    ).toHaveLength(1);
  });

  it('as sizes need one operation, as a plan every column that cautions rest on', () => {
    expect(error('BURN.CAUTIONS', 'PIN, CUT', undefined, [[4, 10]]).message).toContain('sizes need one operation');
    const plan = cells('BURN.PIN.PLAN', 4, 10).map((row) => row.slice(0, 19));
    expect(error('BURN.CAUTIONS', 'PIN', undefined, plan).message).toContain('plan has no column "operation"');
  });
});

describe('BURN.PPE.LIST', () => {
  it('adds to what is always worn what operation and conditions ask for', () => {
    const worn = (...args: readonly Argument[]): readonly Cell[] =>
      table('BURN.PPE.LIST', ...args).map((r) => r['against'] ?? null);
    expect(worn('PIN')).not.toContain('fume');
    expect(worn('BREACH')).toContain('fume');
    expect(worn('PIN', column('height 30 ft', 'cadmium'))).toEqual(
      expect.arrayContaining(['falls', 'cadmium and beryllium fume', ...worn('PIN')]),
    );
  });
});

describe('the cautions of a plan', () => {
  const cautions = (name: string, ...args: readonly Argument[]): string => text(table(name, ...args)[0]?.['cautions']);

  it('name those that can kill first, and none that can is left out', () => {
    for (const operation of OPERATION_IDS) {
      const d = named(`BURN.${operation}.PLAN`);
      const args = Object.values(d.parameters).map((p) => (p.optional ? undefined : Number(p.example)));
      const cell = cautions(d.name, ...args);
      expect(text(table(d.name, ...args)[0]?.['operation'])).toBe(operation);
      for (const c of cautionsFor(operation, []))
        if (c.severity === 'can kill') expect(cell, operation).toContain(c.key);
      expect(cell.length).toBeLessThan(255);
    }
  });

  it('follow the material, the place and the grounding of each item', () => {
    expect(cautions('BURN.PIN.PLAN', 4, 10, undefined, undefined, 'stainless steel')).toContain('chromium');
    expect(cautions('BURN.PIN.PLAN', 4, 10)).not.toContain('chromium');
    expect(cautions('BURN.CUT.PLAN', 1, 20, undefined, undefined, [['position', 'underwater']])).toContain(
      'gas pockets, shock in water, diving',
    );
    expect(cautions('BURN.CUT.PLAN', 1, 20, undefined, undefined, [['work grounded', 'yes']])).toContain(
      'bearing path',
    );
  });
});

describe('what a declaration says of cautions', () => {
  it('is words that bring cautions up', () => {
    for (const d of CATALOGUE) {
      for (const word of d.cautions) {
        const item = itemOf(isOperation(word) ? { operation: word } : { functions: [`BURN.${word}`] });
        expect(cautionsOf(item).length, `${d.name}: ${word}`).toBeGreaterThan(0);
      }
    }
    for (const d of CATALOGUE.filter((f) => (OPERATION_IDS as readonly string[]).includes(f.family)))
      expect(d.cautions).toEqual([d.family]);
  });

  it('never says that a job is safe', () => {
    for (const d of SAFETY_FUNCTIONS) {
      const texts = [d.summary, ...Object.values(d.parameters).map((p) => p.summary)];
      for (const text of texts) expect(text, d.name).not.toMatch(/\bsafe(ly)?\b/i);
    }
    expect(CAUTIONS.length).toBeGreaterThan(50);
  });
});

describe('BURN.JOB.SHEET', () => {
  const list: Argument = [
    ['mark', 'qty', 'dia', 'length'],
    ['Foot, left', 1, 4, 10],
    ['Stick', 2, 3, 8],
    ['Bucket', 1, 5, 12],
  ];
  const lines = (...args: readonly Argument[]): readonly (readonly string[])[] =>
    cells('BURN.JOB.SHEET', ...args).map((row) => row.map(String));
  const conditions = column('height 30 ft', 'grease-packed', 'wind', 'fuel gas', 'hydraulic cylinder');
  const sheet = lines(list, conditions, 'Boom foot pins');
  const line = (of: readonly (readonly string[])[], what: string): readonly string[] =>
    of.find((l) => l[1]?.startsWith(what)) ?? [];

  it('has its sections in order, cautions first, and lines to sign last', () => {
    expect(sheet.map((l) => l[0]).filter((s) => s !== '')).toEqual([
      'Hot work',
      'Cautions',
      'Job',
      'List',
      'To load',
      'Times',
      'Oxygen',
      'Crew',
      'Assumptions',
      'Fire',
      'To wear',
      'Sign-off',
    ]);
    expect(sheet[0]).toEqual([
      'Hot work',
      'Boom foot pins',
      expect.stringContaining('calculation'),
      expect.stringContaining('permits nothing'),
    ]);
    expect(sheet.at(-1)?.[3]).toContain('signed ____');
  });

  it('fits one page', () => {
    expect(sheet.length).toBeLessThanOrEqual(60);
    expect(sheet.every((l) => l.length === 4)).toBe(true);
  });

  it('names every caution that can kill, and what the conditions brought', () => {
    for (const c of cautionsFor(
      'PIN',
      conditions.map(([t]) => text(t)),
    )) {
      if (c.severity === 'can kill' || c.because !== 'PIN') expect(line(sheet, c.title)[3], c.key).toContain(c.action);
    }
  });

  it('prints the list by mark, what is loaded, and the times, as the other functions give them', () => {
    const text_ = (rows: readonly (readonly Cell[])[]): readonly (readonly string[])[] =>
      rows.map((row) => row.map(String));
    const plan = text_(cells('BURN.JOB.PLAN', list));
    const at = (heading: string): number => plan[0]!.findIndex((h) => h.split(',')[0] === heading);
    for (const row of plan.slice(1, 4)) {
      const printed = line(sheet, row[at('mark')]!);
      expect(printed[2]).toBe(`${row[at('rods')]} rods ${row[at('rod')]}`);
      expect(printed[3]).toContain(`PIN diameter ${['4', '3', '5'][Number(row[0]) - 1]} in`);
    }
    for (const row of text_(cells('BURN.JOB.STOCK', list)).slice(1)) {
      if (row[0]?.startsWith('rods') || row[0] === 'cylinders') expect(line(sheet, row[0])[2], row[0]).toBe(row[1]);
    }
    const schedule = text_(cells('BURN.JOB.SCHEDULE', list));
    const burnFrom = schedule[0]!.indexOf('burn from');
    for (const row of schedule.filter((r) => r[1]?.startsWith('Stick')))
      expect(line(sheet, 'Stick')[3]).toContain(`${row[burnFrom]} of shift 1`);
    expect(line(sheet, 'in all')[3]).toBe(schedule.at(-1)?.at(-1)?.split(';')[0]);
    expect(line(sheet, 'items')[2]).toBe('4');
  });

  it('takes the reach from the height, the watch from the rule, and lists what departs from the defaults', () => {
    expect(line(sheet, 'clear, cover or guard')[2]).toBe('45.9 ft');
    expect(line(sheet, 'all as by default')).not.toEqual([]);
    const own = lines(list, undefined, undefined, [
      ['fire watch rule', 'OSHA'],
      ['stub', 4],
    ]);
    expect(line(own, 'fire watch after')[2]).toBe('30 min at least');
    expect(line(own, 'stub').slice(2)).toEqual([
      '4 (3.3333 to 4.6667) in',
      'your value; default 3 (2.5 to 3.5) in; no reason given',
    ]);
    expect(line(own, 'clear, cover or guard')[2]).toBe('35 ft');
    expect(line(own, 'conditions given')[3]).toMatch(/^none/);
  });

  it('says how much air a confined space needs for the oxygen, with the figures of the air functions', () => {
    const confined = lines(list, 'confined');
    const plan = cells('BURN.JOB.PLAN', list);
    const most = Math.max(
      ...plan.slice(1).map((row) => Number(row[plan[0]?.findIndex((h) => text(h).startsWith('flow')) ?? -1])),
    );
    const release = value('BURN.AIR.RELEASE', most);
    expect(parseFloat(line(confined, 'oxygen let into the air')[2] ?? '')).toBeCloseTo(release, 1);
    expect(
      parseFloat(line(confined, 'fresh air for that oxygen')[2] ?? '') / value('BURN.AIR.FRESH', release),
    ).toBeCloseTo(1, 2);
    expect(line(sheet, 'fresh air for that oxygen')).toEqual([]);
  });

  it('takes lists of several operations, in SI too', () => {
    const mixed: Argument = [
      ['mark', 'operation', 'dia', 'length', 'thk'],
      ['Boom foot', 'PIN', 4, 10, null],
      ['Rib', 'CUT', null, 20, 1],
    ];
    const of = lines(mixed);
    expect(line(of, 'items')[2]).toBe('2');
    expect(of.map((l) => l[2])).toEqual(expect.arrayContaining(['PIN', 'CUT']));
    const si: Argument = [['units', 'SI']];
    const metric = lines([[100, 250]], 'height 9 m', undefined, si);
    expect(line(metric, 'oxygen at the work')[2]).toMatch(/ m3$/);
    expect(line(metric, 'clear, cover or guard')[2]).toMatch(/ m$/);
  });

  it('takes rod, material and conditions from the list and the assumptions, and says so', () => {
    const wet = lines(
      [
        ['dia', 'length', 'material', 'condition'],
        [4, 10, 'stainless steel', 'confined'],
      ],
      undefined,
      undefined,
      [['water depth', 30]],
    );
    expect(line(wet, 'of the list and the assumptions')[3]).toBe('confined, stainless steel, underwater 30 ft');
    expect(line(wet, 'rods 3/8')[3]).not.toContain('bare rods');
    expect(line(sheet, 'of the list and the assumptions')).toEqual([]);
  });

  it('names rows that could not be sized, and refuses a range that is no list', () => {
    const broken: Argument = [
      ['mark', 'dia', 'length'],
      ['Boom foot', 4, 10],
      ['Stick', 3, null],
    ];
    const of = lines(broken);
    expect(line(of, 'items').slice(2)).toEqual(['1', '1 left out of all figures']);
    expect(line(of, 'left out')[3]).toBe('Stick: length is blank or zero; must be more than 0');
    expect(error('BURN.JOB.SHEET', column('a', 'b')).message).toContain('list has no heading row');
    expect(error('BURN.JOB.SHEET', list, 'moonlight')).toMatchObject({ error: '#N/A' });
  });
});

describe('tables and their sources', () => {
  it('cite sources that the register knows', () => {
    const cited = (name: string, ...args: readonly Argument[]): void => {
      const rows = table(name, ...args);
      expect(rows.length, name).toBeGreaterThan(0);
      for (const r of rows)
        if (r['source'] !== '') expect(findSource(text(r['source'])), `${name}: ${text(r['source'])}`).toBeDefined();
    };
    cited('BURN.NOISE.SHIFT', 92, 8, 'EU');
    cited('BURN.AIR.FUME', '3/8', 20, 4000, 150);
    cited('BURN.FIRE.CHECK', 10);
    cited('BURN.CYLINDER.LIMITS', 12);
  });
});
