import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { readArguments, recheckFile, type Asked } from '../../../src/cli/recheck/command.ts';
import { CALCULATION_VERSION } from '../../../src/core/version.ts';
import type { NewSheet } from '../../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../../src/files/xlsx/read-workbook.ts';
import type { Cell } from '../../../src/sheet/host-function.ts';
import { altered, makeWorkbook, replacing, SHEET1 } from '../../files/xlsx/make.ts';

const SOFFICE = ['/usr/bin/soffice', '/usr/bin/libreoffice'].find((p) => existsSync(p));
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => path.join(folder, name);

const PINS: NewSheet = {
  name: 'Pins',
  rows: [
    ['diameter', 'length', 'rods', 'name', 'value'],
    [3, 10, '=BURN.PIN.RODS(A2,B2)', 'stub', 4],
    ['=BURN.VERSION(D1:E2)'],
  ],
};

/** Rows of the history, each under its headings. */
function historyOf(file: string, name = 'Recheck history'): readonly (readonly Cell[])[] {
  const cells = readWorkbook(readFileSync(at(file))).sheets.find((s) => s.name === name)?.cells ?? [];
  const rows: Cell[][] = [];
  for (const { row, column, value } of cells) (rows[row] ??= [])[column] = value;
  return rows;
}

const run = (from: string, to: string, minute: number, force = false) =>
  recheckFile(
    { ...(readArguments(['--history', '--write', at(to), at(from)]) as Asked), force },
    undefined,
    new Date(Date.UTC(2026, 10, 29, 9, minute)),
  );

describe('the history of rechecks', () => {
  it('asks for a workbook to be written', () => {
    expect(readArguments(['--history', 'a.xlsx'])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--write/) as string,
    });
  });

  it('is a sheet that grows by a row a run, with what moved', async () => {
    const good = await makeWorkbook([PINS]);
    const stale = altered(good, { [SHEET1]: replacing(/(BURN_PIN_RODS\(A2,B2\)<\/f><v>)[^<]*/, '$199') });
    writeFileSync(at('job.xlsx'), stale);
    expect((await run('job.xlsx', 'first.xlsx', 5)).code).toBe(1);
    expect((await run('first.xlsx', 'second.xlsx', 6)).code).toBe(0);
    expect((await run('second.xlsx', 'second.xlsx', 7, true)).code).toBe(0);
    const [headings, first, second, third, ...more] = historyOf('second.xlsx');
    expect(headings?.slice(0, 4)).toEqual(['date', 'version', 'assumptions', 'cells']);
    expect(first).toEqual([
      '2026-11-29 09:05 UTC',
      CALCULATION_VERSION,
      expect.stringMatching(/^[0-9a-f]{8}$/),
      1,
      0,
      1,
      0,
      0,
      expect.stringMatching(/^Pins!C2 99 -> \d+$/),
    ]);
    expect(second?.slice(0, 8)).toEqual(['2026-11-29 09:06 UTC', CALCULATION_VERSION, first?.[2], 1, 1, 0, 0, 0]);
    expect(third?.[0]).toBe('2026-11-29 09:07 UTC');
    expect(more).toEqual([]);
    // The rest of the workbook stays as the recheck alone leaves it.
    const [before, after] = ['first.xlsx', 'second.xlsx'].map((f) => readWorkbook(readFileSync(at(f))).sheets[0]?.text);
    expect(after).toBe(before);
  });

  it('leaves a sheet of the same name with other headings alone', async () => {
    writeFileSync(at('own.xlsx'), await makeWorkbook([PINS, { name: 'Recheck history', rows: [['mine']] }]));
    await run('own.xlsx', 'own-out.xlsx', 5);
    await run('own-out.xlsx', 'own-out.xlsx', 6, true);
    expect(historyOf('own-out.xlsx')).toEqual([['mine']]);
    expect(historyOf('own-out.xlsx', 'Recheck history 2')).toHaveLength(3);
  });

  it.skipIf(SOFFICE === undefined)('opens in LibreOffice', async () => {
    writeFileSync(at('open.xlsx'), await makeWorkbook([PINS]));
    await run('open.xlsx', 'opened.xlsx', 5);
    await promisify(execFile)(SOFFICE!, [
      `-env:UserInstallation=file://${at('profile')}`,
      '--headless',
      '--convert-to',
      'ods',
      '--outdir',
      folder,
      at('opened.xlsx'),
    ]);
    const cells = readWorkbook(readFileSync(at('opened.ods'))).sheets.find((s) => s.name === 'Recheck history')?.cells;
    expect(cells?.map((c) => c.value).slice(0, 2)).toEqual(['date', 'version']);
    expect(cells?.some((c) => c.value === '2026-11-29 09:05 UTC')).toBe(true);
  });
});
