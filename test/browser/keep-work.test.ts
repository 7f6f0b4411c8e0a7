/** A day's work in the browser workbook, over the built files: kept, recovered, saved, opened, copied, printed. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { recheck } from '../../src/cli/recheck/recheck.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { functionNames } from '../../src/engine/headless.ts';
import { describeWorkbook } from '../../src/files/xlsx/describe-workbook.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { call } from '../../src/sheet/call.ts';
import { makeWorkbook } from '../files/xlsx/make.ts';
import { builtFiles } from './built.ts';
import { edit, goTo } from './edit.ts';
import { openPage, type OpenPage } from './page.ts';
import { Screenshots } from './screenshots.ts';

const run = promisify(execFile);
const SOON = { timeout: 60_000 };
const shots = new Screenshots(new URL('../../.cache/screenshots-work', import.meta.url).pathname);
let open: OpenPage;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'rodsheet-work-'));
  open = await openPage(await builtFiles(), 'trial/');
  await open.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await open.page.setViewportSize({ width: 1440, height: 860 });
  await ready();
});
afterAll(async () => {
  shots.contactSheet('A day of work');
  await (open as OpenPage | undefined)?.close();
  await rm(folder, { recursive: true, force: true });
});

/** A column of the plan of the example's first pin, which is like its second. */
function first(column: string): string {
  const [headings = [], row = []] = call(findFunction('BURN.PIN.PLAN')!, [6, 24]);
  const at = headings.findIndex((heading) => String(heading).replace(/,.*/, '') === column);
  return String(row[at]);
}

const bar = (): ReturnType<Page['locator']> => open.page.locator('#job');
const button = (name: string): ReturnType<Page['locator']> => open.page.getByRole('button', { name, exact: true });
const says = (text: string | RegExp): Promise<void> =>
  expect.poll(() => bar().textContent(), SOON).toMatch(text instanceof RegExp ? text : new RegExp(text));

/** The page is there, with nobody asked where to put files. */
async function ready(): Promise<void> {
  await open.page.waitForSelector('.job-row', SOON);
  // The pane names a cell when the sheet is there to be typed into.
  await open.page
    .locator('.rs-address b')
    .filter({ hasText: /^[A-Z]+\d/ })
    .waitFor(SOON);
  await open.page.evaluate(() => {
    Object.assign(globalThis, { showSaveFilePicker: undefined, showOpenFilePicker: undefined });
  });
}

async function select(address: string): Promise<void> {
  const cell = address.slice(address.lastIndexOf('!') + 1).split(':')[0] ?? '';
  const there = (timeout: number): Promise<void> =>
    expect.poll(() => open.page.locator('.rs-address b').textContent(), { timeout }).toBe(cell);
  await goTo(open.page, address);
  // A page that is still starting may draw its name box anew, and drop what was typed into it; a person sees that and types again.
  await there(10_000).catch(async () => {
    await goTo(open.page, address);
    await there(SOON.timeout);
  });
}
async function type(address: string, text: string): Promise<void> {
  await select(address);
  await edit(open.page, () => open.page.keyboard.press(text.charAt(0)));
  await open.page.keyboard.type(text.slice(1), { delay: 10 });
  await open.page.keyboard.press('Enter');
}

/** What the sheet on show shows, read off the table that it is printed as. */
const shown = (page = open.page): Promise<string[][]> =>
  page.evaluate(() => {
    window.dispatchEvent(new Event('beforeprint'));
    const rows = [...document.querySelectorAll<HTMLTableRowElement>('#print tr')].map((row) =>
      [...row.cells].map((cell) => cell.textContent),
    );
    window.dispatchEvent(new Event('afterprint'));
    return rows;
  });

/** Saves by a button, and gives the file. */
async function saved(name: string): Promise<string> {
  const [download] = await Promise.all([open.page.waitForEvent('download', SOON), button(name).click()]);
  const file = path.join(folder, download.suggestedFilename());
  await download.saveAs(file);
  return file;
}

