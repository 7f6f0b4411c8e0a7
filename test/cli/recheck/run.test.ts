import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { altered, makeWorkbook, replacing, SHEET1 } from '../../files/xlsx/make.ts';

const RUN = new URL('../../../src/cli/run.mjs', import.meta.url).pathname;
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => path.join(folder, name);

const run = (
  ...args: readonly string[]
): Promise<{ readonly code: number; readonly out: string; readonly err: string }> =>
  new Promise((resolve) => {
    execFile(
      process.execPath,
      [RUN, ...args],
      { env: { ...process.env, RODSHEET_CACHE: at('cache') } },
      (error, out, err) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, out, err });
      },
    );
  });

describe('recheck started by hand', () => {
  beforeAll(async () => {
    const job = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3, '=SUM(B1)']] }]);
    writeFileSync(at('job.xlsx'), job);
    // Four million comparisons, many times over: valid, and more than a second's work.
    const busy = Array.from(
      { length: 50 },
      (_, i) => `<row r="${i + 2}"><c r="D${i + 2}"><f>SUMPRODUCT((A:A=TRANSPOSE(A:A))*1)</f><v>1</v></c></row>`,
    ).join('');
    writeFileSync(at('busy.xlsx'), altered(job, { [SHEET1]: replacing('</sheetData>', `${busy}</sheetData>`) }));
    writeFileSync(at('noise.xlsx'), 'noise');
  });

  it('ends with the exit code of what it found', async () => {
    expect(await run('recheck', at('job.xlsx'))).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^job\.xlsx: 1 formula with BURN functions[^]*broken {2}0\n$/) as string,
      err: '',
    });
    expect(await run('recheck', at('noise.xlsx'))).toMatchObject({ code: 2, out: '' });
  });

  it('gives up in time, without a file half written', async () => {
    const start = Date.now();
    expect(await run('recheck', '--seconds', '2', '--write', at('out.xlsx'), at('busy.xlsx'))).toEqual({
      code: 2,
      out: '',
      err: `${at('busy.xlsx')}: given up after 2 seconds; nothing was written\n`,
    });
    expect(Date.now() - start).toBeLessThan(30_000);
    expect(readdirSync(folder).sort()).toEqual(['busy.xlsx', 'cache', 'job.xlsx', 'noise.xlsx']);
  });
});
