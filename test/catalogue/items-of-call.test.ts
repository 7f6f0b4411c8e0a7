import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { optional, valueFunction, type Declaration } from '../../src/catalogue/declaration.ts';
import { itemsOfCall } from '../../src/catalogue/items-of-call.ts';
import { Basis } from '../../src/core/basis.ts';
import { findMaterial } from '../../src/core/burn/materials.ts';
import { findRod } from '../../src/core/burn/rods.ts';
import { cautionsOf, type RaisedCaution } from '../../src/core/safety/cautions.ts';
import { OPERATION_IDS } from '../../src/core/operations/all.ts';
import { findSource } from '../../src/core/sources/register.ts';
import { readAssume } from '../../src/catalogue/read-assume.ts';

const named = (name: string): Declaration => {
  const d = findFunction(name);
  if (!d) throw new Error(name);
  return d;
};
const invented = valueFunction({
  name: 'BURN.TEST',
  family: 'TEST',
  summary: 's',
  assume: true,
  sources: [],
  cautions: [],
  examples: [],
  result: { kind: 'value', quantity: 'count' },
  calculate: () => 1,
  parameters: {
    material: optional({ kind: 'material' }, 's', '"cast iron"'),
    rod: optional({ kind: 'rod' }, 's', '"3/8"'),
  },
});
type Rows = readonly (readonly [string, Cell])[];
const cautions = (d: Declaration, values?: Record<string, unknown>, assume: Rows = []): readonly RaisedCaution[] =>
  cautionsOf(itemsOfCall(d, values && { values, basis: new Basis(readAssume(assume)) }));
const because = (...args: Parameters<typeof cautions>): readonly string[] => [
  ...new Set(cautions(...args).map((c) => c.because)),
];
const keys = (...args: Parameters<typeof cautions>): readonly string[] => cautions(...args).map((c) => c.key);

