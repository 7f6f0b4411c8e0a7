import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { plainFile, readPlain, type AskedOfPlain } from '../../src/cli/plain/command.ts';
import { templateFile } from '../../src/cli/template/command.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';

const SOFFICE = ['/usr/bin/soffice', '/usr/bin/libreoffice'].find((p) => existsSync(p));
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => path.join(folder, name);
const asked = (file: string, copy: string, force = false): AskedOfPlain => ({ file, copy, force, seconds: 120 });

/** The workbook with no saved value of any formula, so that a program has to calculate them all. */
function withoutValues(file: Uint8Array): Uint8Array {
  const parts = unzipSync(file);
  for (const [name, bytes] of Object.entries(parts))
    if (name.includes('worksheets/'))
      parts[name] = strToU8(
        strFromU8(bytes)
          .replace(/<\/f><v>[^<]*<\/v>/g, '</f>')
          .replace(/(<c [^>]*?) t="(?:str|b|e)"([^>]*><f)/g, '$1$2'),
      );
  return zipSync(parts);
}

describe('the command plain', () => {
  it('asks for a workbook and the name of a copy', () => {
    expect(readPlain(['a.xlsx'])).toMatchObject({ code: 2 });
    expect(readPlain(['a.xlsx', 'b.csv'])).toMatchObject({ code: 2 });
    expect(readPlain(['--seconds', '0', 'a.xlsx', 'b.xlsx'])).toMatchObject({ code: 2 });
    expect(readPlain(['a.xlsx', 'b.xlsx'])).toEqual(asked('a.xlsx', 'b.xlsx'));
    expect(readPlain(['--help'])).toMatchObject({ code: 0, err: '' });
  });

  it('says what is wrong with a file in one line, and writes nothing over another', async () => {
    writeFileSync(at('text.xlsx'), 'no workbook');
    for (const file of ['absent.xlsx', 'text.xlsx']) {
      const ended = await plainFile(asked(at(file), at('never.xlsx')));
      expect(ended.code).toBe(2);
      expect(ended.err.split('\n')).toHaveLength(1);
    }
    expect(existsSync(at('never.xlsx'))).toBe(false);
    writeFileSync(at('there.xlsx'), 'mine');
    expect((await plainFile(asked(at('text.xlsx'), at('there.xlsx')))).err).toContain('--force');
    expect(readFileSync(at('there.xlsx'), 'utf8')).toBe('mine');
  });

  it.skipIf(SOFFICE === undefined)('LibreOffice calculates the copy of a job workbook to the same values', async () => {
    writeFileSync(at('job.xlsx'), await templateFile());
    const ended = await plainFile(asked(at('job.xlsx'), at('copy.xlsx')));
    expect(ended).toMatchObject({ code: 0, err: '' });
    expect(ended.out).toContain('formulas with functions of Rodsheet written as plain cells');
    const copy = readFileSync(at('copy.xlsx'));
    writeFileSync(at('bare.xlsx'), withoutValues(copy));
    await promisify(execFile)(SOFFICE!, [
      `-env:UserInstallation=file://${at('profile')}`,
      '--headless',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      at('calculated'),
      at('bare.xlsx'),
    ]);
    const before = readWorkbook(readFileSync(at('job.xlsx')));
    const plain = readWorkbook(copy);
    const after = readWorkbook(readFileSync(at('calculated/bare.xlsx')));
    const cellsOf = (sheet: (typeof after.sheets)[number]): ReadonlyMap<string, unknown> =>
      new Map(sheet.cells.map((cell) => [`${cell.row},${cell.column}`, cell.value]));
    let formulas = 0;
    plain.sheets.forEach((sheet, i) => {
      const found = cellsOf(after.sheets[i]!);
      const saved = before.sheets[i] ? cellsOf(before.sheets[i]) : undefined;
      for (const { row, column, value, formula } of sheet.cells) {
        if (!formula) continue;
        formulas++;
        expect(formula.text).not.toMatch(/BURN|_xldudf/);
        const where = `${sheet.name} row ${row + 1}, column ${column + 1}: ${formula.text}`;
        const here = found.get(`${row},${column}`);
        if (typeof value !== 'number') {
          expect(here ?? '', where).toEqual(value ?? '');
          continue;
        }
        // That program takes what a subtraction leaves of nearly equal numbers for nothing.
        if (here === 0 && Math.abs(value) < 1e-13) continue;
        expect(Math.abs((here as number) - value), where).toBeLessThanOrEqual(1e-9 * Math.abs(value));
        if (saved) expect(saved.get(`${row},${column}`), where).toEqual(value);
      }
    });
    expect(formulas).toBeGreaterThan(2000);
  });
});