async function openFile(file: string): Promise<void> {
  const [chooser] = await Promise.all([open.page.waitForEvent('filechooser', SOON), button('Open').click()]);
  await chooser.setFiles(file);
  await expect
    .poll(() => open.page.locator('.job-name').inputValue(), SOON)
    .toBe(path.basename(file).replace(/\.\w+$/, ''));
}

const cellsOf = async (file: string): Promise<unknown> =>
  readWorkbook(await readFile(file)).sheets.map(({ name, cells }) => ({
    name,
    cells: cells.flatMap((c) =>
      c.value === null || c.value === '' ? [] : [[c.row, c.column, c.formula?.text ?? '', c.value]],
    ),
  }));

const pdfPages = async (name: string): Promise<readonly string[]> => {
  const file = path.join(folder, name);
  await open.page.pdf({ path: file, format: 'Letter' });
  const { stdout } = await run('pdftotext', ['-layout', file, '-']);
  return stdout.split('\f').slice(0, -1);
};

describe('a job in the browser workbook', () => {
  let example: string;

  it('is saved with formulas as the host stores them, and nothing moves in a recheck', async () => {
    await expect.poll(async () => (await shown())[5]?.[5], SOON).toMatch(/^\d+$/);
    example = await saved('Save as');
    const checked = await recheck(await readFile(example));
    expect(checked.formulas).toBeGreaterThan(200);
    expect(checked.cells.filter((c) => c.status !== 'same')).toEqual([]);
    await says(/Saved to Example\.xlsx/);
    await shots.take(open.page, 'saved');
  });

  it('opens in another spreadsheet program with its single values, and as values with all', async () => {
    const values = await saved('Values only');
    const converted = async (file: string): Promise<string> => {
      const args = [
        '--headless',
        `-env:UserInstallation=file://${folder}/profile`,
        '--convert-to',
        'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1',
        '--outdir',
        folder,
        file,
      ];
      await run('soffice', args, { timeout: 120_000 });
      return path.join(folder, path.basename(file, '.xlsx'));
    };
    const one = await converted(example);
    expect(await readFile(`${one}-Pins.csv`, 'utf8')).toMatch(
      new RegExp(`^1,"?Boom foot, left"?,6,24,,${first('rods')},${first('tip pressure')}`, 'm'),
    );
    const all = await converted(values);
    expect(await readFile(`${all}-Plan.csv`, 'utf8')).toMatch(
      new RegExp(`^1,"Boom foot, left",1,${first('rod')},${first('rods')},`, 'm'),
    );
  });

  it('is written in plain cells, which another spreadsheet program calculates to the same', async () => {
    const plain = await saved('Plain cells');
    const formulas = readWorkbook(await readFile(plain)).sheets.flatMap(({ cells }) =>
      cells.flatMap((c) => c.formula?.text ?? []),
    );
    expect(formulas.length).toBeGreaterThan(1000);
    expect(formulas.filter((text) => /BURN|_xldudf/.test(text))).toEqual([]);
    const values = (await cellsOf(plain)) as { name: string; cells: unknown[][] }[];
    const before = (await cellsOf(example)) as { name: string; cells: unknown[][] }[];
    expect(
      values
        .slice(0, before.length)
        .map(({ name, cells }) => [name, cells.map(([row, column, , value]) => [row, column, value])]),
    ).toEqual(before.map(({ name, cells }) => [name, cells.map(([row, column, , value]) => [row, column, value])]));
    await openFile(plain);
    // The example has a sheet Working of its own.
    await select("'Working 2'!C9");
    expect((await shown())[0]?.[0]).toContain('those in italics stand still');
    await shots.take(open.page, 'plain-cells');
  });

  it('comes back the same when its file is opened', async () => {
    await openFile(example);
    await expect.poll(async () => (await shown())[5]?.[5], SOON).toMatch(/^\d+$/);
    expect(await bar().textContent()).not.toContain('holds more than is kept');
    expect(await cellsOf(await saved('Save as'))).toEqual(await cellsOf(example));
  });

  it('is no work to keep where what was typed is what stood there', async () => {
    const mark = (await shown())[5]?.[1] ?? '';
    expect(mark).not.toBe('');
    await type('B6', mark);
    // Longer than a change waits before it is kept.
    await open.page.waitForTimeout(2_000);
    expect(await bar().textContent()).not.toContain('Kept in this browser');
    await open.page.reload();
    await ready();
    expect(await bar().textContent()).not.toContain('Recovered');
    await openFile(example);
  });

  it('survives a reload, and says so', async () => {
    await type('L7', 'checked by the foreman');
    await says(/Kept in this browser, \d\d:\d\d/);
    await open.page.reload();
    await ready();
    await says(/Recovered from \d\d:\d\d: Example/);
    await expect.poll(async () => JSON.stringify(await shown()), SOON).toContain('checked by the foreman');
    // The sheet is there to be read before it is drawn; the box of names fills as it is.
    const name = open.page.locator('[data-u-comp="formula-bar"] input').first();
    await expect.poll(() => name.inputValue(), SOON).not.toBe('');
    await shots.take(open.page, 'recovered', 'recovered');
  });

  it('kept by another version says so when it is found again', async () => {
    await open.page.evaluate(async () => {
      const asked = <T>(request: IDBRequest<T>): Promise<T> =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(new Error('refused'));
        });
      const database = await asked(indexedDB.open('rodsheet'));
      const jobs = (): IDBObjectStore => database.transaction('jobs', 'readwrite').objectStore('jobs');
      for (const job of await asked(jobs().getAll() as IDBRequest<object[]>))
        await asked(jobs().put({ ...job, version: '2026.01.05' }));
      database.close();
    });
    await open.page.reload();
    await ready();
    await says(/Recovered from .*It was calculated with 2026\.01\.05; this page calculates with 20/);
  });

  it('shows after a reload the sheet that was looked at last', async () => {
    await select('Plan!B3');
    const plan = (await shown())[0];
    await open.page.reload();
    await ready();
    await expect.poll(async () => (await shown())[0], SOON).toEqual(plan);
    await select('Pins!A1');
  });

  it('is not touched by another tab, which begins on its own', async () => {
    const [other] = await Promise.all([
      open.page.waitForEvent('popup', SOON),
      open.page.evaluate(() => void window.open(location.href)),
    ]);
    await other.waitForSelector('.job-row', SOON);
    expect(await other.locator('#job').textContent()).not.toContain('Recovered');
    await other.close();
    await open.page.reload();
    await ready();
    await says(/Recovered from/);
  });

  it('survives a crash of its tab', async () => {
    const context = open.page.context();
    const crashed = await context.newPage();
    await crashed.goto(open.page.url());
    await crashed
      .locator('.rs-address b')
      .filter({ hasText: /^[A-Z]+\d/ })
      .waitFor(SOON);
    await goTo(crashed, 'L9');
    await edit(crashed, () => crashed.keyboard.press('t'));
    await crashed.keyboard.type('yped before the crash');
    await crashed.keyboard.press('Enter');
    await expect.poll(() => crashed.locator('#job').textContent(), SOON).toMatch(/Kept in this browser, \d\d:\d\d/);
    const gone = crashed.waitForEvent('crash', SOON);
    void (await context.newCDPSession(crashed)).send('Page.crash').catch(() => undefined);
    await gone;
    await crashed.close();
    const next = await context.newPage();
    await next.goto(open.page.url());
    await expect.poll(() => next.locator('#job').textContent(), SOON).toMatch(/Recovered from \d\d:\d\d: Example/);
    await expect.poll(async () => JSON.stringify(await shown(next)), SOON).toContain('typed before the crash');
    await next.getByRole('button', { name: 'Throw it away' }).click();
    await expect.poll(() => next.locator('#job').textContent(), SOON).not.toContain('Recovered');
    await next.close();
  });

  it('is thrown away when that is asked for', async () => {
    await button('Throw it away').click();
    await expect.poll(async () => JSON.stringify(await shown()), SOON).not.toContain('checked by the foreman');
    await open.page.reload();
    await ready();
    expect(await bar().textContent()).not.toContain('Recovered');
  });

  it('tells where the storage of the browser is full', async () => {
    await open.page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    });
    await type('L8', 'more');
    await says(/Not kept: the browser's storage is full\. Save it to a file\./);
    open.page.once('dialog', (dialog) => void dialog.accept());
    await open.page.reload();
    await ready();
  });
});

