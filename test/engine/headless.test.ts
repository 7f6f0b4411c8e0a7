import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/sheet/host-function.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { CellContent, SheetDescription } from '../../src/sheet/described-workbook.ts';
import { inventedFunctions } from './invented-functions.ts';

/** The result of one formula in L1 of a sheet with these rows at A1. */
async function result(
  formula: string,
  rows: readonly (readonly CellContent[])[] = [],
  more: readonly SheetDescription[] = [],
) {
  const sheets = [{ name: 'Job sheet', rows, cells: { L1: formula } }, ...more];
  const workbook = await calculateWorkbook(
    { sheets, definedNames: { sizes: "'Job sheet'!$A$1:$A$3" } },
    inventedFunctions,
  );
  return workbook.spilled('L1');
}

async function seen(formula: string, rows: readonly (readonly CellContent[])[] = []): Promise<unknown> {
  const echo = (await result(formula, rows))[0]?.[0];
  return typeof echo === 'string' ? JSON.parse(echo) : echo;
}

describe('what a function is given', () => {
  const rows: readonly (readonly CellContent[])[] = [
    [1, 'x'],
    [{ text: '3/8' }, true],
    [null, { error: '#N/A', message: 'no such rod' }],
  ];

  it('keeps numbers, texts, truth values and errors with their texts, and blanks as null', async () => {
    expect(await seen('=BURN.ECHO(A1:B3)', rows)).toEqual([
      [
        [1, 'x'],
        ['3/8', true],
        [null, { error: '#N/A', message: 'no such rod' }],
      ],
    ]);
  });
  it('takes a range of one cell as the cell', async () => {
    expect(await seen('=BURN.ECHO(A1,A3,B3)', rows)).toEqual([1, null, { error: '#N/A', message: 'no such rod' }]);
  });
  it('tells an argument left out from a blank cell', async () => {
    expect(await seen('=BURN.ECHO(A3,,2)', rows)).toEqual([null, 'omitted', 2]);
    expect(await seen('=BURN.ECHO()')).toEqual([]);
  });
  it('leaves a quoted fraction a text, alone, in an array and through another function', async () => {
    expect(await seen('=BURN.ECHO("3/8",{"1/4";2},IF(TRUE,"3/16"))')).toEqual(['3/8', [['1/4'], [2]], '3/16']);
  });
  it('gets a computed array and an error of a formula', async () => {
    expect(await seen('=BURN.ECHO(-A1:A2*2,1/0)', [[1], [2]])).toEqual([
      [[-2], [-4]],
      { error: '#DIV/0!', message: '' },
    ]);
  });
  it('gets a whole column up to its last filled cell, and columns of one call equally long', async () => {
    const columns = [[1, 5], [2], [3, null, 'far']];
    expect(await result('=BURN.SEEN.SIZE(A:A)', columns)).toEqual([['3 x 1']]);
    expect(await result('=BURN.SEEN.SIZE(B:B)', columns)).toEqual([['1 x 1']]);
    expect(await seen('=BURN.ECHO(A:A,B:B)', columns)).toEqual([
      [[1], [2], [3]],
      [[5], [null], [null]],
    ]);
  });
  it('gets a whole row up to its last filled cell', async () => {
    expect(await result('=BURN.SEEN.SIZE(2:2)', [[1], [1, 2, 3]])).toEqual([['1 x 3']]);
  });
  it('gets nothing but a blank from an empty column', async () => {
    expect(await seen('=BURN.ECHO(F:F)')).toEqual([null]);
  });
  it('reads other sheets and named ranges, and says where there is no such sheet', async () => {
    const more = [{ name: 'Prices', rows: [[7], [8]] }];
    expect(await result('=SUM(BURN.DOUBLE(Prices!A1:A2))', [], more)).toEqual([[30]]);
    expect(await result('=SUM(BURN.DOUBLE(sizes))', [[1], [2], [3]])).toEqual([[12]]);
    expect(await seen('=BURN.ECHO(Missing!A1)', [[1]])).toMatchObject([{ error: '#REF!' }]);
  });
  it('is told when there are too many arguments', async () => {
    expect(await result('=BURN.DOUBLE(1,2)')).toEqual([
      [{ error: '#VALUE!', message: 'there are 2 arguments; at most 1 are taken' }],
    ]);
  });
});

