import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import type { Plugin } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SelectedCell } from '../../src/pane/port.ts';
import type { TrialSheetPort } from '../../src/trial/sheet-port.ts';
import { goTo } from './edit.ts';
import { openPage } from './page.ts';
import type { OpenPage } from './page.ts';

declare const port: TrialSheetPort;

const ROOT = new URL('../..', import.meta.url).pathname;

/** The sheet's hyphenation of seventy languages, which it loads when it meets one. */
const oneLanguage: Plugin = {
  name: 'one-language',
  setup(bundle) {
    bundle.onResolve({ filter: /^\.\/[\w-]+\.js$/ }, ({ path, resolveDir }) =>
      /engine-render\/lib\/es$/.test(resolveDir) && !/index|\/en-/.test(path) ? { path, external: true } : undefined,
    );
  },
};

let open: OpenPage;

beforeAll(async () => {
  const { outputFiles } = await build({
    absWorkingDir: ROOT,
    bundle: true,
    write: false,
    target: 'es2022',
    minify: true,
    plugins: [oneLanguage],
    outdir: '/',
    entryPoints: { trial: 'test/browser/trial-entry.ts', page: 'src/trial/trial.css' },
    format: 'iife',
  });
  const text = (name: string): string => outputFiles.find((file) => file.path === name)?.text ?? '';
  open = await openPage({
    '': readFileSync(`${ROOT}src/trial/index.html`, 'utf8'),
    'early-keys.js': '',
    'trial.js': text('/trial.js'),
    'trial.css': text('/page.css'),
  });
  await open.page.waitForFunction(() => 'port' in globalThis);
  while (JSON.stringify(await read('D2')) !== '[[14]]') await open.page.waitForTimeout(50);
});
afterAll(() => open.close());

const read = (reference: string, sheet = 'Job sheet'): Promise<unknown> =>
  open.page.evaluate(([r, s]) => port.read(r ?? '', s ?? '', 'A1'), [reference, sheet]);

/** Waits until a cell holds a value. */
async function until(reference: string, value: unknown): Promise<void> {
  await expect.poll(() => read(reference)).toEqual([[value]]);
}

/** Goes to a cell by the name box, as a user does. */
async function select(address: string): Promise<void> {
  await goTo(open.page, address);
  await expect.poll(async () => (await selected())?.address).toBe(address);
}

const selected = (): Promise<SelectedCell | undefined> =>
  open.page.evaluate(
    () =>
      new Promise<SelectedCell | undefined>((resolve) => {
        port.onSelection(resolve)();
      }),
  );

const type = async (text: string): Promise<void> => {
  await open.page.keyboard.type(text);
  await open.page.keyboard.press('Enter');
};

const negative = { error: '#N/A', message: 'x is -1; must be 0 or more' };
const noNumber = { error: '#VALUE!', message: 'x is "3/8"; must be a number' };

