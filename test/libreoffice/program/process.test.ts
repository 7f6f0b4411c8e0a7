/** The process: killed in the middle, missing, shared by documents, gone with the program. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { Calc } from './calc.ts';
import { startCalc } from './installed.ts';

let calc: Calc | undefined;
afterEach(async () => {
  await calc?.end();
  calc = undefined;
});

/** A process that has ended stays listed, as a zombie, until it is asked after. */
function alive(pid: number): boolean {
  try {
    return !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, 'latin1'));
  } catch {
    return false;
  }
}

const filesIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();

async function until(true_: () => boolean): Promise<void> {
  while (!true_()) await new Promise((resolve) => setTimeout(resolve, 50));
}

describe('the process beside the program', () => {
  it('is one for all cells and documents, begun at the first call and ended with the program', async () => {
    calc = await startCalc();
    await calc.open('one');
    await calc.open('other');
    expect(await calc.processes()).toEqual([]);
    for (const document of ['one', 'other'])
      await calc.put(document, { A1: '=BURN.PIN.RODS(3.5;12)', A2: '=BURN.PIN.OXYGEN(3.5;12)' });
    expect(await calc.shown('other', 'A2')).toBe(await calc.shown('one', 'A2'));
    const processes = await calc.processes();
    expect(processes).toHaveLength(1);
    await calc.end();
    calc = undefined;
    await until(() => !alive(processes[0]!));
  });

  it('is begun anew after it was killed, and no cell is lost', async () => {
    calc = await startCalc();
    await calc.open('d');
    await calc.put('d', { A1: '=BURN.PIN.OXYGEN(3.5;12)' });
    const before = await calc.values('d', 'A1');
    const [first] = await calc.processes();
    process.kill(first!, 'SIGKILL');
    await until(() => !alive(first!));
    await calc.fill('d', 'B1', [[3.5, 12]]);
    await calc.put('d', { A2: '=BURN.PIN.OXYGEN(B1;C1)', A3: '=BURN.VERSION()' });
    await calc.recalculate('d');
    expect(await calc.values('d', 'A1:A2')).toEqual([before[0], before[0]]);
    const after = await calc.processes();
    expect(after).toHaveLength(1);
    expect(after[0]).not.toBe(first);
  });

  it('that is missing makes every cell an error, and BURN.WHY says what to install', async () => {
    calc = await startCalc({ environment: { RODSHEET_NODE: '/nowhere/node' } });
    await calc.open('d');
    await calc.put('d', { A1: '=BURN.PIN.RODS(3.5;12)', A2: '=ISERROR(A1)', A3: '=BURN.WHY(A1)' });
    expect((await calc.cell('d', 'A1')).error).toBe(519);
    expect(await calc.shown('d', 'A2')).toBe('TRUE');
    expect(await calc.shown('d', 'A3')).toMatch(/RODSHEET_NODE names \/nowhere\/node/);
  });

  it('writes nothing beside its own files, so that they may lie where only an administrator writes', async () => {
    calc = await startCalc();
    const packages = path.join(calc.profile, 'user/uno_packages');
    const before = filesIn(packages);
    await calc.open('d');
    await calc.put('d', { A1: '=BURN.PIN.RODS("wide";12)', A2: '=BURN.WHY(A1)' });
    expect(await calc.shown('d', 'A2')).toMatch(/^diameter is "wide"/);
    expect(before.some((file) => file.endsWith('process.cjs'))).toBe(true);
    // What Python keeps of its own, where it may.
    expect(filesIn(packages).filter((file) => !file.includes('__pycache__'))).toEqual(before);
  });

  it('works where nobody may write to the extension, as where an administrator installed it', async () => {
    calc = await startCalc({ locked: ['user/uno_packages'] });
    await calc.open('d');
    await calc.put('d', { A1: '=BURN.PIN.RODS(3.5;12)', A2: '=BURN.PIN.RODS("wide";12)', A3: '=BURN.WHY(A2)' });
    expect(await calc.shown('d', 'A1')).toBe('6');
    expect(await calc.shown('d', 'A3')).toMatch(/^diameter is "wide"/);
  });

  it('is not reached in a used profile that nobody may write to: there the program does not start', async () => {
    await expect(startCalc({ locked: [''] })).rejects.toThrow('the program did not start');
  });
});
