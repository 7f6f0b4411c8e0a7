import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { optional, valueFunction, type Declaration } from '../../src/catalogue/declaration.ts';
import { findMaterial } from '../../src/core/burn/materials.ts';
import { findSource } from '../../src/core/sources/register.ts';
import { cautionsOf } from '../../src/pane/cautions.ts';
import { readAssume } from '../../src/sheet/read-assume.ts';

const named = (name: string): Declaration =>
  valueFunction({
    name,
    family: 'TEST',
    summary: 's',
    assume: false,
    sources: [],
    cautions: [],
    examples: [],
    result: { kind: 'value', quantity: 'count' },
    calculate: () => 1,
    parameters: {
      method: optional({ kind: 'choice', choices: ['air', 'water'] }, 's', '"air"'),
      depth: optional({ kind: 'quantity', quantity: 'distance' }, 's', '60'),
      height: optional({ kind: 'quantity', quantity: 'length' }, 's', '60'),
      material: optional({ kind: 'material' }, 's', '"cast iron"'),
    },
  });
const because = (
  d: Declaration,
  values?: Record<string, unknown>,
  assume?: readonly (readonly [string, string])[],
): readonly string[] => [...new Set(cautionsOf(d, values, assume && readAssume(assume)).map((c) => c.because))];

describe('the cautions of a call', () => {
  it('are those of its operation, whether its arguments can be read or not', () => {
    expect(because(named('BURN.PIN.TEST'))).toEqual(['PIN']);
    expect(because(named('BURN.PIN.TEST'), { method: 'air' })).toEqual(['PIN']);
  });

  it('follow a word, a material and a figure of its arguments', () => {
    expect(because(named('BURN.PIN.TEST'), { method: 'water' })).toContain('water quench');
    expect(because(named('BURN.PIN.TEST'), { depth: 18 })).toContain('underwater');
    expect(because(named('BURN.TEST'), { material: findMaterial('cast iron') }, [])).toEqual(['cast iron']);
  });

  it('are those of the operation that a function is called with', () => {
    const stock = CATALOGUE.find((d) => d.name === 'BURN.JOB.STOCK');
    if (!stock) throw new Error('no such function');
    const all = cautionsOf(stock, { operation: 'PIN' }).map((c) => c.key);
    for (const { key } of cautionsOf(named('BURN.PIN.TEST'))) expect(all).toContain(key);
    expect(cautionsOf(stock, { operation: 'PIN' }).length).toBeGreaterThan(cautionsOf(stock).length);
  });

  it('follow the assumptions in force', () => {
    const of = (...rows: readonly (readonly [string, string])[]): readonly string[] =>
      because(named('BURN.TEST'), {}, rows);
    expect(of()).toEqual([]);
    expect(of(['position', 'underwater'])).toContain('underwater');
    expect(of(['material', 'stainless steel'])).toEqual(['stainless']);
    expect(of(['work grounded', 'yes'])).toEqual(['grounded work']);
    expect(of(['work grounded', 'yes'], ['material', 'cast iron'])).toEqual(
      expect.arrayContaining(['grounded work', 'cast iron']),
    );
  });

  it('take a figure only in its own quantity, and no 0', () => {
    expect(because(named('BURN.PIN.TEST'), { height: 3, depth: 0 })).toEqual(['PIN']);
  });

  it('cite sources that the register knows, for every function', () => {
    for (const d of CATALOGUE)
      for (const c of cautionsOf(d))
        for (const source of [c.source, ...(c.also ?? [])]) expect(findSource(source), source).toBeDefined();
  });

  it('never call a job safe, and say who rules', () => {
    const pin = cautionsOf(named('BURN.PIN.TEST'));
    for (const c of pin) expect(`${c.title} ${c.action}`).not.toMatch(/\b(is|are|be) safe\b/i);
    expect(pin[0]?.action).toMatch(/local codes.*permit.*[Qq]ualified/);
  });
});