describe('the trial workbook in a browser', () => {
  it('calculates on opening, and a bad row fails alone and says why', async () => {
    expect(await read('C2:C5')).toEqual([[6], [8], [negative], [noNumber]]);
  });
  it('carries the text of an error into the cell that uses it', async () => {
    expect(await read('D5')).toEqual([[negative]]);
  });
  it('reads other sheets, names, spills and whole columns', async () => {
    expect(await read('Other!A1:B3')).toEqual([
      ['item', 'value'],
      ['row 1', 1],
      ['row 2', 2],
    ]);
    expect(await read('A1#', 'Other')).toEqual([
      ['item', 'value'],
      ['row 1', 1],
      ['row 2', 2],
    ]);
    expect(await read('sizes')).toEqual([[3], [4], [-1], ['3/8']]);
    expect(await read('B:B')).toEqual([['Size'], [3], [4], [-1], ['3/8']]);
    expect(await read('A5', 'Other')).toEqual([[14]]);
    await expect(read('no such name')).rejects.toThrow('no reference');
    await expect(read('None!A1')).rejects.toThrow('no sheet None');
  });
  it('names the cells of a circle', async () => {
    expect(await read('E1', 'Other')).toEqual([
      [{ error: '#CYCLE!', message: 'circular reference: E1 uses E2 uses E1' }],
    ]);
  });
  it('tells of the selected cell, and of the formula that spilled into it', async () => {
    await select('C3');
    expect(await selected()).toEqual({
      sheet: 'Job sheet',
      address: 'C3',
      formula: '',
      value: 8,
      spill: { from: 'C2', formula: '=BURN.DOUBLE(B2:B5)', row: 1, column: 0 },
    });
    await select('C2');
    expect(await selected()).toEqual({ sheet: 'Job sheet', address: 'C2', formula: '=BURN.DOUBLE(B2:B5)', value: 6 });
  });
  it('says below the sheet why the selected cell failed', async () => {
    await select('C4');
    await expect.poll(() => open.page.textContent('#status')).toBe('C4 #N/A x is -1; must be 0 or more');
    await select('C3');
    // The selected cell is fine: what the last calculation left failed.
    await expect.poll(() => open.page.textContent('#status')).toBe('D5 #N/A x is -1; must be 0 or more');
  });
  it('says beside a failed cell why, when the pointer rests on it', async () => {
    const { page } = open;
    await page.mouse.move(46 + 2 * 88 + 40, 67 + 20 + 4 * 24 - 12);
    const alert = page.getByText('x is -1; must be 0 or more', { exact: true });
    await alert.waitFor();
    await page.mouse.move(700, 600);
    await alert.waitFor({ state: 'detached' });
  });
  it('recalculates on editing, and a mended error loses its text', async () => {
    await select('B4');
    await type('5');
    await until('C4', 10);
    await until('D5', 11);
    expect(await read('C2:C5')).toEqual([[6], [8], [10], [noNumber]]);
    await select('B4');
    await type('-2');
    await until('D5', { error: '#N/A', message: 'x is -2; must be 0 or more' });
  });
  it('keeps totals of spills right, deep down, as a spill grows, shrinks, finds no room, and goes', async () => {
    const { page } = open;
    const put = async (address: string, formula: string): Promise<void> => {
      await select(address);
      await page.evaluate((f) => port.putFormula(f), formula);
    };
    // Each total is of what the formula before it spilled, without the first cells, as the engine alone would miss.
    for (const [address, formula] of Object.entries({
      K1: '=SEQUENCE(3)',
      L1: '=SUM(K2:K9)',
      M1: '=SEQUENCE(L1)',
      N1: '=SUM(M3:M99)',
      O1: '=SEQUENCE(N1)',
      P1: '=SUM(O2:O999)',
    }))
      await put(address, formula);
    await until('P1', 77); // 2 + 3 is 5; 3 + 4 + 5 is 12; 2 + ... + 12 is 77
    await put('K1', '=SEQUENCE(4)');
    await until('P1', 902); // 2 + 3 + 4 is 9; 3 + ... + 9 is 42; 2 + ... + 42 is 902
    await put('K1', '=SEQUENCE(3)');
    await until('P1', 77);
    expect(await read('M1#')).toHaveLength(5);
    await select('K2');
    await type('in the way');
    await until('P1', 0);
    expect(await read('K1')).toMatchObject([[{ error: '#SPILL!' }]]);
    await select('K2');
    await page.keyboard.press('Delete');
    await until('P1', 77);
    await put('K1', '=2+2');
    await until('P1', 0);
    await put('K1', '=SEQUENCE(3)');
    await until('P1', 77);
    await select('K1');
    await page.keyboard.press('Delete');
    await until('P1', 0);
    await page.keyboard.press('Control+z');
    await until('P1', 77);
  });
  it('keeps no text of ours on a cell that then fails for another reason', async () => {
    await select('F1');
    await type('=BURN.DOUBLE("a")');
    await until('F1', { error: '#VALUE!', message: 'x is "a"; must be a number' });
    await select('F1');
    await type('="a"*1');
    await until('F1', { error: '#VALUE!', message: 'a value is of the wrong kind for the formula' });
  });
  it('offers our functions with their texts while one is typed', async () => {
    const { page } = open;
    await select('F2');
    await page.keyboard.type('=BURN.TA');
    const offered = page.getByRole('listitem').getByText('A heading and some rows');
    await offered.waitFor();
    await page.keyboard.type('BLE(');
    await offered.waitFor({ state: 'detached' });
    const help = page.getByText('what columns is');
    // The help shows the argument that is being typed; the others are folded up.
    await page.getByText('what count is').waitFor();
    expect(await help.isVisible()).toBe(false);
    await page.keyboard.type('2,2');
    await help.waitFor();
    await page.keyboard.type(')');
    await help.waitFor({ state: 'detached' });
    await page.keyboard.press('Enter');
    await until('G4', 2);
  });
  it('lists our functions in a group of their own', async () => {
    const { page } = open;
    await page.locator('[data-u-command="formula-ui.operation.insert-function.common"]').first().click();
    await page.getByText('All Functions').first().click();
    const panel = page.locator('[data-u-comp="sheets-formula-functions-panel"]');
    await panel.locator('[data-u-comp="select"]').click();
    await page.getByText('Rod work', { exact: true }).click();
    await panel.getByText('BURN.SEEN.SIZE').waitFor();
    expect(await panel.getByText('ACCRINT').count()).toBe(0);
    await page.getByRole('button', { name: 'Close sidebar' }).click();
  });
  it('reads a typed 3/8 as the date a spreadsheet makes of it', async () => {
    await select('I1');
    await type('3/8');
    await expect.poll(async () => typeof ((await read('I1')) as unknown[][])[0]?.[0]).toBe('number');
  });
  it('goes on after a function that throws', async () => {
    await select('I2');
    await type('=BURN.THROWS(1)');
    await expect
      .poll(() => read('I2'))
      .toMatchObject([[{ error: '#VALUE!', message: expect.stringContaining('not so') as string }]]);
  });
  it('puts a formula in the selected cell and adds a sheet with a table', async () => {
    await select('I4');
    await open.page.evaluate(() => port.putFormula('=SUM(BURN.DOUBLE({1,2}))'));
    await until('I4', 6);
    const add = () =>
      open.page.evaluate(() =>
        port.addSheet('Working', [
          ['step', '=1+1'],
          [1, { error: '#N/A', message: 'none' }],
        ]),
      );
    expect(await add()).toBe('Working');
    expect(await read('A1:B2', 'Working')).toEqual([
      ['step', '=1+1'],
      [1, { error: '#N/A', message: 'none' }],
    ]);
    expect((await selected())?.sheet).toBe('Working');
    expect(await add()).not.toBe('Working');
  });
  it('tells all formulas of the workbook, and writes values where no formula stands', async () => {
    const all = await open.page.evaluate(() => port.formulas?.all());
    expect(all).toContainEqual(
      expect.objectContaining({ address: 'I4', formula: '=SUM(BURN.DOUBLE({1,2}))', value: 6 }),
    );
    const { sheet } = all!.find((cell) => cell.address === 'I4')!;
    const write = (address: string, value: number | string): Promise<void> =>
      open.page.evaluate(
        ([on, at, v]) =>
          port.write!(on, [
            { address: 'I6', value: 7 },
            { address: at, value: v },
          ]),
        [sheet, address, value] as const,
      );
    await write('I7', 'your log');
    expect(await read('I6:I7', sheet)).toEqual([[7], ['your log']]);
    await expect(write('I4', 1)).rejects.toThrow('I4 is filled by a formula');
    expect(await read('I4', sheet)).toEqual([[6]]);
  });
  it('asks for nothing outside and breaks no rule of its page', () => {
    expect(open.outside).toEqual([]);
    expect(open.complaints.filter((text) => !text.includes('favicon') && !text.includes('404'))).toEqual([]);
  });
});
