import { describe, expect, it } from 'vitest';
import { CONDITIONS, parseCondition, parseConditions } from '../../../src/core/safety/conditions.ts';
import { findOperation, OPERATION_IDS } from '../../../src/core/operations/all.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { FOOT, SCF } from '../../../src/core/units/quantities.ts';

function code(run: () => unknown): string {
  try {
    run();
  } catch (e) {
    if (e instanceof CalcError) return e.code;
    throw e;
  }
  return 'no error';
}

describe('the list of conditions', () => {
  it('has each word once, in lower case, as the reader tidies it', () => {
    const words = CONDITIONS.flatMap((c) => [c.name, ...c.also]);
    expect(words.filter((w, i) => words.indexOf(w) !== i)).toEqual([]);
    expect(words.filter((w) => w !== w.toLowerCase().replace(/(?<=[a-z])-(?=[a-z])/g, ' '))).toEqual([]);
  });

  it('reads every name and synonym as itself', () => {
    for (const c of CONDITIONS) {
      for (const word of [c.name, ...c.also]) {
        if ('needs' in c) expect(parseCondition(`${word} ${c.needs}`).name, word).toBe(c.name);
        else expect(parseCondition(word), word).toEqual({ name: c.name });
      }
    }
  });

  it('reads a value after and before every word that takes one', () => {
    const values = {
      distance: '12 ft',
      oxygen: '7000 scf',
      percent: '24%',
      concentration: '3 mg/m3',
      level: '95 dBA',
      current: '120 A',
      temperature: '-40 F',
    } as const;
    for (const c of CONDITIONS) {
      if (!('quantity' in c)) continue;
      for (const word of [c.name, ...c.also]) {
        const after = parseCondition(`${word} ${values[c.quantity]}`);
        expect(after.name, word).toBe(c.name);
        expect(after.value, word).toBeGreaterThan(0);
        expect(parseCondition(`${values[c.quantity]} ${word}`), word).toEqual(after);
      }
    }
  });
});

describe('reading a condition', () => {
  it('does not mind case, hyphens, spaces, a colon or an equals sign', () => {
    expect(parseCondition('  Grease-Packed ')).toEqual({ name: 'grease packed' });
    expect(parseCondition('GALVANIZED')).toEqual({ name: 'galvanised' });
    expect(parseCondition('lead_paint')).toEqual({ name: 'lead paint' });
    for (const text of ['height 30 ft', 'Height: 30 ft', 'height = 30', '30 ft height', "height 30'"])
      expect(parseCondition(text)).toEqual({ name: 'height', value: 30 * FOOT });
    expect(parseCondition('height 4-1/2 ft').value).toBeCloseTo(4.5 * FOOT, 12);
    expect(parseCondition('underwater 20 m')).toEqual({ name: 'underwater', value: 20 });
    expect(parseCondition('manifold 7000 scf').value).toBeCloseTo(7000 * SCF, 9);
    expect(parseCondition('oxygen 24%').value).toBeCloseTo(0.24, 12);
    // A cell formatted as a percentage holds 0.24 where it shows 24%.
    expect(parseCondition('oxygen 0.24').value).toBeCloseTo(0.24, 12);
    expect(parseCondition('oxygen 0.24%').value).toBeCloseTo(0.0024, 12);
    expect(parseCondition('noise 95').value).toBe(95);
  });

  it('takes a plain number in the unit of the system', () => {
    expect(parseCondition('height 30', 'SI').value).toBe(30);
    expect(parseCondition('height 30', 'US').value).toBeCloseTo(9.144, 12);
  });

  it('refuses an unknown word with the nearest known ones, as #N/A', () => {
    expect(() => parseCondition('confnied')).toThrow('condition "confnied" is not in the register; nearest: confined');
    expect(() => parseCondition('galvinised')).toThrow('nearest: galvanised');
    expect(() => parseCondition('qwench')).toThrow('quench');
    expect(code(() => parseCondition('moonlight'))).toBe('#N/A');
  });

  it('refuses a value that is missing, of the wrong kind, negative or out of place, as #VALUE!', () => {
    expect(() => parseCondition('noise')).toThrow('condition "noise" needs a value, such as noise 95 dBA');
    expect(() => parseCondition('height 30 psi')).toThrow('condition "height" needs a value, such as height 30 ft');
    expect(() => parseCondition('height -5 ft')).toThrow('needs a value');
    expect(() => parseCondition('galvanised 3 ft')).toThrow(
      'condition "galvanised 3 ft" has a value; "galvanised" takes none',
    );
    for (const text of ['noise', 'height 30 psi', 'height -5 ft', 'galvanised 3 ft'])
      expect(
        code(() => parseCondition(text)),
        text,
      ).toBe('#VALUE!');
  });
});

describe('reading the conditions of a job', () => {
  it('passes over blank cells and keeps repeats once, whatever the word', () => {
    expect(parseConditions(['confined', '', '  ', 'tank', 'Confined Space'])).toEqual([{ name: 'confined' }]);
    expect(parseConditions([])).toEqual([]);
  });

  it('keeps two values of one condition', () => {
    expect(parseConditions(['height 10 ft', 'height 30 ft'])).toHaveLength(2);
  });
});

describe('operations', () => {
  it('are found whatever the case, and refused with the nearest', () => {
    for (const o of OPERATION_IDS) expect(findOperation(` ${o.toLowerCase()} `)).toBe(o);
    expect(() => findOperation('GOUG')).toThrow('operation "GOUG" is not in the register; nearest: GOUGE');
    expect(code(() => findOperation(''))).toBe('#N/A');
  });
});