describe('what a function gives', () => {
  it('spills values of every kind, and an error cell keeps its text', async () => {
    expect(await result('=BURN.KINDS()')).toEqual([
      [
        1.5,
        'text',
        true,
        null,
        { error: '#VALUE!', message: 'a reason' },
        expect.objectContaining({ error: '#NUM!' }) as Cell,
      ],
    ]);
  });
  it('lets a bad row fail alone', async () => {
    expect(await result('=BURN.DOUBLE(A1:A4)', [[2], ['x'], [null], [-1]])).toEqual([
      [4],
      [{ error: '#VALUE!', message: 'x is "x"; must be a number' }],
      [null],
      [{ error: '#N/A', message: 'x is -1; must be 0 or more' }],
    ]);
  });
  it('becomes an error, not the end of the process, where it throws', async () => {
    const [[cell]] = (await result('=BURN.THROWS()')) as [[Cell]];
    expect(cell).toMatchObject({ error: '#VALUE!', message: expect.stringContaining('not so') as string });
  });
  it('can be written in small letters and used in ordinary formulas', async () => {
    expect(await result('=SUM(burn.double({3;4}),1)&" in"')).toEqual([['15 in']]);
  });
});

describe('texts of errors', () => {
  it('stay with an error through functions, operators and arrays around it', async () => {
    const text = { error: '#VALUE!', message: 'x is "a"; must be a number' };
    for (const formula of [
      '=SUM(BURN.DOUBLE("a"),1)',
      '=BURN.DOUBLE("a")+1',
      '=-BURN.DOUBLE("a")',
      '=ROUND(BURN.DOUBLE("a"),1)',
      '=IF(TRUE,BURN.DOUBLE("a"))',
      '=BURN.DOUBLE("a")&" in"',
      '=MAX(BURN.DOUBLE({1;"a"}))',
      '=SUMPRODUCT(BURN.DOUBLE({1;"a"}),{1;2})',
      '=AVERAGE(BURN.DOUBLE("a"))',
    ])
      expect(await result(formula), formula).toEqual([[text]]);
  });
  it('stay with it from cell to cell', async () => {
    const cells = { A1: '=BURN.DOUBLE("a")', A2: '=A1+1', A3: '=SUM(A1:A2)', A4: '=IFERROR(A3,"mended")' };
    const workbook = await calculateWorkbook({ sheets: [{ name: 'Job sheet', cells }] }, inventedFunctions);
    expect(workbook.values('A3:A4')).toEqual([
      [{ error: '#VALUE!', message: 'x is "a"; must be a number' }],
      ['mended'],
    ]);
  });
  it('are there for errors of the engine too', async () => {
    expect(await result('=1/0')).toEqual([[{ error: '#DIV/0!', message: 'division by zero or by a blank cell' }]]);
  });
  it('name the function that does not exist, and near ones', async () => {
    const [[cell]] = (await result('=1+BURN.DUOBLE(2)')) as [[Cell]];
    expect(cell).toMatchObject({
      error: '#NAME?',
      message: expect.stringMatching(/no function BURN\.DUOBLE; nearest: BURN\.DOUBLE/) as string,
    });
  });
});

