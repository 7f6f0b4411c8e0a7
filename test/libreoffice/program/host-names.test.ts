/** Workbooks of the other host in Calc, and what recheck says of them after Calc saved them. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { templateFile } from '../../../src/cli/template/command.ts';
import type { Calc } from './calc.ts';
import { startCalc } from './installed.ts';

let calc: Calc;
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-host-'));
beforeAll(async () => {
  calc = await startCalc();
});
afterAll(async () => {
  await calc.end();
  rmSync(folder, { recursive: true, force: true });
});

describe('a workbook with names of the other host', () => {
  it('comes alive when Calc opens it, and recheck finds nothing moved in what Calc saves', async () => {
    const file = path.join(folder, 'job.xlsx');
    writeFileSync(file, await templateFile());
    await calc.open('job', file);
    await calc.recalculate('job');
    const first = await calc.cell('job', 'C3', 'Calculation');
    expect(first).toMatchObject({ shown: 'item', error: 0 });
    expect(first.formula).toMatch(/^\{=BURN\.PIN\.PLAN\(/);
    for (const ending of ['.xlsx', '.ods']) {
      const saved = path.join(folder, `saved${ending}`);
      await calc.save('job', saved);
      const found = await recheck(readFileSync(saved));
      expect(found.cells.length).toBeGreaterThan(1000);
      expect(found.cells.filter((c) => c.status !== 'same')).toEqual([]);
    }
  });
});
