import { describe, expect, it } from 'vitest';
import { withShortNames } from '../../src/addin/short-names.mjs';
import { propertyNames, readShortNames } from './short-names.ts';

describe('the names of properties that the build shortens', () => {
  /** Files that give names away in every way there is. */
  const given: Readonly<Record<string, readonly [text: string, why: string]>> = {
    evaluation: [
      "const by: 'evaluation' = 'evaluation' as const; export const e = { evaluation: 1 }[by];",
      'is asked for',
    ],
    viscosity: ["export const v = (all: Record<string, number>) => all['viscosity'];", 'is a text'],
    coupled: ['export const c = Object.keys({ coupled: 1 });', 'is read by Object.keys'],
    outsideDiameter: ['export const o: Record<string, number> = { outsideDiameter: 1 };', 'is a key of a record'],
    temperatures: ["export const t = (all: object) => 'temperatures' in all;", 'is looked for'],
    departures: ['const d = { departures: 1 }; export const all: Record<string, number> = d;', 'is given as a record'],
    modulus: ['const i = { modulus: 1 }; for (const name in i) console.log(name);', 'is gone through'],
    aliases: ['export type A = keyof { readonly aliases: 1 };', 'is a key'],
    crewTimes: ['const told = { crewTimes: 1 }; postMessage({ told });', 'goes into a message'],
    behindHolder: ["export const b = { 'behindHolder': 1 };", 'is a text'],
    pinCells: ['const p = { pinCells: 1 }; export const all = p as Record<string, number>;', 'is taken for a record'],
    heatSource: [
      'const h = { heatSource: 1 }; export const all: Record<string, number> = { ...h };',
      'goes into a record',
    ],
    tolerance: [
      'const keep = <P extends Record<string, number>>(p: P): P => p; export const t = keep({ tolerance: 1 });',
      'is a key of a record',
    ],
    innerHTML: ['export const i = { innerHTML: 1 };', 'is a name of others'],
  };
  const sources = Object.fromEntries(
    Object.entries(given).map(([name, [text]]) => [`src/addin/gives-${name}-away.ts`, text]),
  );

  it('are those that no text asks for and nobody else reads: npx tsx test/addin/short-names.ts renews them', () => {
    const { fixed } = propertyNames();
    expect(readShortNames().length).toBeGreaterThan(500);
    expect(readShortNames().flatMap((name) => fixed.get(name) ?? [])).toEqual([]);
  });

  it('would not be those that a file gives away', () => {
    const { fixed } = propertyNames(sources);
    const listed = new Set(readShortNames());
    for (const [name, [, why]] of Object.entries(given)) {
      expect(fixed.get(name), name).toContain(`${name} ${why}`);
      expect(listed.has(name), name).toBe(name !== 'innerHTML');
    }
  });
});

describe('scripts with short names', () => {
  const script =
    'const{viscosity:a}=b,viscosity=1;use({viscosity,"coupled":2},b.coupled,b["kept"],"viscosity",b?.at(0))';
  const { one, two } = withShortNames({ one: script, two: 'b.viscosity+b.coupled+b.innerHTML' });

  it('have one name for one property, and everything else as it was', () => {
    const [, viscosity = '', coupled = ''] = /^b\.(..)\+b\.(..)\+b\.innerHTML$/.exec(two) ?? [];
    expect(viscosity).not.toBe(coupled);
    expect(one).toBe(
      `const{${viscosity}:a}=b,viscosity=1;use({${viscosity}:viscosity,${coupled}:2},b.${coupled},b["kept"],"viscosity",b?.at(0))`,
    );
  });

  it('take no name that stands in one of them', () => {
    const again = withShortNames({ one: script, two: `b.viscosity+b.vy+b.vi` });
    expect(again.two).toMatch(/^b\.v[^yi]\+b\.vy\+b\.vi$/);
  });
});
