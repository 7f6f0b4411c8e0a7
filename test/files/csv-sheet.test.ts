import { describe, expect, it } from 'vitest';
import { csvSheet } from '../../src/files/csv-sheet.ts';

describe('a CSV text as cells', () => {
  it('takes numbers, truth values, blanks, errors and formulas as a sheet does', () => {
    expect(csvSheet('3.5,-1e3,.5,"1,200"\nTRUE,,#N/A,=A1*2')).toEqual([
      [3.5, -1000, 0.5, 1200],
      [true, null, { error: '#N/A', message: '' }, '=A1*2'],
    ]);
  });
  it('keeps fractions, dates and sizes with units as texts', () => {
    expect(csvSheet('3/8,2026-01-05,"4-1/2""",100 mm')).toEqual([
      [{ text: '3/8' }, { text: '2026-01-05' }, { text: '4-1/2"' }, { text: '100 mm' }],
    ]);
  });
  it('reads quoted commas and line breaks, a byte order mark and rows of unequal length', () => {
    expect(csvSheet('\uFEFF"boom, left",1\n"two\nlines"\n')).toEqual([
      [{ text: 'boom, left' }, 1],
      [{ text: 'two\nlines' }],
    ]);
  });
  it('keeps empty lines in their place', () => {
    expect(csvSheet('1\n\n2\n')).toEqual([[1], [null], [2]]);
  });
  it('reads semicolons and tabs where the first line has no comma', () => {
    expect(csvSheet('1;2\n3;4')).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(csvSheet('1\t2')).toEqual([[1, 2]]);
  });
});
