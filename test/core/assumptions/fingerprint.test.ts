import { describe, expect, it } from 'vitest';
import { fingerprintOf, fnv1a } from '../../../src/core/assumptions/fingerprint.ts';
import { readAssume } from '../../../src/catalogue/read-assume.ts';
import type { Cell } from '../../../src/catalogue/cell.ts';

const of = (...rows: readonly (readonly Cell[])[]): string => fingerprintOf(readAssume(rows));

describe('32-bit FNV-1a', () => {
  // Test values of the algorithm's authors, draft-eastlake-fnv, appendix (from memory).
  it.each([
    ['', 0x811c9dc5],
    ['a', 0xe40c292c],
    ['foobar', 0xbf9cf968],
  ])('of "%s"', (text, hash) => {
    expect(fnv1a(text)).toBe(hash);
  });
});

describe('the fingerprint of the assumptions in force', () => {
  it('is none where nothing departs from the defaults', () => {
    expect(of()).toBe('');
    expect(of(['stub', 3])).toBe('');
  });

  it('is the same in any order, unit, writing and with any reason', () => {
    const one = of(['stub', 4], ['position', 'overhead']);
    expect(one).toMatch(/^[0-9a-f]{8}$/);
    expect(of(['position', 'overhead'], ['stub', 4])).toBe(one);
    expect(of(['correlation of flow factor with slag temperature', 0.5])).toBe(
      of(['correlation of slag temperature with flow factor', 0.5]),
    );
    expect(of(['name', 'value', 'unit', 'why'], ['position', 'Overhead'], ['stub', 101.6, 'mm', 'measured'])).toBe(one);
  });

  it('is another for each value, range and word', () => {
    const all = [
      of(['stub', 4]),
      of(['stub', 4.0001]),
      of(['name', 'value', 'low', 'high'], ['stub', 4, 3.5, 4.5]),
      of(['position', 'overhead']),
      of(['position', 'vertical down']),
      of(['correlation of flow factor with slag temperature', 0.5]),
      of(['correlation of flow factor with slag temperature', 0.6]),
      of(['correlation of flow factor with rod feed ratio', 0.5]),
      of(['stub', 4], ['position', 'vertical down']),
    ];
    expect(new Set(all).size).toBe(all.length);
  });
});