describe('the cautions of a call', () => {
  it('are those of its operation, whether its arguments can be read or not', () => {
    for (const operation of OPERATION_IDS) {
      const unread = keys(named(`BURN.${operation}.OXYGEN`));
      expect(unread.length).toBeGreaterThan(12);
      expect(keys(named(`BURN.${operation}.OXYGEN`), {})).toEqual(unread);
    }
    expect(because(named('BURN.PIN.OXYGEN'))).toEqual(['PIN']);
  });

  it('follow a rod and a material of its arguments', () => {
    expect(because(invented, { material: findMaterial('cast iron') })).toEqual(['cast iron']);
    expect(because(invented, { rod: findRod('3/8 pipe x 60 coupled') })).toEqual(['long bar', 'coupled rods']);
    expect(because(named('BURN.AIR.FUME'), { rod: findRod('3/8') }, [['material', 'stainless steel']])).toContain(
      'stainless steel',
    );
  });

  it('follow the rod that is picked', () => {
    const of = (thickness: number, hole: number): readonly string[] =>
      keys(named('BURN.BREACH.RODS'), { thickness, hole, count: 1 });
    expect(of(0.5, 0.1)).toContain('long bar');
    expect(of(0.1, 0.025)).not.toContain('long bar');
  });

  it.each([
    ['BURN.HOSE.SETTING', { depth: 18 }, 'underwater'],
    ['BURN.SUPPLY.CHECK', { depth: 18 }, 'underwater'],
    ['BURN.FIRE.REACH', { height: 9 }, 'height'],
    ['BURN.FIRE.CHECK', { height: 9 }, 'height'],
    ['BURN.LEAD.DROP', { amps: 180 }, 'welding machine'],
    ['BURN.BATTERY.STRIKES', {}, 'battery'],
    ['BURN.NOISE.HOURS', { level: 104 }, 'noise'],
    ['BURN.COOL.TIME', { method: 'water' }, 'water quench'],
    ['BURN.COOL.CURVE', { method: 'water' }, 'water quench'],
    ['BURN.COOL.SHRINK', { method: 'water' }, 'water quench'],
  ])('of %s follow %j', (name, values, condition) => {
    expect(because(named(name), values).some((b) => b.includes(condition))).toBe(true);
  });

  it('take no depth or height of 0, and air by its own word for air', () => {
    expect(because(named('BURN.HOSE.SETTING'), { depth: 0 })).toEqual(['BURN.HOSE.SETTING']);
    expect(because(named('BURN.FIRE.REACH'), { height: 0 })).toEqual(['BURN.FIRE.REACH']);
    expect(because(named('BURN.COOL.TIME'), { method: 'air' }, [['cooling method', 'water']])).toEqual([
      'BURN.COOL.TIME',
    ]);
    for (const name of ['BURN.COOL.TIME', 'BURN.GRIP.AFTER', 'BURN.GRIP.FORCE'])
      expect(keys(named(name), {}, [['cooling method', 'water']])).toContain('steam in the bore');
  });

  it('are those of every row of a list, and of every row of a plan', () => {
    const sizes = [
      [4, 10, null, null, null],
      [4, 10, null, '3/8 x 36 coupled', 'stainless steel'],
    ];
    expect(keys(named('BURN.SPREAD'), { operation: 'PIN', sizes, quantity: 'oxygen', percentile: 0.9 })).toEqual(
      expect.arrayContaining(['chromium', 'couplings', 'closed cavity']),
    );
    expect(keys(named('BURN.ASSUME.EFFECT'), { operation: 'PIN', sizes: sizes.slice(1) })).toContain('chromium');
    const list = [
      ['operation', 'dia', 'length', 'thk', 'hole', 'rod', 'material', 'condition', 'access'],
      ['PIN', 4, 10, null, null, '3/8 x 36', 'carbon steel', null, null],
      ['BREACH', null, null, 24, 4, '3/8 pipe x 120', 'rock', 'underwater 30 ft', 'tight'],
    ];
    for (const name of ['BURN.JOB.PLAN', 'BURN.JOB.STOCK', 'BURN.JOB.COST', 'BURN.JOB.SCHEDULE', 'BURN.JOB.SHEET'])
      expect(keys(named(name), { list }), name).toEqual(
        expect.arrayContaining(['closed cavity', 'long bar', 'silica', 'diving', 'no room to step back']),
      );
    expect(keys(named('BURN.ROD.PICK'), { operation: 'BREACH', size: [[24, 4]] })).toEqual(
      expect.arrayContaining(['silica', 'long bar']),
    );
  });

  it('are at least those of the operation where a list or plan cannot be read', () => {
    const pin = keys(named('BURN.PIN.OXYGEN'));
    const unread = { operation: 'PIN', sizes: [['wide', 'long']], quantity: 'oxygen', percentile: 0.9 };
    expect(keys(named('BURN.SPREAD'), unread)).toEqual(expect.arrayContaining([...pin]));
    expect(keys(named('BURN.JOB.COST'), { list: [['no', 'list']] })).toContain('permit');
  });

  it('follow the assumptions in force, of a function of no operation too', () => {
    const of = (...rows: Rows): readonly string[] => because(invented, {}, rows);
    expect(of()).toEqual([]);
    expect(of(['position', 'underwater'])).toContain('underwater');
    expect(of(['material', 'stainless steel'])).toEqual(['stainless steel']);
    expect(of(['work grounded', 'yes'])).toEqual(['grounded work']);
    expect(of(['work grounded', 'yes'], ['material', 'cast iron'])).toEqual(
      expect.arrayContaining(['grounded work', 'cast iron']),
    );
    expect(keys(named('BURN.BREACH.OXYGEN'), {}, [['breach material', 'stainless steel']])).toContain('chromium');
    expect(keys(named('BURN.BREACH.OXYGEN'), {}, [['material', 'stainless steel']])).not.toContain('chromium');
  });

  it('cite sources that the register knows, for every function', () => {
    for (const d of CATALOGUE)
      for (const c of cautions(d))
        for (const source of [c.source, ...(c.also ?? [])]) expect(findSource(source), source).toBeDefined();
  });

  it('never call a job safe, and say who rules', () => {
    const pin = cautions(named('BURN.PIN.OXYGEN'));
    for (const c of pin) expect(`${c.title} ${c.action}`).not.toMatch(/\b(is|are|be) safe\b/i);
    expect(pin[0]?.action).toMatch(/local codes.*permit.*[Qq]ualified/);
  });
});
