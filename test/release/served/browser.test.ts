/** A person with a browser and no build: the install page, the browser workbook with and without a network, and the pane of a newer version over a workbook of an older one. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import { isCellError } from '../../../src/catalogue/cell.ts';
import { CALCULATION_VERSION } from '../../../src/core/version.ts';
import { asInTheHost } from '../../../src/engine/as-in-the-host.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';
import { addressOf } from '../../../src/files/xlsx/address.ts';
import { newWorkbook } from '../../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../../src/files/xlsx/read-workbook.ts';
import { RELEASE_VERSION } from '../../../src/release/version.ts';
import { call } from '../../../src/sheet/call.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { DesktopHost } from '../../browser/desktop-host.ts';
import { startBrowser } from '../../browser/page.ts';
import { Screenshots } from '../../browser/screenshots.ts';
import type { Book, Value } from '../../host/workbook-host.ts';
import { NEWER, newerResult } from './made.ts';
import { serve, type Served } from './plain-server.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;
const OLD = `v/${RELEASE_VERSION}`;
const NEW_VERSION = RELEASE_VERSION.replace(/-.*/, `-${NEWER.version}`);
const NEW = `v/${NEW_VERSION}`;
const READY = ', works without a network';
const scratch = mkdtempSync(path.join(tmpdir(), 'rodsheet-served-'));
const shots = new Screenshots(path.join(ROOT, '.cache/screenshots'), 'release-');

let browser: Browser;
let served: Served;
let contexts: BrowserContext[] = [];
afterEach(async () => {
  await Promise.all(contexts.map((context) => context.close()));
  contexts = [];
});
beforeAll(async () => {
  browser = await startBrowser();
  served = await serve(inject('bothReleases'));
});
afterAll(async () => {
  shots.contactSheet('Installing a release');
  await browser.close();
  await served.end();
  rmSync(scratch, { recursive: true, force: true });
});

/** A page in a profile that was never used; what it asks for elsewhere, and its complaints, are kept. */
async function fresh(): Promise<{
  readonly page: Page;
  readonly outside: readonly string[];
  readonly complaints: readonly string[];
}> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 860 } });
  contexts.push(context);
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const outside: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => {
    if (!/^(http:\/\/localhost:|data:|blob:)/.test(request.url())) outside.push(request.url());
  });
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { page, outside, complaints };
}

const line = (page: Page): Promise<string | null> => page.textContent('#release');
const says = (page: Page, text: string): Promise<void> => expect.poll(() => line(page)).toBe(text);

/** A cell of the sheet on show, read off the table that it is printed as. */
async function shown(page: Page, address: string): Promise<string | undefined> {
  const [, letter = 'A', row = '1'] = /^([A-Z])(\d+)$/.exec(address) ?? [];
  const cells = await page.evaluate((at) => {
    window.dispatchEvent(new Event('beforeprint'));
    const tr = document.querySelectorAll<HTMLTableRowElement>('#print tr')[at - 1];
    const read = [...(tr?.cells ?? [])].flatMap((cell) => [
      cell.textContent,
      ...Array.from({ length: cell.colSpan - 1 }, () => ''),
    ]);
    window.dispatchEvent(new Event('afterprint'));
    return read;
  }, Number(row));
  return cells[letter.charCodeAt(0) - 65];
}

const oxygen = call(findFunction('BURN.PIN.OXYGEN')!, ['4-1/2', 16])[0]?.[0] as number;
const newerOxygen = (): number => newerResult(inject('newerSources'), '=BURN.PIN.OXYGEN("4-1/2",16)');
/** H10 of the example is the oxygen of a pin of 4-1/2 by 16 in, shown without decimals. */
const holds = (page: Page, value: number): Promise<void> =>
  expect.poll(() => shown(page, 'H10')).toBe(String(Math.round(value)));

