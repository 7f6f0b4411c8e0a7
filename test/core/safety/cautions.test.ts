import { describe, expect, it } from 'vitest';
import { SEVERITIES } from '../../../src/core/safety/caution.ts';
import { MATERIAL_NAMES } from '../../../src/core/assumptions/material-names.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod, RODS, rodName } from '../../../src/core/burn/rods.ts';
import { CAUTIONS, cautionsOf, type RaisedCaution } from '../../../src/core/safety/cautions.ts';
import { CONDITIONS, conditionText, parseCondition, parseConditions } from '../../../src/core/safety/conditions.ts';
import { itemOf, type Item, type KnownItem } from '../../../src/core/safety/item.ts';
import { OPERATION_IDS, findOperation } from '../../../src/core/operations/all.ts';
import { PPE, wearFor } from '../../../src/core/safety/ppe.ts';
import { isChoice } from '../../../src/core/assumptions/assumption.ts';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { findAssumption } from '../../../src/core/assumptions/registry.ts';
import { readAssume } from '../../../src/catalogue/read-assume.ts';
import {
  BY_ASSUMPTION,
  BY_CONDITION,
  BY_MATERIAL,
  BY_OPERATION,
  BY_ROD,
  EVERY,
  WORN_ALWAYS,
  WORN_BY_ASSUMPTION,
  WORN_BY_CONDITION,
  WORN_BY_MATERIAL,
  WORN_BY_OPERATION,
} from './what-must-come-up.ts';

/** The operations done to plain steel with a short rod, so that nothing comes up but what is asked about. */
const PLAIN: KnownItem = { material: findMaterial('carbon steel'), rod: findRod('3/8 x 36') };
const items = (operation: string | readonly string[], conditions: readonly string[]): readonly Item[] =>
  [operation]
    .flat()
    .map((word) => itemOf({ ...PLAIN, operation: findOperation(word), conditions: parseConditions(conditions) }));
const cautionsFor = (operation: string | readonly string[], conditions: readonly string[]): readonly RaisedCaution[] =>
  cautionsOf(items(operation, conditions));
const cautionsForFunction = (name: string, conditions: readonly string[] = []): readonly RaisedCaution[] =>
  cautionsOf(itemOf({ functions: [name], conditions: parseConditions(conditions) }));

const GAS = ['oil and grease', 'open valves slowly', 'oxygen is not air', 'leak test'];
const CYLINDERS = ['secure and cap cylinders', 'apart from fuel gas'];
const BY_FUNCTION: Readonly<Record<string, readonly string[]>> = {
  'BURN.NOISE.HOURS': ['noise'],
  'BURN.NOISE.DOSE': ['noise'],
  'BURN.AIR.OXYGEN': ['oxygen enrichment', 'oxygen is not air'],
  'BURN.AIR.FRESH': ['oxygen enrichment', 'oxygen is not air', 'ventilation'],
  'BURN.AIR.FUME': ['oxygen is not air', 'fume', 'ventilation'],
  'BURN.FIRE.WATCH': ['fire watch'],
  'BURN.FIRE.REACH': ['fire watch', 'hot drops'],
  'BURN.EYE.SHADE': ['eyes and skin'],
  'BURN.LEAD.DROP': ['leads'],
  'BURN.BATTERY.STRIKES': ['battery gas'],
  'BURN.AIR.RISE': ['oxygen enrichment', 'oxygen is not air'],
  'BURN.AIR.CLEAR': ['oxygen enrichment', 'oxygen is not air'],
  'BURN.AIR.RELEASE': ['oxygen enrichment', 'oxygen is not air'],
  'BURN.AIR.PEOPLE': ['oxygen is not air', 'ventilation'],
  'BURN.HOSE.LOSS': [...GAS, ...CYLINDERS],
  'BURN.ROD.FLOW': [...GAS, ...CYLINDERS, 'permit'],
  'BURN.SUPPLY.CHECK': [...GAS, ...CYLINDERS],
  'BURN.CYLINDER.CONTENT': [...GAS, ...CYLINDERS],
  'BURN.CYLINDER.COUNT': [...GAS, ...CYLINDERS],
  'BURN.CYLINDER.LIMITS': [...GAS, ...CYLINDERS, 'manifold limit'],
  'BURN.COOL.TIME': ['hot metal', 'bushes and seals', 'back in service'],
  'BURN.COOL.SHRINK': ['hot metal', 'bushes and seals', 'back in service'],
  'BURN.GUARD.PLATES': ['blow-back'],
  'BURN.GRIP.AFTER': ['flying pin', 'back in service'],
  'BURN.GRIP.FORCE': ['flying pin'],
  'BURN.PUSH.RAM': ['flying pin', 'ram'],
  'BURN.ASSUMED': [],
  'BURN.ROD.LIST': ['permit'],
  'BURN.JOB.SHEET': ['permit'],
};

