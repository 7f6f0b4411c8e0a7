import { describe, expect, it } from 'vitest';
import { calc, readCalc } from '../../src/cli/calc.ts';
import { inventedFunctions } from '../engine/invented-functions.ts';

const CSV = 'size,rod\n3,3/8\n-4,1/4\n';
const LONG = Array.from({ length: 12_000 }, (_, i) => `${i},pin ${i}\r\n`).join('');
const FILES: Readonly<Record<string, string>> = { 'pins.csv': CSV, 'long.csv': LONG };

async function run(...args: string[]) {
  const asked = readCalc(args);
  const { code, out, err } =
    'code' in asked
      ? asked
      : await calc(asked, inventedFunctions, (path) => {
          const text = FILES[path];
          if (text === undefined) throw new Error('no such file');
          return Buffer.from(text);
        });
  return { code, out, err, lines: out.split('\n') };
}

describe('calc', () => {
  it('prints the value of a formula, with or without its equals sign', async () => {
    expect(await run('=BURN.DOUBLE(2)', 'SUM(BURN.DOUBLE({3;4}))')).toMatchObject({ code: 0, out: '4\n14', err: '' });
  });
  it('prints what a formula spills as aligned columns', async () => {
    expect((await run('=BURN.TABLE(10)')).out.split('\n').slice(0, 3)).toEqual([
      'item    value',
      'row 1       1',
      'row 2       2',
    ]);
  });
  it('prints an error with its text, and with exit code 1', async () => {
    expect(await run('=SUM(BURN.DOUBLE("a"),1)')).toMatchObject({ code: 1, out: '#VALUE! x is "a"; must be a number' });
  });
  it('prints the texts of failed cells below a table', async () => {
    expect((await run('=BURN.DOUBLE({1;-2;"a"})')).out.split('\n')).toEqual([
      '      2',
      '#N/A',
      '#VALUE!',
      'row 2, column 1: #N/A x is -2; must be 0 or more',
      'row 3, column 1: #VALUE! x is "a"; must be a number',
    ]);
  });
  it('prints at most 20 texts below one table', async () => {
    expect((await run('=BURN.DOUBLE(SEQUENCE(30,1,-30,1))')).out).toMatch(/row 20, column 1: .*\nand 10 more$/);
  });
  it('prints one line of JSON a formula, errors as objects', async () => {
    const { code, lines } = await run('--json', '=BURN.DOUBLE({1;-1})', 'TRUE', '=BURN.KINDS()');
    expect(code).toBe(1);
    expect(lines.map((line) => JSON.parse(line) as unknown)).toEqual([
      { formula: '=BURN.DOUBLE({1;-1})', values: [[2], [{ error: '#N/A', message: 'x is -1; must be 0 or more' }]] },
      { formula: 'TRUE', values: [[true]] },
      {
        formula: '=BURN.KINDS()',
        values: [
          [
            1.5,
            'text',
            true,
            null,
            { error: '#VALUE!', message: 'a reason' },
            expect.objectContaining({ error: '#NUM!' }) as unknown,
          ],
        ],
      },
    ]);
  });
  it('finds nothing in a cell of a sheet that is not there', async () => {
    expect(await run('=A1+1', '=SUM(A:A)')).toMatchObject({ code: 0, out: '1\n0' });
  });
  it.each([
    ['=1' + '+1'.repeat(5000), 'the formula has 10,001 characters; the host takes 8,192'],
    ['='.concat('ABS('.repeat(200), '1', ')'.repeat(200)), 'stand more than 64 deep'],
    ['='.concat('-'.repeat(8000), '1'), '#'],
  ])('refuses %.30s, which the host does not take', async (formula, why) => {
    expect(await run(formula)).toMatchObject({ code: 1, out: expect.stringContaining(why) as string });
  });
  it('lets no text of a cell look like lines of its own, or turn the writing round', async () => {
    const { out } = await run('="3"&CHAR(10)&"written: job.xlsx"&UNICHAR(8238)&UNICHAR(155)');
    expect(out).toBe('3\u23cewritten: job.xlsx\\u202e\\u009b');
  });
  it('gives a result as long as a list of 12,000 rows', async () => {
    const { code, lines } = await run(
      '--json',
      '--sheet',
      'long.csv',
      '=BURN.DOUBLE(A1:A12000)',
      '=A1:B12000',
      '=SUM(A:A)',
    );
    const values = lines.map((line) => (JSON.parse(line) as { values: unknown[][] }).values);
    expect(code).toBe(0);
    expect(values[0]).toEqual(Array.from({ length: 12_000 }, (_, i) => [2 * i]));
    expect(values[1]?.at(-1)).toEqual([11_999, 'pin 11999']);
    expect(values[2]).toEqual([[(12_000 * 11_999) / 2]]);
  });
  it('goes on after a formula that cannot be read', async () => {
    expect(await run('=SUM(1', '=2')).toMatchObject({ code: 1, lines: [expect.stringMatching(/^#/) as string, '2'] });
  });
  it('puts a CSV at A1, so that cells, ranges and whole columns can be used', async () => {
    const { lines } = await run(
      '--json',
      '--sheet',
      'pins.csv',
      '=BURN.ECHO(A2:B3)',
      '=SUM(A:A)',
      '=BURN.DOUBLE(A:A)',
      '=BURN.SEEN.SIZE(1:1)',
    );
    const values = lines.map((line) => (JSON.parse(line) as { values: unknown[][] }).values);
    expect(JSON.parse(String(values[0]?.[0]?.[0]))).toEqual([
      [
        [3, '3/8'],
        [-4, '1/4'],
      ],
    ]);
    expect(values[1]).toEqual([[-1]]);
    expect(values[2]).toEqual([
      [expect.objectContaining({ error: '#VALUE!' })],
      [6],
      [expect.objectContaining({ error: '#N/A' })],
    ]);
    expect(values[3]).toEqual([['1 x 2']]);
  });
  it('lists the functions, and the arguments of one, from their declarations', async () => {
    const { out } = await run('--help');
    for (const f of inventedFunctions) expect(out).toContain(f.name);
    expect((await run('--help', 'burn.table')).out).toMatch(
      /^BURN\.TABLE\(count, \[columns\]\)\nA heading[^]*columns {2}what columns is \(may be left out\)$/,
    );
  });
  it('lists the functions of a family', async () => {
    expect((await run('--help', 'BURN.SEEN')).out).toContain('BURN.SEEN.SIZE(range)');
  });
  it.each([
    [[], 'No formula given'],
    [['--jsn', '=1'], 'no option --jsn'],
    [['--sheet'], '--sheet needs a value'],
    [['--seconds', 'x', '=1'], '--seconds needs'],
    [['--sheet', 'none.csv', '=1'], 'none.csv cannot be read: no such file'],
    [['  '], 'argument is empty'],
    [['--help', 'BURN.TABEL'], 'nearest: BURN.TABLE'],
  ])('answers wrong use %j with exit code 2', async (args, why) => {
    const { code, out, err } = await run(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(why);
  });
});