describe('a workbook of others', () => {
  it('of another version is opened with what moved since', async () => {
    const older = hostFunctions.map((f): HostFunction => {
      if (f.name === 'BURN.VERSION') return { ...f, call: () => [['2026.01.05']] };
      if (f.name === 'BURN.PIN.OXYGEN')
        return { ...f, call: (args) => f.call(args).map((row) => row.map((x) => (typeof x === 'number' ? 2 * x : x))) };
      return f;
    });
    const rows = [[4, 10, '=BURN.PIN.OXYGEN(A1,B1)', '=BURN.PIN.RODS(A1,B1)'], ['="Calculation "&BURN.VERSION()']];
    const file = path.join(folder, 'Of another version.xlsx');
    await writeFile(file, await makeWorkbook([{ name: 'Job', rows }], {}, older));
    await openFile(file);
    await says(
      `This workbook was calculated with 2026\\.01\\.05; this page calculates with ${CALCULATION_VERSION.replaceAll('.', '\\.')}\\. 1 of 2 figures is other than in the file`,
    );
    const [, before, after] = /Job C1: ([\d.]+) → ([\d.]+)/.exec((await bar().textContent()) ?? '') ?? [];
    expect(Number(before) / Number(after)).toBeCloseTo(2, 3);
    await shots.take(open.page, 'a file of another version');
  });

  it('is opened with a list of what is not kept', async () => {
    const file = new URL('../../node_modules/xlsx-stream-reader/test/richtext.xlsx', import.meta.url).pathname;
    await openFile(file);
    await says(/holds more than is kept here.*looks of parts of a text/);
    await shots.take(open.page, 'what is not kept');
  });

  it('as comma-separated values keeps fractions as they are', async () => {
    const file = path.join(folder, 'pins.csv');
    await writeFile(file, 'pin,diameter\n"boom, left",4-1/2\nlink,3/8\n');
    await openFile(file);
    await expect
      .poll(() => shown(), SOON)
      .toEqual([
        ['pin', 'diameter'],
        ['boom, left', '4-1/2'],
        ['link', '3/8'],
      ]);
    await type('B1', '=BURN.PIN.RODS(B2,16)');
    await expect.poll(async () => (await shown())[0]?.[1], SOON).toMatch(/^\d+$/);
    const back = await readFile(await saved('CSV'), 'utf8');
    expect(back).toMatch(/^\ufeffpin,\d+\r\n"boom, left",4-1\/2\r\nlink,3\/8\r\n$/);
  });

  it('may be dropped on the page', async () => {
    await open.page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(['pin,diameter\nstick,5\n'], 'dropped.csv', { type: 'text/csv' }));
      document
        .querySelector('#sheet')
        ?.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    });
    await expect.poll(() => open.page.locator('.job-name').inputValue(), SOON).toBe('dropped');
    await expect
      .poll(() => shown(), SOON)
      .toEqual([
        ['pin', 'diameter'],
        ['stick', '5'],
      ]);
  });

  it('is written over only after that was asked', async () => {
    const bytes = [...(await readFile(path.join(folder, 'Example.xlsx')))];
    await open.page.evaluate(async (original) => {
      const folder_ = await navigator.storage.getDirectory();
      const handle = await folder_.getFileHandle('mine.xlsx', { create: true });
      const stream = await handle.createWritable();
      await stream.write(new Uint8Array(original));
      await stream.close();
      Object.assign(globalThis, { showOpenFilePicker: () => Promise.resolve([handle]) });
    }, bytes);
    const onDisk = (): Promise<number[]> =>
      open.page.evaluate(async () => {
        const folder_ = await navigator.storage.getDirectory();
        const file = await (await folder_.getFileHandle('mine.xlsx')).getFile();
        return [...new Uint8Array(await file.arrayBuffer())];
      });
    await button('Open').click();
    await expect.poll(() => open.page.locator('.job-name').inputValue(), SOON).toBe('mine');
    await type('L7', 'changed');
    await open.page.keyboard.press('Control+s');
    await says(/mine\.xlsx is the file you opened\. Write over it\?/);
    expect(await onDisk()).toEqual(bytes);
    await shots.take(open.page, 'asked before an original is written over');
    await button('Write over it').click();
    await says(/Saved to mine\.xlsx/);
    const written = readWorkbook(Uint8Array.from(await onDisk()));
    expect(written.sheets[0]?.cells.find((c) => c.row === 6 && c.column === 11)?.value).toBe('changed');
    await open.page.evaluate(() => Object.assign(globalThis, { showOpenFilePicker: undefined }));
  });

  it('that cannot be read is refused with its reason', async () => {
    const file = path.join(folder, 'broken.xlsx');
    await writeFile(file, 'no archive');
    const [chooser] = await Promise.all([open.page.waitForEvent('filechooser', SOON), button('Open').click()]);
    await chooser.setFiles(file);
    await says(/broken\.xlsx was not opened: it is no workbook/);
  });
});