describe('a workbook', () => {
  const calculate = (cells: Readonly<Record<string, CellContent>>) =>
    calculateWorkbook({ sheets: [{ name: 'Job sheet', cells }] }, inventedFunctions);

  it('spills a table, lets other formulas use it, and answers A1#', async () => {
    const workbook = await calculate({
      A1: '=BURN.TABLE(3)',
      E1: '=SUM(B2:B4)',
      E2: '=SUM(A1#)',
      E3: '=BURN.SEEN.SIZE(A1#)',
      E4: '=SUM(B:B)',
    });
    expect(workbook.values('A1:B4')).toEqual([
      ['item', 'value'],
      ['row 1', 1],
      ['row 2', 2],
      ['row 3', 3],
    ]);
    expect(workbook.values('E1:E4')).toEqual([[6], [6], ['4 x 2'], [6]]);
    expect(workbook.spilled('A1')).toHaveLength(4);
  });
  it('settles formulas that read what others spill from what others spill', async () => {
    // 1..3 sums to 5 without its first; 1..4 sums to 7 without its first two; the ninth of 1..9 is 9.
    const workbook = await calculate({
      A1: '=M9',
      M1: '=SEQUENCE(K1+2)',
      K1: '=SUM(I3:I9)',
      I1: '=SEQUENCE(G1-1)',
      G1: '=SUM(E2:E4)',
      E1: '=SEQUENCE(C1)',
      C1: '=3',
    });
    expect(workbook.values('A1')).toEqual([[9]]);
  });
  it('keeps nothing of a spill that turns out smaller once its input is known', async () => {
    // A1 is 5, so B1 counts to 5 and D1 is 2 + 3 + 4 + 5, however long B1 may have been before A1 was known.
    const workbook = await calculate({
      A1: '=SUM(C2:C9)',
      B1: '=SEQUENCE(10-A1)',
      C1: '=SEQUENCE(3)',
      D1: '=SUM(B2:B30)',
    });
    expect(workbook.values('A1:D1')).toEqual([[5, 1, 1, 14]]);
    expect(workbook.spilled('B1')).toHaveLength(5);
    expect(workbook.values('B6:B10')).toEqual([[null], [null], [null], [null], [null]]);
  });
  it('gives up on a spill that feeds on itself instead of going on for ever', async () => {
    const workbook = await calculate({ A1: '=SEQUENCE(C1+1)', C1: '=SUM(A2:A99)' });
    expect(workbook.values('C1')).toHaveLength(1);
  });
  it('does not spill over what is there', async () => {
    const workbook = await calculate({ A1: '=BURN.TABLE(3)', B3: 'in the way' });
    expect(workbook.spilled('A1')).toEqual([
      [{ error: '#SPILL!', message: expect.stringContaining('more cells') as string }],
    ]);
    expect(workbook.values('B3')).toEqual([['in the way']]);
  });
  it('names the cells of a circle in each of them and in what uses them, and spares the rest', async () => {
    const workbook = await calculate({ A1: '=B1+1', B1: '=C1', C1: '=A1*2', D1: '=A1', E1: '=E1', F1: '=2*3' });
    expect(workbook.values('A1:F1')).toEqual([
      [
        { error: '#CYCLE!', message: 'circular reference: A1 uses B1 uses C1 uses A1' },
        { error: '#CYCLE!', message: 'circular reference: B1 uses C1 uses A1 uses B1' },
        { error: '#CYCLE!', message: 'circular reference: C1 uses A1 uses B1 uses C1' },
        { error: '#CYCLE!', message: 'circular reference: A1 uses B1 uses C1 uses A1' },
        { error: '#CYCLE!', message: 'circular reference: E1 uses E1' },
        6,
      ],
    ]);
  });
  it('is independent of another one calculated at the same time', async () => {
    const [one, two] = await Promise.all([calculate({ A1: '=B1*2', B1: 4 }), calculate({ A1: '=B1*2', B1: 5 })]);
    expect([one.values('A1'), two.values('A1')]).toEqual([[[8]], [[10]]]);
  });
  it('refuses a reference to a sheet it does not have', async () => {
    const workbook = await calculate({ A1: 1 });
    expect(() => workbook.values('Prices!A1')).toThrow(RangeError);
  });
  it('takes 20,000 formulas', async () => {
    const rows = Array.from({ length: 20_000 }, (_, i): CellContent[] => [i, `=BURN.DOUBLE(A${i + 1})+1`]);
    const workbook = await calculateWorkbook(
      { sheets: [{ name: 'Job sheet', rows, cells: { D1: '=SUM(B:B)' } }] },
      inventedFunctions,
    );
    expect(workbook.values('B20000')).toEqual([[39_999]]);
    expect(workbook.values('D1')).toEqual([[20_000 * 20_000]]); // the sum of the first n odd numbers is n squared
  });
  it('takes a spill of 10,000 rows', async () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => [i]);
    const workbook = await calculateWorkbook(
      { sheets: [{ name: 'Job sheet', rows, cells: { C1: '=BURN.DOUBLE(A:A)' } }] },
      inventedFunctions,
    );
    expect(workbook.spilled('C1')).toHaveLength(10_000);
    expect(workbook.values('C10000')).toEqual([[19_998]]);
  });
});