const assumptions = (...rows: readonly (readonly [string, string | number])[]): Assumptions => readAssume(rows);
const choicesOf = (name: string): readonly string[] => {
  const entry = findAssumption(name);
  return entry && isChoice(entry) ? entry.choices : [];
};
const kindOf = (name: string): string => {
  const { rod } = findRod(name);
  return `${rod.kind}${rod.insulated ? ' insulated' : ''}`;
};
const keys = (list: readonly { readonly key: string }[]): readonly string[] => list.map((c) => c.key);
const sorted = (list: Iterable<string>): readonly string[] => [...new Set(list)].sort();

describe('which cautions come up', () => {
  it.each(OPERATION_IDS)(
    'for %s with nothing said: those of every operation and its own, and no other',
    (operation) => {
      expect(sorted(keys(cautionsFor(operation, [])))).toEqual(sorted([...EVERY, ...BY_OPERATION[operation]]));
    },
  );

  it.each(Object.keys(BY_CONDITION))('under "%s": just its own on top, whatever the operation', (condition) => {
    for (const operation of OPERATION_IDS) {
      const expected = [...EVERY, ...BY_OPERATION[operation], ...(BY_CONDITION[condition] ?? [])];
      expect(sorted(keys(cautionsFor(operation, [condition]))), operation).toEqual(sorted(expected));
    }
  });

  it('under two conditions are those of each', () => {
    const texts = Object.keys(BY_CONDITION);
    for (const a of texts)
      for (const b of texts) {
        const expected = [...EVERY, ...BY_OPERATION.GOUGE, ...(BY_CONDITION[a] ?? []), ...(BY_CONDITION[b] ?? [])];
        expect(sorted(keys(cautionsFor('GOUGE', [a, b]))), `${a} and ${b}`).toEqual(sorted(expected));
      }
  });

  it.each(Object.keys(BY_FUNCTION))('for %s: just its own', (name) => {
    expect(sorted(keys(cautionsForFunction(name)))).toEqual(sorted(BY_FUNCTION[name] ?? []));
  });

  it('for several functions, or an operation with functions, are those of each', () => {
    expect(
      sorted(keys(cautionsOf(itemOf({ ...PLAIN, operation: 'STUD', functions: ['BURN.SPREAD', 'BURN.COOL'] })))),
    ).toEqual(sorted(keys([...cautionsForFunction('BURN.COOL'), ...cautionsFor('STUD', [])])));
  });

  it.each(MATERIAL_NAMES)('of %s: just its own on top, whatever the operation', (name) => {
    for (const operation of OPERATION_IDS) {
      const item = itemOf({ ...PLAIN, operation, material: findMaterial(name) });
      expect(sorted(keys(cautionsOf(item))), operation).toEqual(
        sorted([...EVERY, ...BY_OPERATION[operation], ...(BY_MATERIAL[name] ?? ['not written down'])]),
      );
      expect(sorted(wearFor(item).map((w) => w.against)), operation).toEqual(
        sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? []), ...(WORN_BY_MATERIAL[name] ?? [])]),
      );
    }
  });

  it.each(BY_ASSUMPTION)('with %s %s: just its own on top, whatever the operation', (name, value, brings) => {
    for (const operation of OPERATION_IDS) {
      const item = itemOf({ ...PLAIN, operation }, assumptions([name, value]));
      expect(sorted(keys(cautionsOf(item))), operation).toEqual(
        sorted([...EVERY, ...BY_OPERATION[operation], ...brings]),
      );
      expect(sorted(wearFor(item).map((w) => w.against)), operation).toEqual(
        sorted([
          ...WORN_ALWAYS,
          ...(WORN_BY_OPERATION[operation] ?? []),
          ...(WORN_BY_ASSUMPTION[`${name} ${value}`] ?? []),
        ]),
      );
    }
  });

  it('follow every position, access and grounding that there is', () => {
    const tried = new Set(BY_ASSUMPTION.map(([name, value]) => `${name} ${value}`));
    for (const name of ['position', 'access', 'work grounded'] as const)
      for (const word of choicesOf(name)) expect(tried, `${name} ${word}`).toContain(`${name} ${word}`);
  });

  it.each(Object.keys(BY_ROD))('with a rod %s: just its own on top, whatever the operation', (name) => {
    for (const operation of OPERATION_IDS)
      expect(sorted(keys(cautionsOf(itemOf({ ...PLAIN, operation, rod: findRod(name) })))), operation).toEqual(
        sorted([...EVERY, ...BY_OPERATION[operation], ...(BY_ROD[name] ?? [])]),
      );
  });

  it('follow every kind of rod', () => {
    const kinds = new Set(Object.keys(BY_ROD).map((name) => kindOf(name)));
    for (const rod of RODS) expect(kinds).toContain(kindOf(rodName(rod, undefined, false)));
  });

  it('count on a long bar where the rod is not known and one may be picked', () => {
    const unknown = (material: string): readonly string[] =>
      keys(cautionsOf(itemOf({ operation: 'HOLE', material: findMaterial(material) })));
    expect(unknown('rock')).toContain('long bar');
    expect(unknown('carbon steel')).not.toContain('long bar');
  });

  it('with water on the pin: those of water', () => {
    const water = assumptions(['cooling method', 'water']);
    for (const operation of OPERATION_IDS)
      expect(sorted(keys(cautionsOf(itemOf({ ...PLAIN, operation }, water)))), operation).toEqual(
        sorted([
          ...EVERY,
          ...BY_OPERATION[operation],
          ...(operation === 'PIN' ? ['steam in the bore', 'quench cracks'] : []),
        ]),
      );
    expect(keys(cautionsOf(itemOf({ functions: ['BURN.COOL.TIME'], cooling: 'water' })))).toContain(
      'steam in the bore',
    );
  });

  it('hold a setting against the highest current in force', () => {
    const at150 = { ...PLAIN, conditions: [parseCondition('welding machine 150 A')] };
    expect(keys(cautionsOf(itemOf(at150)))).not.toContain('machine setting');
    expect(keys(cautionsOf(itemOf(at150, assumptions(['short rod current', 120]))))).toContain('machine setting');
  });

  it('covers every caution and every condition', () => {
    const raised = new Set([
      ...EVERY,
      ...Object.values(BY_OPERATION).flat(),
      ...Object.values(BY_FUNCTION).flat(),
      ...Object.values(BY_CONDITION).flat(),
    ]);
    expect(CAUTIONS.map((c) => c.key).filter((k) => !raised.has(k))).toEqual([]);
    const tried = new Set(Object.keys(BY_CONDITION));
    expect(
      CONDITIONS.map((c) => c.name).filter((n) => ![...tried].some((t) => t === n || t.startsWith(`${n} `))),
    ).toEqual([]);
    // No condition is a dead word: each brings something up.
    expect(
      CONDITIONS.filter(
        (c) =>
          !Object.entries(BY_CONDITION).some(
            ([t, list]) => (t === c.name || t.startsWith(`${c.name} `)) && (list.length > 0 || c.name === 'noise'),
          ),
      ).map((c) => c.name),
    ).toEqual([]);
  });
});

