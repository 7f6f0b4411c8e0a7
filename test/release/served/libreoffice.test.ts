/** The extension out of the folder of a release, in a profile of LibreOffice that was never used. */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, inject, it } from 'vitest';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import { CALCULATION_VERSION } from '../../../src/core/version.ts';
import { RELEASE_VERSION } from '../../../src/release/version.ts';
import { call } from '../../../src/sheet/call.ts';
import { Calc } from '../../libreoffice/program/calc.ts';
import { profileWith } from '../../libreoffice/program/profile.ts';
import { NEWER, newerResult } from './made.ts';

const there = ['/usr/bin/soffice', '/usr/lib/python3/dist-packages/uno.py'].every((file) => existsSync(file));
const oxygen = (): number => call(findFunction('BURN.PIN.OXYGEN')!, [3.5, 10])[0]?.[0] as number;
const newerOxygen = (): number => newerResult(inject('newerSources'), '=BURN.PIN.OXYGEN(3.5,10)');

describe.skipIf(!there && process.env['CI'] === undefined)('the extension of a release', () => {
  const folders: string[] = [];
  let calc: Calc | undefined;
  afterAll(() => {
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  });

  async function installed(version: string): Promise<Calc> {
    const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-oxt-'));
    folders.push(folder);
    const file = path.join(folder, 'rodsheet.oxt');
    copyFileSync(path.join(inject('bothReleases'), 'v', version, 'rodsheet.oxt'), file);
    return Calc.start(profileWith(file));
  }

  it.each([
    [RELEASE_VERSION, CALCULATION_VERSION, oxygen],
    [RELEASE_VERSION.replace(/-.*/, `-${NEWER.version}`), NEWER.version, newerOxygen],
  ])('%s is installed, says its version and calculates as it', async (version, calculation, expected) => {
    calc = await installed(version);
    try {
      await calc.open('job');
      await calc.put('job', { A1: '=BURN.VERSION()', A2: '=BURN.PIN.OXYGEN(3.5;10)' });
      expect(await calc.shown('job', 'A1')).toBe(calculation);
      expect((await calc.cell('job', 'A2')).value).toBeCloseTo(expected(), 6);
    } finally {
      await calc.end();
    }
  });
});