describe('functions of the sheet', () => {
  const rows = [
    [4, 12],
    [3.5, 10],
    [6, 24],
  ];
  it('keep a line break in a quoted text, whichever it is, and others beside it', async () => {
    expect(await result('="a\nb"&"c\r\n\nd"')).toEqual([['a\nbc\n\nd']]);
    expect(await result('=LEN("say ""\n""")\n+1')).toEqual([[8]]);
    expect(await result(`='My ''sheet'!A1&"\n"`, [], [{ name: "My 'sheet", rows: [['x']] }])).toEqual([['x\n']]);
  });
  it.each([
    ['1+--A1', 5],
    ['1---A1', -3],
    ['1--A1', 5],
    ['2*--A1', 8],
    ['1+--(A1>2)', 2],
    ['1+--"3"', 4],
    ['1+---A1', -3],
    ['--A1', 4],
    ['SUMPRODUCT(--(A1:A3>3.9),1+--B1:B3)', 38],
    ['LEN("1+--2")', 5],
  ])('take two minus signs for none: %s', async (formula, value) => {
    expect(await result(`=${formula}`, rows)).toEqual([[value]]);
  });
  it('choose whole columns by a list of numbers', async () => {
    expect(await result('=CHOOSE({2,1},A1:A3,B1:B3)', rows)).toEqual(rows.map(([a, b]) => [b, a]));
    expect(await result('=SUM(CHOOSE(2,A1:A3,B1:B3))', rows)).toEqual([[46]]);
  });
  it.each([
    ['EDATE(46052,1)', 46081],
    ['EDATE(46052,13)', 46446],
    ['EDATE(46112,-1)', 46081],
    ['EDATE(46052,2)', 46111],
  ])('stay in the month with %s, from its last days to a shorter one', async (formula, serial) => {
    // 46052 is the 30th of January 2026, 46081 the 28th of February.
    expect(await result(`=${formula}`)).toEqual([[serial]]);
  });
  it.each([
    ['ROWS(A:A)', 1_048_576],
    ['COLUMNS(8:9)', 16_384],
    ['ROWS(8:9)', 2],
    ['COLUMNS(A1:C5)', 3],
    ['ROWS(OFFSET(A1,0,0,3,2))', 3],
    ['ROWS({1;2;3})', 3],
  ])('count a whole column as long as the host has it: %s', async (formula, count) => {
    expect(await result(`=${formula}`)).toEqual([[count]]);
  });
  it('make lists longer than the sheet they stand in', async () => {
    const sheet = {
      name: 'S',
      rows: [['=SUM(SEQUENCE(5000))', '=COUNT(RANDARRAY(5000))', '=SUM(SEQUENCE(2000000))']],
      size: [9, 9],
    } as const;
    const workbook = await calculateWorkbook({ sheets: [sheet] }, []);
    expect(workbook.values('A1:C1')).toEqual([[12_502_500, 5000, expect.objectContaining({ error: '#REF!' })]]);
  });
  it('give the text of a link', async () => {
    expect(await result('=HYPERLINK("https://example.org","the plan")&"!"')).toEqual([['the plan!']]);
    expect(await result('=HYPERLINK("https://example.org","the plan")')).toEqual([['the plan']]);
  });
});
