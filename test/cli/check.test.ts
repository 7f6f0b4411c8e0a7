import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { CHECK_USAGE, readCheck, runCheck } from '../../src/cli/check/command.ts';
import type { NewSheet } from '../../src/files/xlsx/new-workbook.ts';
import { altered, makeWorkbook, replacing, SHEET1 } from '../files/xlsx/make.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => path.join(folder, name);
const run = (name: string, json = false, all = false) => runCheck({ file: at(name), json, all, seconds: 60 });

const pins = (...third: readonly (string | number)[]): NewSheet => ({
  name: 'Pins',
  rows: [
    ['diameter', 'length', 'rods'],
    [3, 10, '=BURN.PIN.RODS(A2,B2)'],
    [4, 12, '=BURN.PIN.RODS(A3,B3)'],
    [5, 14, ...third],
    [6, 16, '=BURN.PIN.RODS(A5,B5)'],
    [null, null, '=SUM(C2:C5)'],
  ],
});
const whole = pins('=BURN.PIN.RODS(A4,B4)');

describe('the command check', () => {
  it('takes one workbook', () => {
    expect(readCheck([])).toMatchObject({ code: 2 });
    expect(readCheck(['a.xlsx', 'b.xlsx'])).toMatchObject({ code: 2 });
    expect(readCheck(['--seconds', '0', 'a.xlsx'])).toMatchObject({ code: 2 });
    expect(readCheck(['--write', 'a.xlsx'])).toMatchObject({ code: 2 });
    expect(readCheck(['--help'])).toEqual({ code: 0, out: CHECK_USAGE, err: '' });
    expect(readCheck(['--json', 'a.xlsx'])).toEqual({ file: 'a.xlsx', json: true, all: false, seconds: 120 });
  });

  it('finds nothing where nothing is wrong, and tells formulas and cautions all the same', async () => {
    writeFileSync(at('good.xlsx'), await makeWorkbook([whole]));
    const before = readFileSync(at('good.xlsx'));
    const { code, out, err } = await run('good.xlsx');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('good.xlsx: 4 cells with BURN functions, 1 formula\n  Pins!C2:C5  =BURN.PIN.RODS(A2,B2)\n');
    expect(out).toContain('\nfound  0\n');
    expect(out).toMatch(/\ncautions of the whole job {2}\d+\n {2}can kill/);
    expect(readFileSync(at('good.xlsx')).equals(before)).toBe(true);
  });

  it('leads to the cell of what it finds, by its exit code too', async () => {
    writeFileSync(at('typed.xlsx'), await makeWorkbook([pins(9)]));
    const { code, out } = await run('typed.xlsx');
    expect(code).toBe(1);
    expect(out).toContain('found  1\n  Pins!C4  typed over: 9 is typed where its neighbours have a formula');
    const told = JSON.parse((await run('typed.xlsx', true)).out) as Record<string, unknown>;
    expect(told).toMatchObject({
      file: 'typed.xlsx',
      formulas: [{ cells: ['Pins!C2', 'Pins!C3', 'Pins!C5'], functions: ['BURN.PIN.RODS'], errors: 0 }],
      findings: [{ kind: 'typed over', cells: ['Pins!C4'] }],
    });
  });

  it('says the reason of an error and why a value moved', async () => {
    writeFileSync(at('error.xlsx'), await makeWorkbook([{ ...whole, cells: { A3: 'thick' } }]));
    expect((await run('error.xlsx')).out).toMatch(/Pins!C3 {2}error: diameter/);
    const good = await makeWorkbook([whole]);
    const text = altered(good, { [SHEET1]: replacing(/(BURN_PIN_RODS\(A2,B2\)<\/f><v>)[^<]*/, '$199') });
    writeFileSync(at('moved.xlsx'), text);
    expect((await run('moved.xlsx')).out).toMatch(/Pins!C2 {2}moved: 99 -> \d+ {2}unknown: /);
  });

  it('takes a workbook with nothing of ours, and refuses what is none in one line', async () => {
    writeFileSync(at('wages.xlsx'), await makeWorkbook([{ name: 'Wages', rows: [[1, '=A1*2']] }]));
    expect(await run('wages.xlsx')).toEqual({
      code: 0,
      out: 'wages.xlsx: there is no formula with a BURN function in it',
      err: '',
    });
    writeFileSync(at('text.xlsx'), 'no workbook');
    for (const name of ['absent.xlsx', 'text.xlsx']) {
      const { code, out, err } = await run(name);
      expect({ code, out, lines: err.split('\n').length }).toEqual({ code: 2, out: '', lines: 1 });
    }
  });
});