describe('the sheet', () => {
  it('takes a plan in A1 of a new one, and widens where a spill meets its edge', async () => {
    await button('New').click();
    await open.page.locator('.job-choices button').filter({ hasText: 'Example' }).click();
    // The figures alone could be those of the workbook before it.
    await expect.poll(() => open.page.locator('.job-name').inputValue(), SOON).toBe('Example');
    await expect.poll(async () => (await shown())[5]?.[5], SOON).toMatch(/^\d+$/);
    await select('A1');
    await open.page.keyboard.press('Shift+F11');
    await expect.poll(() => open.page.locator('.rs-address').textContent(), SOON).toContain('Sheet1');
    await type('A1', '=BURN.PIN.PLAN(3,12)');
    await expect.poll(async () => (await shown())[1]?.length, SOON).toBeGreaterThan(20);
    const width = (await shown())[1]?.length ?? 0;
    await type('BZ9', '=BURN.PIN.PLAN(3,12)');
    await expect.poll(async () => (await shown())[9]?.length, SOON).toBe(77 + width);
  });

  it('is gone through by keyboard, and the name box goes to other sheets and says where it cannot', async () => {
    await select('Plan!B3');
    expect(await open.page.locator('.rs-address').textContent()).toContain('Plan');
    await open.page.keyboard.press('Control+PageDown');
    await expect.poll(() => open.page.locator('.rs-address').textContent(), SOON).toContain('Load and price');
    await open.page.keyboard.press('Alt+PageUp');
    await expect.poll(() => open.page.locator('.rs-address').textContent(), SOON).toContain('Plan');
    const box = open.page.locator('#sheet input').first();
    await box.fill('nowhere');
    await box.press('Enter');
    await expect.poll(() => open.page.textContent('#status'), SOON).toBe('There is no cell or name nowhere.');
    const parts: string[] = [];
    for (let i = 0; i < 6; i++) {
      await open.page.keyboard.press('F6');
      parts.push(
        await open.page.evaluate(
          () =>
            document.activeElement?.closest(
              '#pane, #job, [data-u-comp="headerbar"], [data-u-comp="formula-bar"], [data-u-comp="slide-tab-bar"], [data-u-comp="editor"]',
            )?.id ||
            (document.activeElement?.parentElement?.closest('[data-u-comp]')?.getAttribute('data-u-comp') ?? ''),
        ),
      );
    }
    expect(parts[0]).toBe('pane');
    expect(parts[1]).toBe('job');
    expect(new Set(parts).size).toBe(6);
  });

  it('copies what a formula has spilled, and pastes it as values', async () => {
    await select('Plan!A3:E5');
    await open.page.keyboard.press('Control+c');
    await expect
      .poll(() => open.page.evaluate(() => navigator.clipboard.readText()), SOON)
      .toBe(
        [
          'item\tmark\tquantity\trod\trods',
          `1\tBoom foot, left\t1\t${first('rod')}\t${first('rods')}`,
          `2\tBoom foot, right\t1\t${first('rod')}\t${first('rods')}`,
        ].join('\n'),
      );
    const html = await open.page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      return (await item!.getType('text/html')).text();
    });
    expect(html).toContain('3/8 x 36');
    await select('Sheet1!A20');
    await open.page.keyboard.press('Control+v');
    await expect
      .poll(async () => (await shown())[20]?.slice(0, 5), SOON)
      .toEqual(['1', 'Boom foot, left', '1', first('rod'), first('rods')]);
    expect((await shown())[19]?.slice(0, 5)).toEqual(['item', 'mark', 'quantity', 'rod', 'rods']);
  });

  it('takes a block of another program, with sizes as they were written', async () => {
    await select('Sheet1!A30');
    await open.page.evaluate(() => navigator.clipboard.writeText('"Boom\nfoot"\t3/8\t90 mm\nStick\t4-1/2\t12.5\n'));
    await open.page.keyboard.press('Control+v');
    await expect.poll(async () => (await shown())[30]?.slice(0, 3), SOON).toEqual(['Stick', '4-1/2', '12.5']);
    await type('Sheet1!D30', '=BURN.PIN.RODS(B31,C31)&"/"&ISTEXT(B30)');
    await expect.poll(async () => (await shown())[29]?.[3], SOON).toMatch(/^\d+\/TRUE$/);
  });

  it('gives a spilled table widths, decimals, a heading that stays in sight and room for its notes', async () => {
    await select('Sheet1!A1');
    await button('Set widths, decimals and headings').click();
    await expect.poll(() => open.page.textContent('#pane'), SOON).toContain('of the table from A1 are set.');
    await shots.take(open.page, 'a table with its formats');
    const { workbook } = describeWorkbook(
      readWorkbook(await readFile(await saved('Save as'))),
      'A test',
      hostFunctions,
      new Set(functionNames),
    );
    const sheet = workbook.sheets.find(({ name }) => name === 'Sheet1');
    const look = (at: string): unknown => Object.entries(sheet?.looks ?? {}).filter(([range]) => range.startsWith(at));
    expect(JSON.stringify(look('A1'))).toContain('"bold":true');
    expect(JSON.stringify(look('H2'))).toMatch(/"format":"#,##0/);
    expect(JSON.stringify(look('X2'))).toContain('"wrap":true');
    expect(sheet?.frozenRows).toBe(1);
    expect(sheet?.widths?.['X'] ?? 0).toBeGreaterThan(100);
    expect(sheet?.heights?.[2] ?? 0).toBeGreaterThan(20);
  });

  it('takes the job template beside what is there, under free names', async () => {
    await select('Sheet1!A60');
    await button('Add the job template').click();
    await expect
      .poll(() => open.page.textContent('#pane'), SOON)
      .toMatch(/Added the sheets Pins 2, Plan 2, Stock, .* and the name Assume\./);
    await expect.poll(async () => (await shown())[6]?.[7], SOON).toMatch(/^\d+$/);
    await shots.take(open.page, 'the template beside the job');
    await select("'Plan 2'!B5");
    await expect
      .poll(async () => (await shown())[4]?.slice(1, 3), SOON)
      .toEqual(['Boom foot, left', expect.stringMatching(/^3\/8 x 36/)]);
    await select('Pins!A7');
    await expect.poll(async () => (await shown())[5]?.[5], SOON).toMatch(/^\d+$/);
  });

  it('is dark where everything is', async () => {
    // Of a corner of the cells that holds nothing, as the screen shows it.
    const brightness = async (): Promise<number> => {
      const picture = await open.page.screenshot({ clip: { x: 800, y: 600, width: 60, height: 60 } });
      return open.page.evaluate(async (png) => {
        const image = new Image();
        image.src = `data:image/png;base64,${png}`;
        await image.decode();
        const canvas = Object.assign(document.createElement('canvas'), { width: 60, height: 60 });
        const context = canvas.getContext('2d')!;
        context.drawImage(image, 0, 0);
        const { data } = context.getImageData(0, 0, 60, 60);
        return data.reduce((sum, value, i) => (i % 4 === 3 ? sum : sum + value), 0) / (60 * 60 * 3);
      }, picture.toString('base64'));
    };
    expect(await brightness()).toBeGreaterThan(200);
    await open.page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(brightness, SOON).toBeLessThan(70);
    await shots.take(open.page, 'dark');
    await open.page.emulateMedia({ colorScheme: 'light' });
  });
});

