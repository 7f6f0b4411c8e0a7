/**
 * `npm test`: every test. The browser tests and those of releases want Chromium, those of the extension for Calc LibreOffice; without them
 * they are left out with a word on it, except in continuous integration, where that is a failure. Arguments are handed
 * to the first run, as `npm test -- pin`.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '..');
const VITEST = path.join(ROOT, 'node_modules/vitest/vitest.mjs');
const chromium = process.env.CHROMIUM ?? '/usr/bin/chromium';
/** The program, and its own Python with the library that drives it. */
const LIBREOFFICE = ['/usr/bin/soffice', '/usr/lib/python3/dist-packages/uno.py'];
const args = process.argv.slice(2);

function run(config, ...more) {
  return (
    spawnSync(process.execPath, [VITEST, 'run', '--config', config, ...more], { cwd: ROOT, stdio: 'inherit' })
      .status === 0
  );
}

let good = run('test/vitest.config.ts', ...args);
if (args.length === 0) {
  if (existsSync(chromium) || process.env.CI)
    for (const config of ['test/browser/vitest.config.ts', 'test/release/served/vitest.config.ts'])
      good = run(config) && good;
  else
    console.log(
      `\nThe browser tests, and those of releases, were left out: there is no Chromium at ${chromium} (Debian: apt-get install chromium; elsewhere set CHROMIUM to its path).`,
    );
  if (LIBREOFFICE.every((file) => existsSync(file)) || process.env.CI)
    good = run('test/libreoffice/program/vitest.config.ts') && good;
  else
    console.log(
      '\nThe tests that open LibreOffice were left out (Debian: apt-get install libreoffice-calc python3-uno xvfb xdotool).',
    );
}
process.exitCode = good ? 0 : 1;
