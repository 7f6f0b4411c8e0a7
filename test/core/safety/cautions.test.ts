import { describe, expect, it } from 'vitest';
import { SEVERITIES } from '../../../src/core/safety/caution.ts';
import { CAUTIONS, cautionsFor, cautionsForFunction } from '../../../src/core/safety/cautions.ts';
import { CONDITIONS } from '../../../src/core/safety/conditions.ts';
import { OPERATIONS, type Operation } from '../../../src/core/safety/operations.ts';
import { PPE, ppeFor } from '../../../src/core/safety/ppe.ts';

/** What is meant to come up, written down apart from the rules. */
const EVERY = [
  'permit',
  'eyes and skin',
  'clothing',
  'noise',
  'hot metal',
  'oil and grease',
  'oxygen is not air',
  'open valves slowly',
  'secure and cap cylinders',
  'leak test',
  'hot drops',
  'fire watch',
  'fume',
];
const BY_OPERATION: Readonly<Record<Operation, readonly string[]>> = {
  PIN: ['closed cavity', 'stored load', 'lock out', 'flying pin', 'bushes and seals', 'blow-back', 'breakthrough'],
  HOLE: ['blow-back', 'breakthrough'],
  GOUGE: [],
  CUT: ['stored load', 'piece falls'],
  STUD: ['stored load', 'piece falls'],
  BREACH: ['silica', 'piece falls', 'blow-back', 'breakthrough', 'spalling', 'steel in tension', 'embedded services'],
};
const BY_CONDITION: Readonly<Record<string, readonly string[]>> = {
  confined: ['oxygen enrichment', 'cylinders outside', 'confined space', 'ventilation'],
  indoors: ['oxygen enrichment', 'ventilation'],
  height: ['drops from height', 'fall'],
  'height 30 ft': ['drops from height', 'fall'],
  'height 4 ft': ['drops from height', 'fall'],
  'height 3 ft': ['drops from height'],
  'people below': ['drops from height'],
  wind: ['wind carries sparks'],
  combustibles: ['combustibles', 'apart from fuel gas'],
  'floor openings': ['openings'],
  partition: ['far side', 'breakthrough'],
  flammable: ['explosive air'],
  dust: ['explosive air'],
  container: ['used containers'],
  wet: ['shock'],
  underwater: ['gas pockets', 'shock in water', 'diving', 'insulated rod'],
  'underwater 60 ft': ['gas pockets', 'shock in water', 'diving', 'insulated rod'],
  'splash zone': ['gas pockets', 'shock in water', 'diving', 'insulated rod'],
  alone: ['alone'],
  'hot weather': ['heat strain'],
  'fuel gas': ['apart from fuel gas'],
  'separation 19 ft': ['apart from fuel gas'],
  'separation 20 ft': [],
  manifold: ['manifold limit'],
  'manifold 6000 scf': [],
  'manifold 6001 scf': ['manifold limit'],
  'hoisted cylinders': ['hoisted cylinders'],
  'oxygen 24%': ['oxygen enrichment'],
  'oxygen 23.5%': [],
  'oxygen 20.9%': [],
  'oxygen 19.5%': [],
  'oxygen 19.4%': ['oxygen lack'],
  'iron oxide 10.1 mg/m3': ['fume over limit'],
  'iron oxide 10 mg/m3': [],
  'manganese fume 1.1 mg/m3': ['fume over limit'],
  'manganese fume 1 mg/m3': [],
  'noise 84 dBA': [],
  'noise 92 dBA': [],
  'noise 100 dBA': [],
  'noise 101 dBA': ['double hearing protection'],
  'noise 115 dBA': ['double hearing protection'],
  'noise 116 dBA': ['double hearing protection', 'noise above the table'],
  galvanised: ['zinc'],
  cadmium: ['cadmium'],
  'lead paint': ['lead'],
  paint: ['unknown coating'],
  'beryllium copper': ['beryllium'],
  stainless: ['chromium'],
  'manganese steel': ['manganese steel'],
  magnesium: ['magnesium'],
  aluminium: ['aluminium'],
  'cast iron': ['quench cracks'],
  hardened: ['quench cracks'],
  'polymer bushing': ['hot polymer', 'bushes and seals'],
  concrete: ['silica', 'spalling'],
  rebar: ['steel in tension'],
  prestressed: ['steel in tension'],
  'embedded services': ['embedded services'],
  'grease packed': ['greasy work'],
  oil: ['greasy work'],
  'hydraulic cylinder': ['hydraulic pressure'],
  pressurised: ['hydraulic pressure'],
  'hollow pin': ['closed cavity'],
  'sealed cavity': ['closed cavity'],
  tyre: ['tyre'],
  'spring load': ['stored load'],
  'suspended load': ['stored load'],
  'live machine': ['lock out'],
  bearing: ['bearing path'],
  seals: ['bushes and seals'],
  electronics: ['electronics'],
  'water quench': ['steam in the bore', 'quench cracks'],
  'closed bore': ['steam in the bore', 'blow-back'],
  ram: ['flying pin', 'ram'],
  hammer: ['flying pin', 'hammered pin'],
  'grounded work': ['shock', 'insulated rod', 'bearing path'],
  'welding machine': ['shock', 'machine setting', 'leads', 'bearing path'],
  'welding machine 150 A': ['shock', 'leads', 'bearing path'],
  'welding machine 151 A': ['shock', 'machine setting', 'leads', 'bearing path'],
  battery: ['battery gas', 'leads'],
};
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