describe('the install page', () => {
  it('stands at the address, asks for nothing elsewhere, and leads to the browser workbook', async () => {
    const { page, outside, complaints } = await fresh();
    await page.goto(`${served.at}/`);
    expect(await page.locator('h1').textContent()).toBe('Install Rodsheet');
    expect(await page.locator('.head .name').textContent()).toBe(`Rodsheet ${NEW_VERSION}`);
    const loaded = await page.evaluate(() =>
      [...document.images].map((image) => image.complete && image.naturalWidth > 0),
    );
    expect(loaded.length).toBeGreaterThan(1);
    expect(loaded.every(Boolean)).toBe(true);
    await shots.take(page, 'The page at the address');
    for (const name of ['windows', 'mac', 'web', 'libreoffice', 'asks', 'server']) {
      await page.locator(`#${name}`).scrollIntoViewIfNeeded();
      await page.evaluate((id) => document.getElementById(id)?.scrollIntoView(), name);
      await shots.take(page, `How to install: ${name}`);
    }
    await page.setViewportSize({ width: 390, height: 780 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await page.setViewportSize({ width: 1440, height: 860 });
    await page.locator('.head a').first().click();
    await page.waitForURL(`${served.at}/${NEW}/trial/`);
    expect(outside).toEqual([]);
    expect(complaints).toEqual([]);
  });
});

describe('two versions side by side', () => {
  it('the older still gives its figures, and the newer its own; each says which it is', async () => {
    const newer = newerOxygen();
    expect(newer).toBeGreaterThan(oxygen * 1.1);
    for (const [folder, version, value] of [
      [OLD, RELEASE_VERSION, oxygen],
      [NEW, NEW_VERSION, newer],
      ['latest', NEW_VERSION, newer],
    ] as const) {
      const { page, outside, complaints } = await fresh();
      await page.goto(`${served.at}/${folder}/trial/`);
      await expect.poll(() => line(page)).toMatch(new RegExp(`^Version ${version.replaceAll('.', '\\.')}`));
      await holds(page, value);
      expect(outside).toEqual([]);
      expect(complaints).toEqual([]);
    }
  });

  it.each([
    ['the template', () => path.join(inject('bothReleases'), OLD, 'rodsheet-template.xlsx'), 'Calculation '],
    ['a job on the defaults', jobOnDefaults, 'Job C5'],
  ])(
    'the pane of the newer tells of %s of the older what recheck tells of it, before anything is calculated anew',
    async (name, made, among) => {
      const file = await made();
      const told = recheckedByNewer(file);
      expect(told.filter((cell) => cell.startsWith(among))).not.toEqual([]);
      const { page } = await fresh();
      await withOffice(page);
      const host = await DesktopHost.on(page, bookOf(readFileSync(file)));
      await page.goto(`${served.at}/latest/pane.html`);
      const note = page.locator('.rs-older');
      await expect
        .poll(() => note.textContent())
        .toContain(`This workbook was calculated with ${CALCULATION_VERSION} (`);
      expect(await note.textContent()).toContain(`this is ${NEWER.version}`);
      await note.getByRole('button', { name: 'What would move?' }).click();
      await expect.poll(() => note.textContent(), { timeout: 200_000 }).toContain('formulas would move');
      await page.setViewportSize({ width: 420, height: 860 });
      await shots.take(page, `What a newer version would move in ${name} of an older one`);
      const text = (await note.textContent()) ?? '';
      const { assumption, before, range, now } = NEWER;
      expect(text).toContain(
        `Changed since ${CALCULATION_VERSION}: default of ${assumption}: ${before} (${range}), now ${now} (0.2 to 0.4); pipes are rougher.`,
      );
      expect(text).not.toContain('could not be compared');
      expect(text).toMatch(new RegExp(`^.*\\b${told.length} cells of \\d+ formulas would move`));
      const listed = await note.locator('li').allTextContents();
      const cells = listed.filter((each) => !/^\d+ more$/.test(each)).map((each) => each.split(':')[0]);
      expect(cells.length).toBe(Math.min(40, told.length));
      expect(told).toEqual(expect.arrayContaining(cells));
      expect(host.workbook.done).toEqual([]);
    },
  );
});

/** A workbook calculated by these sources, on their defaults: a spill, a plan, formulas for rows not filled in, and what follows from them. */
async function jobOnDefaults(): Promise<string> {
  const pins = [
    [3.5, 10],
    [4, 12],
    ['4-1/2', 16],
  ];
  const guarded = (row: number): string => `=IF(A${row}="","",BURN.PIN.OXYGEN(A${row},B${row}))`;
  const cells = {
    A1: '=BURN.VERSION()',
    C4: '=BURN.PIN.OXYGEN(A4:A6,B4:B6)',
    D4: guarded(4),
    D5: guarded(5),
    D7: guarded(7),
    E4: '=C4*2',
    A9: '=BURN.CYLINDER.COUNT(10*C6)',
  };
  const workbook = {
    title: 'On the defaults',
    sheets: [
      { name: 'Job', rows: [[], [], ['diameter', 'length'], ...pins], cells },
      { name: 'Plan', rows: [['=BURN.PIN.PLAN(Job!A4:A6,Job!B4:B6)']] },
    ],
  };
  const file = path.join(scratch, 'on-the-defaults.xlsx');
  writeFileSync(file, newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost))));
  return file;
}

