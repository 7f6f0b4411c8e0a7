import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearestNames } from '../../../src/core/units/nearest-names.ts';

describe('edit distance', () => {
  it('counts the letters to add, drop, change or swap', () => {
    // kitten/sitting and saturday/sunday: the usual worked examples of the Wagner-Fischer recurrence.
    expect(editDistance('kitten', 'sitting')).toBe(3);
    expect(editDistance('saturday', 'sunday')).toBe(3);
    expect(editDistance('niosh', 'nisoh')).toBe(1);
    expect(editDistance('', 'pin')).toBe(3);
    expect(editDistance('pin', '')).toBe(3);
    expect(editDistance('pin', 'pin')).toBe(0);
  });

  it('takes two neighbours swapped for one edit, and nothing less than a swap', () => {
    // By hand: one of the two letters meets its neighbour's place, the other is not there.
    expect(editDistance('ab', 'ca')).toBe(2);
    expect(editDistance('ab', 'bc')).toBe(2);
    // A change, then a swap.
    expect(editDistance('xab', 'yba')).toBe(2);
    expect(editDistance('abcd', 'badc')).toBe(2);
  });

  it('is the same in both directions and obeys the triangle inequality for plain edits', () => {
    const words = ['pin', 'pine', 'spin', 'cut', 'cute', 'gouge'];
    for (const a of words) {
      for (const b of words) {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        for (const c of words) expect(editDistance(a, c)).toBeLessThanOrEqual(editDistance(a, b) + editDistance(b, c));
      }
    }
  });
});

describe('nearest names', () => {
  const names = ['confined', 'concrete', 'galvanised', 'grounded work', 'water quench'];

  it('of a page of text are those of its beginning, found as fast', () => {
    const page = 'galvanised and '.repeat(2000);
    expect(nearestNames(page, Array.from({ length: 300 }, () => names).flat(), 1)).toEqual(['galvanised']);
  });

  it('are those that measuring every name to the end would give', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c', ' '), maxLength: 7 });
    fc.assert(
      fc.property(word, fc.array(word, { maxLength: 12 }), (text, all) => {
        const tidy = (t: string): string => t.trim().replace(/ +/g, ' ');
        const far = (name: string): number => {
          const [t, n] = [tidy(text), tidy(name)];
          if (t === n) return 0;
          const letters = editDistance(t, n);
          if (t.length >= 2 && n.startsWith(t)) return Math.min(letters, 1);
          if (t.length >= 3 && ` ${n} `.includes(` ${t} `)) return Math.min(letters, 1.5);
          return n.length >= 3 && ` ${t} `.includes(` ${n} `) ? Math.min(letters, 1.5) : letters;
        };
        const measured = all.map((name) => ({ name, far: far(name) })).sort((a, b) => a.far - b.far);
        expect(nearestNames(text, all)).toEqual(measured.slice(0, 3).map((m) => m.name));
      }),
      { seed: 3, numRuns: 3000 },
    );
  });

  it('puts the slip of the pen first', () => {
    expect(nearestNames('confind', names)[0]).toBe('confined');
    expect(nearestNames('concreet', names)[0]).toBe('concrete');
    expect(nearestNames('Galvanized', names)[0]).toBe('galvanised');
  });

  it('knows a beginning and a word of a longer name', () => {
    expect(nearestNames('gal', names)[0]).toBe('galvanised');
    expect(nearestNames('quench', names)[0]).toBe('water quench');
    expect(nearestNames('confined space', names)[0]).toBe('confined');
  });

  it('counts a beginning of two letters or more for one edit', () => {
    expect(nearestNames('gal', ['cut', 'galvanised'])[0]).toBe('galvanised');
    expect(nearestNames('ga', ['cut', 'galvanised'])[0]).toBe('galvanised');
    expect(nearestNames('g', ['galvanised', 'a'])[0]).toBe('a');
    expect(nearestNames('ed', ['galvanised', 'bed'])[0]).toBe('bed');
  });

  it('counts a word of three letters or more, of the name or of what was typed, for an edit and a half', () => {
    // The others are two edits off, or three.
    expect(nearestNames('quench', ['bench', 'water quench'])[0]).toBe('water quench');
    expect(nearestNames('dry', ['drum', 'kiln dry'])[0]).toBe('kiln dry');
    expect(nearestNames('no', ['say no', 'nab'])[0]).toBe('nab');
    expect(nearestNames('wet concrete floor', ['set concrete flow', 'concrete'])[0]).toBe('concrete');
    expect(nearestNames('old pin bush', ['old bush', 'pin'])[0]).toBe('pin');
    expect(nearestNames('go to work', ['to', 'go work'])[0]).toBe('go work');
    // One edit is nearer.
    expect(nearestNames('quench', ['water quench', 'quenchy'])[0]).toBe('quenchy');
    expect(nearestNames('hot rod end', ['rod', 'hot rod ends'])[0]).toBe('hot rod ends');
  });

  it('does not mind case, spaces, hyphens and underscores', () => {
    expect(nearestNames('  GROUNDED-WORK ', names)[0]).toBe('grounded work');
    expect(nearestNames('water_quench', names)[0]).toBe('water quench');
    expect(nearestNames(' pin ', ['pins', 'pin'])[0]).toBe('pin');
  });

  it('gives as many as asked, and no more than there are', () => {
    expect(nearestNames('zzz', names)).toHaveLength(3);
    expect(nearestNames('zzz', names, 1)).toHaveLength(1);
    expect(nearestNames('zzz', ['one'], 5)).toEqual(['one']);
    expect(nearestNames('zzz', [])).toEqual([]);
  });

  it('keeps the order of the names where they are equally far', () => {
    expect(nearestNames('x', ['a', 'b', 'c'], 2)).toEqual(['a', 'b']);
  });
});