const keys = (list: readonly { readonly key: string }[]): readonly string[] => list.map((c) => c.key);
const sorted = (list: Iterable<string>): readonly string[] => [...new Set(list)].sort();

describe('which cautions come up', () => {
  it.each(OPERATIONS)('for %s with nothing said: those of every operation and its own, and no other', (operation) => {
    expect(sorted(keys(cautionsFor(operation, [])))).toEqual(sorted([...EVERY, ...BY_OPERATION[operation]]));
  });

  it.each(Object.keys(BY_CONDITION))('under "%s": just its own on top, whatever the operation', (condition) => {
    for (const operation of OPERATIONS) {
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

  it('for several names are those of each', () => {
    expect(sorted(keys(cautionsForFunction(['BURN.SPREAD', 'BURN.COOL', 'BURN.STUD'])))).toEqual(
      sorted(keys([...cautionsForFunction('BURN.COOL'), ...cautionsFor('STUD', [])])),
    );
  });

  it("for a function of an operation are the operation's", () => {
    for (const operation of OPERATIONS) {
      expect(sorted(keys(cautionsForFunction(`BURN.${operation}.OXYGEN`, ['confined'])))).toEqual(
        sorted(keys(cautionsFor(operation, ['confined']))),
      );
    }
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
    for (const operation of OPERATIONS) {
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
      ['stored load', 'spring load'],
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
    expect(keys(cautionsFor('GOUGE', [], { oxygen: 0.25, noise: 102 }))).toEqual(
      expect.arrayContaining(['oxygen enrichment', 'double hearing protection']),
    );
    expect(keys(cautionsFor('GOUGE', [], { oxygen: 0.21, noise: 80 }))).toEqual(keys(cautionsFor('GOUGE', [])));
    expect(keys(cautionsForFunction('BURN.LEAD.DROP', [], { 'welding machine': 180 }))).toContain('machine setting');
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
  it('is the same for every job, and more under conditions', () => {
    const plain = ppeFor([]);
    expect(plain).toEqual(PPE.filter((p) => p.when === undefined));
    expect(plain.length).toBeGreaterThanOrEqual(7);
    const added = (condition: string): readonly string[] =>
      ppeFor([condition])
        .filter((p) => !plain.includes(p))
        .map((p) => p.against);
    expect(added('cadmium')).toEqual(['cadmium and beryllium fume']);
    expect(added('galvanised')).toEqual(['fume']);
    expect(added('height 30 ft')).toEqual(['falls']);
    expect(added('confined')).toEqual(['fume', 'being overcome in a confined space']);
    expect(added('underwater')).toEqual(['shock']);
    expect(added('bearing')).toEqual([]);
  });

  it('names conditions that exist', () => {
    const names = new Set<string>(CONDITIONS.map((c) => c.name));
    expect(PPE.flatMap((p) => p.when ?? []).filter((n) => !names.has(n))).toEqual([]);
  });
});