describe('the cautions asked for', () => {
  // Every hazard that the job description lists, and what has to come up for it.
  const asked: readonly (readonly [string, string, string])[] = [
    ['PIN', 'galvanised', 'zinc'],
    ['PIN', 'cadmium', 'cadmium'],
    ['CUT', 'lead paint', 'lead'],
    ['PIN', 'beryllium copper', 'beryllium'],
    ['PIN', 'hollow pin', 'closed cavity'],
    ['GOUGE', 'magnesium', 'magnesium'],
    ['PIN', 'hydraulic cylinder', 'hydraulic pressure'],
    ['PIN', 'spring load', 'stored load'],
    ['HOLE', 'confined', 'oxygen enrichment'],
    ['PIN', 'grease-packed', 'greasy work'],
    ['STUD', '', 'open valves slowly'],
    ['HOLE', 'confined', 'oxygen is not air'],
    ['CUT', '', 'secure and cap cylinders'],
    ['CUT', 'acetylene', 'apart from fuel gas'],
    ['HOLE', '', 'leak test'],
    ['CUT', 'height 30 ft', 'drops from height'],
    ['BREACH', '', 'fire watch'],
    ['GOUGE', '', 'noise'],
    ['GOUGE', '', 'eyes and skin'],
    ['GOUGE', '', 'fume'],
    ['PIN', 'water quench', 'steam in the bore'],
    ['PIN', 'water quench', 'quench cracks'],
    ['PIN', '', 'flying pin'],
    ['PIN', 'ram', 'ram'],
    ['PIN', '', 'bushes and seals'],
    ['CUT', 'underwater', 'gas pockets'],
    ['CUT', 'underwater', 'shock in water'],
    ['BREACH', 'concrete', 'spalling'],
    ['BREACH', 'rebar', 'steel in tension'],
    ['PIN', 'grounded work', 'bearing path'],
  ];

  it.each(asked)('%s, %s: %s', (operation, condition, key) => {
    expect(keys(cautionsFor(operation, [condition]))).toContain(key);
  });
});

