/** The pane in a browser beside Calc: it follows the selected cell, explains it and puts formulas in. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { showNumber } from '../../../src/pane/show-cell.ts';
import type { Calc } from './calc.ts';
import { startCalc } from './installed.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-browser-'));
/** Where the address is written down that a browser is to open. */
const address = path.join(folder, 'address');

let calc: Calc;
let browser: Browser;
let page: Page;
const outside: string[] = [];

beforeAll(async () => {
  // What the program opens addresses with.
  writeFileSync(
    path.join(folder, 'xdg-open'),
    `#!/bin/sh\nprintf %s "$1" > ${address}.part && mv ${address}.part ${address}\n`,
    { mode: 0o755 },
  );
  calc = await startCalc({ path: folder });
  await calc.open('d');
  await calc.fill('d', 'A1', [
    [3.5, 12],
    [4, 'long'],
  ]);
  await calc.put('d', {
    C1: '=BURN.PIN.OXYGEN(A1;B1)',
    C2: '=BURN.PIN.OXYGEN(A2;B2)',
    'E1:R3': '=BURN.PIN.PLAN(A1:A2;B1:B2)',
  });
  await calc.do('job', { what: 'pane' });
  const at = await written(address);
  browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  page = await browser.newPage();
  page.on('request', (request) => {
    if (!request.url().startsWith(at)) outside.push(request.url());
  });
  await page.goto(at);
});
afterAll(async () => {
  await browser.close();
  await calc.end();
  rmSync(folder, { recursive: true, force: true });
});

async function written(file: string): Promise<string> {
  for (;;) {
    try {
      return readFileSync(file, 'utf8');
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

describe('the pane beside Calc', () => {
  it('follows the selected cell and shows how it was worked out', async () => {
    await calc.do('select', { document: 'd', address: 'C1' });
    await page.getByText('Sheet1 C1').waitFor();
    await page.getByText('=BURN.PIN.OXYGEN(A1,B1)').first().waitFor();
    const oxygen = (await calc.values('d', 'C1'))[0]![0] as number;
    await page.getByText(showNumber(oxygen)).first().waitFor();
    expect(await page.getByRole('heading', { name: 'Working' }).count()).toBe(1);
  });

  it('says of a cell inside an array which item it shows', async () => {
    await calc.do('select', { document: 'd', address: 'H2' });
    await page.getByText('from E1').waitFor();
    await page.getByText('Item of 2').waitFor();
  });

  it('says why a cell failed', async () => {
    await calc.do('select', { document: 'd', address: 'C2' });
    await page
      .getByText(/length is "long"; must be/)
      .first()
      .waitFor();
  });

  it('follows a change of what the cell reads', async () => {
    await calc.do('select', { document: 'd', address: 'C1' });
    await page.getByText('Sheet1 C1').waitFor();
    await calc.fill('d', 'A1', [[5]]);
    const changed = (await calc.values('d', 'C1'))[0]![0] as number;
    await page.getByText(changed.toPrecision(5)).first().waitFor();
  });

  it('sets the formats of a table', async () => {
    await calc.do('select', { document: 'd', address: 'H2' });
    await page.getByText('from E1').waitFor();
    const oxygen = (await calc.values('d', 'L2'))[0]![0] as number;
    await page.getByRole('button', { name: 'Set widths, decimals and headings' }).click();
    await page.getByText('of the table from E1 are set.').waitFor();
    expect(await calc.shown('d', 'L2')).toBe(oxygen.toFixed(1));
  });

  it('puts the assumptions on a sheet of their own', async () => {
    await page.getByRole('tab', { name: 'Assumptions' }).click();
    await page.getByRole('button', { name: /sheet/i }).first().click();
    await page
      .getByText(/Assumptions/)
      .first()
      .waitFor();
    await expect.poll(() => calc.shown('d', 'A1', 'Assumptions')).not.toBe('');
  });

  it('says where cells of one list assume differently, and puts a fit into a range of assumptions', async () => {
    await calc.fill('d', 'A40', [['burning duty', 0.5, 0.4, 0.6, null, null]]);
    await calc.put('d', {
      C5: '=BURN.PIN.RODS(A1;B1;;;;A40:F60)',
      'A70:H110': '=BURN.LOG.FIT({"diameter";"length";"rods used";"oxygen used"|4;10;7;140|3.5;12;6;128|5;16;16;330})',
    });
    await page.reload();
    await calc.do('select', { document: 'd', address: 'C5' });
    const note = page.locator('.rs-differing');
    await note.waitFor();
    expect(await note.textContent()).toMatch(/Sheet1 C5: Sheet1!A40:F60/);
    await calc.do('select', { document: 'd', address: 'A70' });
    await page.getByRole('button', { name: /^Put these \d+ assumptions into '?Sheet1'?!A40:F60$/ }).click();
    // A log without crew minutes says nothing of burning duty: that row stays, and what was fitted stands below it.
    await expect
      .poll(async () => (await calc.values('d', 'A41:F41'))[0])
      .toEqual(['oxygen burnt share', expect.any(Number), expect.any(Number), expect.any(Number), '', 'your log']);
    expect((await calc.values('d', 'A40:B40'))[0]).toEqual(['burning duty', 0.5]);
  });

  it('asks for nothing but its own address', () => {
    expect(outside).toEqual([]);
  });
});
