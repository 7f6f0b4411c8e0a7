import { describe, expect, it } from 'vitest';
import { tableLines } from '../../src/cli/table.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { calc, readCalc } from '../../src/cli/calc.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const LIST =
  'mark,qty,dia,length,colour\nBoom foot left,2,5,18,red\nBoom foot right,2,5,,\nLock pin,4 off,1-1/2,150 mm,\n';

describe('a table on a terminal', () => {
  const rows: Cell[][] = [
    ['item', 'mark', 'oxygen', 'crew', 'note'],
    [
      1,
      'Boom foot',
      120.5,
      57,
      'a text that goes on and on, much longer than anything a line of a terminal has room for',
    ],
    [2, 'Stick', 1.25, 8, ''],
  ];

  it('stands whole where it fits', () => {
    const lines = tableLines(rows);
    expect(lines).toHaveLength(3);
    expect(tableLines(rows, 200)).toEqual(lines);
  });

  it('is folded to the width, each part with the columns that name the row, and nothing lost', () => {
    for (const width of [30, 40, 60, 80]) {
      const lines = tableLines(rows, width);
      for (const line of lines) expect(line.length, `${width}: ${line}`).toBeLessThanOrEqual(width);
      const words = lines.join(' ').split(/\s+/);
      for (const word of 'Boom foot Stick 120.5 1.25 57 8 oxygen crew note terminal has room for'.split(' '))
        expect(words, `${width}`).toContain(word);
    }
    const narrow = tableLines(rows, 40);
    expect(narrow.filter((line) => line.startsWith('item  mark')).length).toBeGreaterThan(1);
  });
});

describe('a job list on the command line', () => {
  it('is planned as a table of the width, with one message for a bad row', async () => {
    const asked = readCalc(['--sheet', 'list.csv', '=BURN.JOB.PLAN(A1:H20)']);
    if ('code' in asked) throw new Error(asked.err);
    const { code, out } = await calc({ ...asked, width: 80 }, hostFunctions, () => Buffer.from(LIST));
    const lines = out.split('\n');
    expect(code).toBe(1);
    for (const line of lines.slice(0, -1)) expect(line.length, line).toBeLessThanOrEqual(80);
    expect(lines.filter((line) => line.startsWith('row '))).toEqual([
      'row 3: #VALUE! Boom foot right: length is blank or zero; must be more than 0',
    ]);
    expect(out).toMatch(/2 of 3 rows, 6\s+pieces; the others are left out|2 of 3 rows, 6 pieces/);
  });
});