describe('the list', () => {
  const all = Object.keys(BY_CONDITION);

  it('runs from the most severe to the least, without repeats', () => {
    for (const operation of OPERATION_IDS) {
      const list = cautionsFor(operation, all);
      const ranks = list.map((c) => SEVERITIES.indexOf(c.severity));
      expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
      expect(new Set(keys(list)).size).toBe(list.length);
      expect(ranks).not.toContain(-1);
    }
  });

  it('puts what a condition brought up before what the operation did, within a severity, and says why', () => {
    const list = cautionsFor('PIN', ['cadmium', 'spring load']);
    expect(list.slice(0, 2).map((c) => [c.key, c.because])).toEqual([
      ['cadmium', 'cadmium'],
      ['stored load', 'PIN and spring load'],
    ]);
    expect(list.find((c) => c.key === 'permit')?.because).toBe('PIN');
    expect(cautionsFor('PIN', ['cast iron', 'water quench']).find((c) => c.key === 'quench cracks')?.because).toBe(
      'water quench and cast iron',
    );
    expect(cautionsForFunction('BURN.NOISE.HOURS')[0]?.because).toBe('BURN.NOISE.HOURS');
  });

  it('for several operations is that of each, once', () => {
    expect(sorted(keys(cautionsFor(['PIN', 'cut'], ['confined'])))).toEqual(
      sorted([...keys(cautionsFor('PIN', ['confined'])), ...keys(cautionsFor('CUT', []))]),
    );
    expect(cautionsFor(['PIN', 'CUT'], []).find((c) => c.key === 'piece falls')?.because).toBe('CUT');
  });

  it('is the same whatever the order and the wording of the conditions', () => {
    expect(cautionsFor('pin', ['tank', 'zinc'])).toEqual(
      cautionsFor('PIN', ['Galvanized', 'confined space', 'confined']),
    );
  });

  it('takes figures worked out elsewhere', () => {
    const with_ = (...conditions: NonNullable<KnownItem['conditions']>): readonly string[] =>
      keys(cautionsOf(itemOf({ ...PLAIN, operation: 'GOUGE', conditions })));
    expect(with_({ name: 'oxygen', value: 0.25 }, { name: 'noise', value: 102 })).toEqual(
      expect.arrayContaining(['oxygen enrichment', 'double hearing protection']),
    );
    expect(sorted(with_({ name: 'oxygen', value: 0.21 }, { name: 'noise', value: 80 }))).toEqual(sorted(with_()));
    expect(keys(cautionsForFunction('BURN.LEAD.DROP', ['welding machine 180 A']))).toContain('machine setting');
    expect(keys(cautionsForFunction('BURN.COOL.TIME', ['water quench']))).toContain('steam in the bore');
  });

  it('refuses an operation or a condition there is not, with the nearest', () => {
    expect(() => cautionsFor('PINN', [])).toThrow('operation "PINN" is not in the register; nearest: PIN');
    expect(() => cautionsFor('PIN', ['confind'])).toThrow(
      'condition "confind" is not in the register; nearest: confined',
    );
  });
});