describe('a list of a customer', () => {
  it('is asked once for the column of a size that it lacks, and can be put in a job list to be filled in', async () => {
    await button('Paste a list').click();
    await open.page.getByLabel('The list').fill('Tag\tDia\nA\t4\nB\t3');
    await says(/No column is taken for length: choose it above its column, or fill it in in the job list/);
    expect(await open.page.locator('.job-bad').count()).toBe(0);
    expect(await button('Put it in a job list').isEnabled()).toBe(true);
    await open.page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  });

  it('is read, with what is wrong in it, into a job list with its plan', async () => {
    await button('Paste a list').click();
    const lines = Array.from({ length: 45 }, (_, i) => `Pin ${i + 1}\t${i === 0 ? 2 : 1}\t${60 + i}\t300`);
    await open.page.getByLabel('The list').fill(['Tag\tQty\tØ (mm)\tLength', ...lines, 'Stick\t1\t\t200'].join('\n'));
    await expect.poll(() => open.page.locator('.job-dialog').textContent(), SOON).toContain('45 lines read; 1 to mend');
    expect((await open.page.locator('.job-bad').allTextContents()).join(' ')).toMatch(/Stick.*diameter/);
    expect(await open.page.getByLabel('Numbers without a unit are').inputValue()).toBe('mm');
    await shots.take(open.page, 'a list read', 'list-read');
    await button('Put it in a job list').click();
    await expect.poll(async () => (await shown())[4]?.slice(0, 4), SOON).toEqual(['Pin 1', '2', '60 mm', '300 mm']);
    await open.page.keyboard.press('Control+PageDown');
    await expect.poll(async () => (await shown())[4]?.slice(0, 4), SOON).toEqual(['1', 'Pin 1', '2', '3/8 x 36']);
    await shots.take(open.page, 'the plan of a list');
  });

  it('prints its plan fitted to the width, with the headings on each page', async () => {
    await open.page.evaluate(() => document.documentElement.classList.add('sheet-only'));
    const pages = await pdfPages('plan.pdf');
    await open.page.evaluate(() => document.documentElement.classList.remove('sheet-only'));
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(page).toContain('oxygen');
    expect(pages[0]).toContain('note');
  });

  it('prints the job sheet on one page', async () => {
    await type("'Job list'!J2", '=BURN.JOB.SHEET(A4:I8,"height 30 ft","Boom pins")');
    await select('J2');
    await open.page.locator('.rs-section-job-sheet').waitFor(SOON);
    await open.page.evaluate(() => Object.assign(globalThis, { print: () => undefined }));
    await button('Print on one page').click();
    const pages = await pdfPages('job-sheet.pdf');
    expect(pages.length).toBe(1);
    expect(pages[0]).toContain('Sign-off');
  });

  it('is found by the words people use', async () => {
    await open.page.getByRole('tab', { name: 'Functions' }).click();
    await open.page.getByLabel('Search functions').fill('how many cylinders');
    await expect
      .poll(() => open.page.locator('.rs-function').allTextContents(), SOON)
      .toSatisfy((all: string[]) => all.some((text) => text.startsWith('BURN.CYLINDER.COUNT')));
  });

  it('complains of nothing and asks for nothing outside', () => {
    expect(open.complaints.filter((text) => !text.includes('QuotaExceeded'))).toEqual([]);
    expect(open.outside).toEqual([]);
  });
});
