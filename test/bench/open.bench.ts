/**
 * How long a saved job of 2,000 rows takes to open, beside the time of calculating it: in this process (read, described,
 * made into a workbook, calculated) and in the browser workbook as it is built, from choosing the file to the last row on show
 * against the time from a changed assumption to the last row moved. Medians of one run; asked are at most 3 times.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import type * as Playwright from 'playwright-core';
import type { Page } from 'playwright-core';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { calculateWorkbook, functionNames } from '../../src/engine/headless.ts';
import { describeWorkbook } from '../../src/files/xlsx/describe-workbook.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { newWorkbook, type NewWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const ROWS = 2_000;
const ASKED = 3;
const TIMES = 5;
const FUNCTIONS = hostFunctions.map(asInTheHost);
const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };

/** Pins of our own invention, all of different sizes, each with what it takes, and the plan of all. */
const JOB: NewWorkbook = {
  title: 'A long job',
  sheets: [
    {
      name: 'Job',
      rows: [
        ['stub', 3],
        ['mark', 'diameter', 'length', 'rods', 'oxygen', 'crew'],
        ...Array.from({ length: ROWS }, (_, i) => {
          const [row, sizes] = [i + 3, `B${i + 3},C${i + 3},,,,$A$1:$B$1`];
          return [
            `pin ${row}`,
            2 + i / 1000,
            6 + (i % 37) / 3,
            `=BURN.PIN.RODS(${sizes})`,
            `=BURN.PIN.OXYGEN(${sizes})`,
            `=BURN.PIN.TIME(${sizes})`,
          ];
        }),
      ],
      size: [ROWS + 50, 40],
    },
    { name: 'Plan', rows: [[`=BURN.JOB.PLAN(Job!$A$2:$C$${ROWS + 2},Job!$A$1:$B$1)`]], size: [ROWS + 50, 60] },
  ],
};

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
const seconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;

function shown(where: string, opening: readonly number[], calculating: readonly number[]): void {
  const [open, calculate] = [median(opening), median(calculating)];
  console.log(
    `${where.padEnd(24)} opens in ${seconds(open)}, calculates in ${seconds(calculate)}: ${(open / calculate).toFixed(2)} times, asked at most ${ASKED}`,
  );
}

/** Milliseconds since `before`. */
const since = (before: number): number => performance.now() - before;

async function inProcess(file: Uint8Array): Promise<void> {
  const [opening, calculating]: [number[], number[]] = [[], []];
  // Each run with sizes of its own, so that nothing is left of the last one.
  for (let i = 0; i < TIMES; i++) {
    const before = performance.now();
    const { workbook } = describeWorkbook(readWorkbook(file), 'A long job', hostFunctions, new Set(functionNames));
    const read = since(before);
    const sheets = workbook.sheets.map((sheet) =>
      sheet.name === 'Job' ? { ...sheet, cells: { ...sheet.cells, B1: 2.5 + i / 10 } } : sheet,
    );
    const started = performance.now();
    await calculateWorkbook({ ...workbook, sheets }, FUNCTIONS);
    calculating.push(since(started));
    opening.push(read + since(started));
  }
  shown('in this process', opening, calculating);
}

/** What the cell at the end of the job shows, read off the table that the sheet is printed as. */
const lastCell = (page: Page): Promise<string> =>
  page.evaluate((row) => {
    window.dispatchEvent(new Event('beforeprint'));
    const text = document.querySelectorAll<HTMLTableRowElement>('#print tr')[row]?.cells[4]?.textContent ?? '';
    window.dispatchEvent(new Event('afterprint'));
    return text;
  }, ROWS + 1);

async function until(page: Page, met: (last: string) => boolean): Promise<string> {
  for (;;) {
    const last = await lastCell(page);
    if (met(last)) return last;
    await page.waitForTimeout(20);
  }
}

async function inBrowser(file: string): Promise<void> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  if (!existsSync(executablePath)) {
    console.log(`no Chromium at ${executablePath}: the browser workbook was not measured`);
    return;
  }
  // Not bundled with the benchmark, since the package looks for its own files.
  const { chromium } = createRequire(path.join(process.cwd(), 'package.json'))('playwright-core') as typeof Playwright;
  const dist = mkdtempSync(path.join(tmpdir(), 'rodsheet-open-'));
  try {
    execFileSync(process.execPath, ['node_modules/webpack/bin/webpack.js', '--output-path', dist], {
      stdio: 'inherit',
    });
    const server = createServer((request, response) => {
      const name = new URL(request.url ?? '/', 'http://localhost').pathname.replace(/\/$/, '/index.html').slice(1);
      const at = path.join(dist, name);
      if (!at.startsWith(dist) || !existsSync(at)) response.writeHead(404).end();
      else
        response
          .writeHead(200, { 'Content-Type': TYPES[path.extname(at)] ?? 'application/octet-stream' })
          .end(readFileSync(at));
    });
    await new Promise<void>((resolve) => {
      server.listen(0, 'localhost', resolve);
    });
    const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
    const page = await browser.newPage();
    await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/trial/`);
    await page.waitForSelector('.job-row');
    await page.locator('.rs-address b').waitFor();
    await page.evaluate(() => Object.assign(globalThis, { showOpenFilePicker: undefined }));
    const [opening, calculating]: [number[], number[]] = [[], []];
    for (let i = 0; i < TIMES; i++) {
      const [chooser] = await Promise.all([
        page.waitForEvent('filechooser'),
        page.getByRole('button', { name: 'Open', exact: true }).click(),
      ]);
      const before = performance.now();
      await chooser.setFiles(file);
      await until(page, (last) => /^\d/.test(last));
      opening.push(since(before));
      const box = page.locator('#sheet input').first();
      await box.fill('B1');
      await box.press('Enter');
      await page.locator('.rs-address b').filter({ hasText: /^B1$/ }).waitFor();
      const last = await lastCell(page);
      await page.keyboard.type(`${4 + i / 10}`);
      const changed = performance.now();
      await page.keyboard.press('Enter');
      await until(page, (now) => now !== last && now !== '');
      calculating.push(since(changed));
    }
    await browser.close();
    server.close();
    shown('in the browser workbook', opening, calculating);
  } finally {
    rmSync(dist, { recursive: true, force: true });
  }
}

async function main(): Promise<void> {
  const bytes = newWorkbook(JOB, await calculateWorkbook(JOB, FUNCTIONS));
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-long-'));
  const file = path.join(folder, 'A long job.xlsx');
  writeFileSync(file, bytes);
  await inProcess(bytes);
  await inBrowser(file);
  rmSync(folder, { recursive: true, force: true });
}

void main();
