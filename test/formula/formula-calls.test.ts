import { describe, expect, it } from 'vitest';
import { findCalls, type Operand } from '../../src/formula/formula-calls.ts';

const only = (formula: string): readonly Operand[] => {
  const calls = findCalls(formula);
  expect(calls.length, formula).toBe(1);
  return calls[0]!.operands;
};
const kinds = (formula: string): readonly string[] => only(formula).map((o) => `${o.kind} ${o.text}`.trim());
const value = (text: string): unknown => {
  const [operand] = only(`=BURN.PIN.HOLE(${text})`);
  return operand?.kind === 'value' ? operand.value : operand?.kind;
};

describe('the calls in a formula', () => {
  it('are those of the namespace, whatever the case, with the text of each argument', () => {
    expect(findCalls('=burn.Pin.Oxygen(A5, B5 ,3)')).toEqual([
      {
        name: 'BURN.PIN.OXYGEN',
        text: 'burn.Pin.Oxygen(A5, B5 ,3)',
        whole: true,
        operands: [
          { kind: 'reference', text: 'A5' },
          { kind: 'reference', text: 'B5' },
          { kind: 'value', text: '3', value: 3 },
        ],
      },
    ]);
  });

  it('are found inside other functions, the outer before the inner, and then are not all of the formula', () => {
    const calls = findCalls('=IF(A5="","",BURN.CYLINDER.COUNT(BURN.PIN.OXYGEN(A5,B5)))');
    expect(calls.map((c) => [c.name, c.whole])).toEqual([
      ['BURN.CYLINDER.COUNT', false],
      ['BURN.PIN.OXYGEN', false],
    ]);
    expect(calls[0]?.operands[0]).toMatchObject({
      kind: 'call',
      call: { name: 'BURN.PIN.OXYGEN', operands: [{ text: 'A5' }, { text: 'B5' }] },
    });
  });

  it('are the whole formula with blanks and the single-value sign before them, and not with anything behind', () => {
    expect(findCalls('= @BURN.PIN.RODS(A5,B5)')[0]?.whole).toBe(true);
    expect(findCalls('=BURN.PIN.RODS(A5,B5)*2')[0]?.whole).toBe(false);
    expect(findCalls('=-BURN.PIN.RODS(A5,B5)')[0]?.whole).toBe(false);
  });

  it('are none in a text, a number or a formula without them', () => {
    for (const formula of [
      '',
      'BURN.PIN.RODS(1)',
      '=SUM(A1:A3)',
      '="BURN.PIN.RODS(1)"',
      '=BURN.PIN.RODS',
      '=BURN.PIN.RODS(1',
    ])
      expect(findCalls(formula), formula).toEqual([]);
  });

  it('may have no arguments at all', () => {
    expect(only('=BURN.VERSION( )')).toEqual([]);
  });
});

describe('an argument', () => {
  it('may be left out, between separators or at the end', () => {
    expect(kinds('=BURN.PIN.RODS(3,10,,"3/8", )')).toEqual([
      'value 3',
      'value 10',
      'omitted',
      'value "3/8"',
      'omitted',
    ]);
  });

  it.each([
    ['3.5', 3.5],
    ['-3.5', -3.5],
    ['+2', 2],
    ['--1', 1],
    ['3.5%', 0.035],
    ['-20%', -0.2],
    ['1E+3', 1000],
    ['.5', 0.5],
    ['(3)', 3],
    ['"3/8 x 36"', '3/8 x 36'],
    ['"4-1/2"""', '4-1/2"'],
    ['""', ''],
    ['TRUE', true],
    ['false', false],
    ['#N/A', { error: '#N/A', message: '' }],
  ])('%s is a constant', (text, expected) => {
    expect(value(text)).toEqual(expected);
  });

  it.each([
    'A5',
    '$A$5',
    'A5:A40',
    'A:A',
    '5:9',
    'Pins!A5:A40',
    "'Job sheet'!B2",
    "'Foreman''s'!B2#",
    'A5#',
    'Diameters',
    'Pins[diameter]',
    'Pins[[#This Row],[pin length]]',
    '[@diameter]',
    '(A5:A9)',
  ])('%s is a reference', (text) => {
    expect(only(`=BURN.PIN.HOLE(${text})`)).toEqual([{ kind: 'reference', text: text.replace(/[()]/g, '') }]);
  });

  it('may be an array constant, by rows', () => {
    const rowsOf = (text: string): unknown => {
      const [operand] = only(`=BURN.PIN.HOLE(${text})`);
      return operand?.kind === 'array' ? operand.rows : operand?.kind;
    };
    expect(rowsOf('{1,2;3,4}')).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(rowsOf('{-1;"a";TRUE;#N/A;50%}')).toEqual([[-1], ['a'], [true], [{ error: '#N/A', message: '' }], [0.5]]);
    expect(rowsOf('{1,2;3}')).toBe('formula');
    expect(rowsOf('{A1,2}')).toBe('formula');
  });

  it('may be plain arithmetic', () => {
    expect(kinds('=BURN.PIN.RODS(3+1/2,A5/25.4,2*(B5-0.5))')).toEqual([
      'arithmetic 3+1/2',
      'arithmetic A5/25.4',
      'arithmetic 2*(B5-0.5)',
    ]);
  });

  it.each([
    'SUM(A1:A3)',
    'A1:INDEX(B1,2)',
    '@A1:A5',
    '(A1,A2)',
    'A1 B1',
    'A1&" in"',
    'A1>3',
    'IF(A1,2,3)',
    '2 ft',
    'BURN.PIN.HOLE(3)+SUM(A1)',
  ])('%s is a formula for the sheet alone', (text) => {
    expect(findCalls(`=BURN.PIN.RODS(${text},3)`)[0]?.operands[0]).toEqual({ kind: 'formula', text });
  });
});

describe('a formula as a locale with decimal commas writes it', () => {
  it('has semicolons between arguments and commas in numbers', () => {
    const [diameter, length, hole, rod] = only('=BURN.PIN.OXYGEN(3,5;A5:A9;;"1/4; short")');
    expect(diameter).toEqual({ kind: 'value', text: '3,5', value: 3.5 });
    expect(length).toEqual({ kind: 'reference', text: 'A5:A9' });
    expect(hole?.kind).toBe('omitted');
    expect(rod).toMatchObject({ value: '1/4; short' });
  });

  it('parts the columns of an array constant with backslashes', () => {
    expect(only('=BURN.PIN.OXYGEN({3,5\\4;5\\6};{1;2})').map((o) => (o.kind === 'array' ? o.rows : o.kind))).toEqual([
      [
        [3.5, 4],
        [5, 6],
      ],
      [[1], [2]],
    ]);
  });

  it('keeps the text of the call as it stood', () => {
    expect(findCalls('=SUM(BURN.PIN.RODS(3,5;10);1)')[0]?.text).toBe('BURN.PIN.RODS(3,5;10)');
  });
});