/** Cells that the newer version's recheck finds moved in a workbook, as the pane names them. */
function recheckedByNewer(file: string): readonly string[] {
  const { stdout } = spawnSync(process.execPath, ['src/cli/run.mjs', 'recheck', '--json', file], {
    cwd: inject('newerSources'),
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  const { cells } = JSON.parse(stdout) as { cells: readonly { sheet: string; cell: string; status: string }[] };
  const moved = cells.filter((cell) => cell.status === 'moved').map((cell) => `${cell.sheet} ${cell.cell}`);
  expect(moved.length).toBeGreaterThan(10);
  expect(cells.filter((cell) => cell.status === 'broken')).toEqual([]);
  return moved;
}

/** A saved workbook as the host opens it: values as saved, nothing calculated. */
function bookOf(file: Uint8Array): Book {
  const workbook = readWorkbook(new Uint8Array(file));
  const sheets: Record<string, Record<string, Value>> = {};
  const formulas: Record<string, Record<string, string>> = {};
  const spills: Record<string, { from: string; to: string }[]> = {};
  for (const { name, cells } of workbook.sheets) {
    sheets[name] = {};
    formulas[name] = {};
    spills[name] = [];
    for (const { row, column, value, formula } of cells) {
      const address = addressOf(row, column);
      if (value !== null) sheets[name][address] = isCellError(value) ? value.error : value;
      if (!formula) continue;
      formulas[name][address] = `=${formula.text}`;
      const { bottom, right } = formula.area;
      if (bottom > row || right > column)
        spills[name].push({ from: address, to: `${address}:${addressOf(bottom, right)}` });
    }
  }
  const names = Object.fromEntries(workbook.names.map((each) => [each.name, each.formula.replace(/[=$']/g, '')]));
  const [first] = workbook.sheets;
  return { sheets, formulas, spills, names, active: { sheet: first?.name ?? '', at: 'A1' } };
}

/** The host vendor's library, unmodified, at its address. */
async function withOffice(page: Page): Promise<void> {
  const library = path.join(ROOT, 'node_modules/@microsoft/office-js/dist');
  await page.route('https://appsforoffice.microsoft.com/**', (route) => {
    const [, name = ''] = /\/lib\/1\/hosted\/([^?]*)/.exec(route.request().url()) ?? [];
    return route.fulfill({ path: path.join(library, name), contentType: 'text/javascript' });
  });
}

describe('without a network', () => {
  it('the browser workbook opens once it was opened, with its reference, and only its own version', async () => {
    const own = await serve(inject('bothReleases'));
    const { page } = await fresh();
    try {
      await page.goto(`${own.at}/${OLD}/trial/`);
      await says(page, `Version ${RELEASE_VERSION}${READY}`);
      await holds(page, oxygen);
    } finally {
      await own.end();
    }
    await page.reload();
    await says(page, `Version ${RELEASE_VERSION}${READY}`);
    await holds(page, oxygen);
    await shots.take(page, 'The browser workbook without a network');
    await page.goto(`${own.at}/${OLD}/reference/index.html`);
    expect(await page.locator('h1').count()).toBe(1);
    await page.goto(`${own.at}/${OLD}/reference/`);
    expect(await page.locator('h1').count()).toBe(1);
    await expect(page.goto(`${own.at}/${NEW}/trial/`)).rejects.toThrow('ERR_CONNECTION_REFUSED');
  });

  it('takes in no file that differs from its checksum, and says that it needs a network', async () => {
    const site = path.join(scratch, 'changed');
    cpSync(inject('firstRelease'), site, { recursive: true });
    const file = path.join(site, OLD, 'reference/index.html');
    writeFileSync(file, `${readFileSync(file, 'utf8')} `);
    const own = await serve(site);
    const { page } = await fresh();
    try {
      await page.goto(`${own.at}/${OLD}/trial/`);
      await says(page, `Version ${RELEASE_VERSION}, needs a network`);
      await holds(page, oxygen);
    } finally {
      await own.end();
    }
    await expect(page.reload()).rejects.toThrow('ERR_CONNECTION_REFUSED');
  });
});

describe('latest', () => {
  it('goes on as the version that was opened, says that a newer one is there, and is that when it is opened again', async () => {
    const site = path.join(scratch, 'latest');
    cpSync(inject('firstRelease'), site, { recursive: true });
    const own = await serve(site);
    try {
      const { page } = await fresh();
      const at = `${own.at}/latest/trial/`;
      await page.goto(at);
      await says(page, `Version ${RELEASE_VERSION}${READY}`);
      renameSync(path.join(site, 'latest'), path.join(site, 'latest-before'));
      cpSync(path.join(inject('bothReleases'), 'latest'), path.join(site, 'latest'), { recursive: true });
      await page.reload();
      await says(page, `Version ${RELEASE_VERSION}; a newer version comes when all its pages were closed`);
      await holds(page, oxygen);
      await page.goto('about:blank');
      await page.goto(at);
      await says(page, `Version ${NEW_VERSION}${READY}`);
      await holds(page, newerOxygen());
    } finally {
      await own.end();
    }
  });
});
