/** Workbooks of the other host in Calc, and what recheck says of them after Calc saved them. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../../src/cli/recheck/refresh.ts';
import { templateFile } from '../../../src/cli/template/command.ts';
import { withHostNames } from '../../../src/files/xlsx/host-names.ts';
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
    expect(first.formula).toMatch(/^\{=BURN\.JOB\.PLAN\(/);
    for (const ending of ['.xlsx', '.ods']) {
      const saved = path.join(folder, `saved${ending}`);
      await calc.save('job', saved);
      const found = await recheck(readFileSync(saved));
      expect(found.cells.length).toBeGreaterThan(1000);
      expect(found.cells.filter((c) => c.status !== 'same')).toEqual([]);
    }
  });

  it('comes back to the other host: what Calc saved gets its names, spills, and comes alive in Calc again', async () => {
    const saved = path.join(folder, 'own.xlsx');
    await calc.open('own');
    await calc.fill('own', 'A1', [
      [4, 10],
      [3.5, 12],
    ]);
    await calc.put('own', { C1: '=BURN.PIN.RODS(A1;B1)', 'E1:F3': '=BURN.PIN.HOLE(A1:B2)', D1: '=C1*2' });
    await calc.save('own', saved);
    const { file, renamed } = withHostNames(readFileSync(saved), (name) => name !== 'BURN.WHY');
    expect(renamed.map((r) => [r.place.replace(/^.*!/, ''), r.after, r.spills])).toEqual([
      ['C1', '_xldudf_BURN_PIN_RODS(A1,B1)', false],
      ['E1', '_xldudf_BURN_PIN_HOLE(A1:B2)', true],
    ]);
    const found = await recheck(file);
    // Calc filled three rows with two: the last holds #N/A until the host, or recheck, lets it spill by its own size.
    expect(found.cells.filter((c) => c.status !== 'same').map((c) => c.cell)).toEqual(['E3', 'F3']);
    const written = path.join(folder, 'host.xlsx');
    writeFileSync(written, refreshed(found));
    expect((await recheck(readFileSync(written))).cells.every((c) => c.status === 'same')).toBe(true);
    await calc.open('host', written);
    await calc.recalculate('host');
    expect(await calc.cell('host', 'C1')).toMatchObject({ error: 0, formula: '=BURN.PIN.RODS(A1;B1)' });
    expect((await calc.cell('host', 'E1')).formula).toBe('{=BURN.PIN.HOLE(A1:B2)}');
    expect((await calc.read('host', 'E1:F2')).flat().every((c) => c.error === 0)).toBe(true);
  });
});