describe('the texts', () => {
  it('say what to do, name a clause where there is one, and never that a job is safe', () => {
    for (const c of CAUTIONS) {
      expect(c.title.length, c.key).toBeGreaterThan(10);
      expect(c.action.length, c.key).toBeGreaterThan(30);
      expect(c.clause === '', c.key).toBe(c.source === 'common practice');
      expect(`${c.title} ${c.action}`, c.key).not.toMatch(/\bsafe(ly)?\b/i);
    }
  });

  it('have keys of their own', () => {
    expect(new Set(CAUTIONS.map((c) => c.key)).size).toBe(CAUTIONS.length);
  });
});

describe('what to wear', () => {
  const worn = (operation: string, ...conditions: readonly string[]): readonly string[] =>
    wearFor(items(operation, conditions)).map((w) => w.against);

  it.each(OPERATION_IDS)('for %s is what is worn for every burn, and its own', (operation) => {
    expect(sorted(worn(operation))).toEqual(sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? [])]));
  });

  it.each(Object.keys(BY_CONDITION))('under "%s": just its own on top', (condition) => {
    for (const operation of OPERATION_IDS)
      expect(sorted(worn(operation, condition)), operation).toEqual(
        sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? []), ...(WORN_BY_CONDITION[condition] ?? [])]),
      );
  });

  it('says what asks for it', () => {
    const because = Object.fromEntries(
      wearFor(items('BREACH', ['height 9 ft', 'wet'])).map((w) => [w.against, w.because]),
    );
    expect(because).toMatchObject({ 'slag and spatter': 'every burn', fume: 'BREACH', falls: 'height', shock: 'wet' });
    expect(
      wearFor(itemOf({ operation: 'PIN', material: findMaterial('stainless') })).find((w) => w.against === 'fume')
        ?.because,
    ).toBe('stainless steel');
  });

  it('covers everything there is to wear', () => {
    const tried = new Set([...WORN_ALWAYS, ...Object.values(WORN_BY_CONDITION).flat()]);
    expect(PPE.map((p) => p.against).filter((against) => !tried.has(against))).toEqual([]);
  });
});

describe('a condition in words', () => {
  it('reads back as it was, in either system', () => {
    for (const word of Object.keys(BY_CONDITION))
      for (const system of ['US', 'SI'] as const) {
        const condition = parseCondition(word);
        const again = parseCondition(conditionText(condition, system), system);
        expect(again.name).toBe(condition.name);
        if (condition.value !== undefined) expect((again.value ?? NaN) / condition.value).toBeCloseTo(1, 4);
      }
  });
});
