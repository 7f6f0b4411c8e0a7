import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFile } from '../../src/cli/check/check-file.ts';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import { newWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { UnreadableFile } from '../../src/files/xlsx/unreadable.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { newJob } from '../../src/trial/new-jobs.ts';

describe('workbooks that no fault was put into', () => {
  it.each([
    // Its plan has nothing to plan yet, and says so.
    ['list', ['list holds no row to work on; blank and heading rows do not count']],
    ['template', []],
    ['example', []],
  ] as const)('the %s of a new job: nothing is found but what stands there to be seen', async (kind, seen) => {
    const workbook = newJob(kind, hostFunctions);
    const file = newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost)));
    const { check } = await checkFile(file);
    expect(check.formulas.length).toBeGreaterThan(0);
    expect(check.findings.map(({ text }) => text)).toEqual(seen);
  });

  it('test data of packages: none throws, and nothing is found where nothing of ours is', async () => {
    const folders = ['xlsx-stream-reader', 'xlsx-populate/examples', 'office-addin-dev-settings/templates'];
    const files = folders.flatMap((folder) => {
      const root = path.join('node_modules', folder);
      return readdirSync(root, { recursive: true, encoding: 'utf8' })
        .filter((name) => /\.(xlsx|xlsm|ods)$/.test(name))
        .map((name) => path.join(root, name));
    });
    expect(files.length).toBeGreaterThan(10);
    let read = 0;
    for (const file of files) {
      try {
        const { check } = await checkFile(readFileSync(file));
        read++;
        expect(check, file).toEqual({ formulas: [], findings: [], cautions: [] });
      } catch (thrown) {
        expect(thrown, file).toBeInstanceOf(UnreadableFile);
      }
    }
    expect(read).toBeGreaterThan(10);
  });
});
