import { describe, expect, it } from 'vitest';
import { csvSheet as read, type CsvForm } from '../../src/files/csv-sheet.ts';

const csvSheet = (text: string, form?: CsvForm) => read(Buffer.from(text), form).rows;

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
  it('keeps an inch mark in a field that is not quoted', () => {
    expect(csvSheet('3-1/2",12\n4",10')).toEqual([
      [{ text: '3-1/2"' }, 12],
      [{ text: '4"' }, 10],
    ]);
  });
});

describe('a CSV file as people have it', () => {
  const PINS = 'Größe;Länge\n3,5;10\n4,250;12\n';
  const cells = [
    [{ text: 'Größe' }, { text: 'Länge' }],
    [3.5, 10],
    [4.25, 12],
  ];
  it.each([
    ['UTF-8', Buffer.from(PINS), 'utf-8'],
    ['UTF-8 with a mark', Buffer.from(`\uFEFF${PINS}`), 'utf-8'],
    ['UTF-16 with a mark', Buffer.from(`\uFEFF${PINS}`, 'utf16le'), 'utf-16le'],
    ['UTF-16 without', Buffer.from(PINS, 'utf16le'), 'utf-16le'],
    ['UTF-16 the other way round', Buffer.from(`\uFEFF${PINS}`, 'utf16le').swap16(), 'utf-16be'],
    ["an older program's bytes", Buffer.from(PINS, 'latin1'), 'windows-1252'],
  ])('in %s, with semicolons and decimal commas, is found out and told', (_, bytes, encoding) => {
    expect(read(bytes)).toEqual({
      rows: cells,
      taken: `taken as ${encoding}, semicolons between fields, decimal commas`,
    });
  });
  it('needs no word where it is as most have it', () => {
    expect(read(Buffer.from('size,length\n3.5,10\n4.250,12\n'))).toMatchObject({ taken: '' });
  });
  it('tells of a number that may be read two ways', () => {
    expect(read(Buffer.from('a,b\n"4,250",12\n')).taken).toMatch(
      /decimal points; 4,250 is 4250: if it is not, give --decimal$/,
    );
    expect(read(Buffer.from('4,250;12\n')).rows).toEqual([[4.25, 12]]);
    expect(read(Buffer.from('4.250;12\n'))).toMatchObject({
      rows: [[4250, 12]],
      taken: expect.stringContaining('4.250 is 4250') as string,
    });
    expect(read(Buffer.from('"4,250",12\n"3,5",1\n')).rows[0]).toEqual([4.25, 12]);
    expect(read(Buffer.from('1.234,5;7\n')).rows).toEqual([[1234.5, 7]]);
    expect(read(Buffer.from('1,234.5;7\n')).rows).toEqual([[1234.5, 7]]);
  });
  it('is read as the user says', () => {
    expect(csvSheet('1|2,5', { separator: '|', decimal: ',' })).toEqual([[1, 2.5]]);
    expect(csvSheet('"4,250";12\n', { decimal: '.' })).toEqual([[4250, 12]]);
    expect(read(Buffer.from('ä', 'latin1'), { encoding: 'latin1' }).rows).toEqual([[{ text: 'ä' }]]);
    expect(csvSheet('sep=;\n1;2,5\n')).toEqual([[1, 2.5]]);
  });
  it.each([
    [{ encoding: 'utf-99' }, 'no encoding utf-99'],
    [{ encoding: 'utf-8' }, 'it is not in utf-8'],
    [{ separator: 'ab' }, 'ab cannot separate'],
    [{ decimal: ';' }, 'decimal sign'],
  ])('refuses %j', (form, why) => {
    expect(() => read(Buffer.from('ä;1', 'latin1'), form)).toThrow(why);
  });
  it('takes the separator that every line has, also where texts hold another', () => {
    expect(csvSheet('"a;b;c",1\nd,2\n')).toEqual([
      [{ text: 'a;b;c' }, 1],
      [{ text: 'd' }, 2],
    ]);
    expect(csvSheet('boom, left\t1\narm\t2\n')).toEqual([
      [{ text: 'boom, left' }, 1],
      [{ text: 'arm' }, 2],
    ]);
  });
});
