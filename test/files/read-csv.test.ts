import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../src/files/read-csv.ts';

describe('separated values', () => {
  it('are read as by a library of another make', () => {
    const field = fc.string({ unit: fc.constantFrom('a', '3', '"', ',', '\n', '\r\n', ' ') });
    fc.assert(
      fc.property(fc.array(fc.array(field, { minLength: 1 }), { minLength: 1 }), (table) => {
        const text = table.map((row) => row.map((f) => `"${f.replaceAll('"', '""')}"`).join(',')).join('\r\n');
        const expected: string[][] = parse(text, { relax_column_count: true, skip_empty_lines: false });
        expect(readCsv(text, ',')).toEqual(expected);
        expect(readCsv(text, ',')).toEqual(table);
      }),
    );
  });
  it.each([
    [
      'a,b\n1,2\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    ['a;b', [['a;b']]],
    [
      ',\n,',
      [
        ['', ''],
        ['', ''],
      ],
    ],
    ['\n1\r\n\r\n', [[''], ['1'], ['']]],
    ['4-1/2",3\' 6"', [['4-1/2"', '3\' 6"']]],
    ['', []],
  ])('%j', (text, fields) => expect(readCsv(text, ',')).toEqual(fields));
  it('with a quote that is not closed are refused, with its line', () => {
    expect(() => readCsv('a\n"b', ',')).toThrow('in line 2 is not closed');
  });
});
