import { mkdirSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { call } from '../../src/sheet/call.ts';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { SOURCES } from '../../src/core/sources/register.ts';
import type { MemoryPort } from './memory-port.ts';
import { openMemoryPane, ownPage } from './memory-pane.ts';
import type { OpenPage } from './page.ts';

declare const sheet: MemoryPort;
declare const axe: { run(context: Document, options: RunOptions): Promise<AxeResults> };

/** A folder for screenshots to look at; none are taken without it. */
const SHOTS = process.env['SHOTS'];

let open: OpenPage;
const locate = (selector: string): ReturnType<OpenPage['page']['locator']> => open.page.locator(selector);
const panel = (id = 'cell'): ReturnType<typeof locate> => locate(`#rs-panel-${id}`);
const section = (id: string): ReturnType<typeof locate> => locate(`.rs-section-${id}`);
const focused = (): Promise<string | null | undefined> => open.page.evaluate(() => document.activeElement?.textContent);
const tab = (name: string): ReturnType<typeof locate> => open.page.getByRole('tab', { name });

async function select(address: string, on = 'Job sheet'): Promise<void> {
  await open.page.evaluate(([name, at]) => sheet.select(name ?? '', at ?? ''), [on, address]);
  await expect.poll(() => locate('.rs-address b').textContent()).toBe(address);
}

async function violations(): Promise<readonly string[]> {
  const { violations: found } = await open.page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
  return found.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`);
}

async function shot(name: string): Promise<void> {
  if (SHOTS === undefined) return;
  mkdirSync(SHOTS, { recursive: true });
  await open.page.screenshot({ path: `${SHOTS}/${name}.png`, fullPage: true });
}

beforeAll(async () => {
  open = await openMemoryPane();
});
afterAll(() => (open as OpenPage | undefined)?.close());
beforeEach(async () => {
  await tab('This cell').click();
  await select('E5');
});

describe('the selected cell in the pane', () => {
  it('is shown with its formula, result, arguments, working, assumptions and cautions', async () => {
    const oxygen = call(findFunction('BURN.PIN.OXYGEN')!, [3.5, 10])[0]?.[0] as number;
    expect(await locate('.rs-formula code').first().textContent()).toBe('=BURN.PIN.OXYGEN(B5,C5)');
    expect(await section('result').textContent()).toContain(`${Number(oxygen.toPrecision(5))} scf`);
    expect(await section('arguments').textContent()).toContain('diameter B53.5 in');
    expect(await section('working').locator('tbody tr').count()).toBeGreaterThan(30);
    expect(await section('working').locator('tr.rs-selected th').textContent()).toMatch(/^oxygen/);
    expect(await section('assumptions').textContent()).toContain('stub');
    expect(await section('cautions').locator('li').count()).toBeGreaterThan(5);
    expect(await panel().locator('..').textContent()).toContain(
      'Local codes, the employer’s permit and licensed or qualified people rule',
    );
    await shot('cell');
  });

  it('follows the selection', async () => {
    await select('G5');
    expect(await panel().textContent()).toContain('This cell calls none of the functions');
    await select('K5');
    expect(await panel().textContent()).toContain('There is no function BURN.PIN.OXIGEN. Nearest: BURN.PIN.OXYGEN');
    await open.page.evaluate(() => sheet.selectNothing());
    await expect.poll(() => panel().textContent()).toContain('Select a cell');
  });

  it('says what is wrong with an argument, and which one it cannot read', async () => {
    await select('F5');
    expect(await section('result').textContent()).toMatch(/#VALUE! diameter is "wide"; must be a number \(in\)/);
    await shot('error');
    await select('H5');
    expect(await section('arguments').textContent()).toContain('put it in a cell of its own');
    expect(await section('working').count()).toBe(0);
  });

  it('shows the row of a plan with the selected column, and moves from item to item', async () => {
    await select('L14');
    expect(await section('result').locator('dd').nth(0).textContent()).toBe('2');
    expect(await section('result').locator('.rs-selected dt').textContent()).toContain('oxygen, scf');
    expect(await section('arguments').textContent()).toContain('110 mm = 4.33071 in');
    await shot('plan');
    await open.page.getByRole('spinbutton', { name: 'Item' }).fill('3');
    await expect.poll(() => section('result').textContent()).toContain('diameter is "wide"');
  });

  it('lets the calls of a formula be told apart', async () => {
    await select('J5');
    const choice = open.page.getByLabel('Explain');
    expect(await choice.locator('option').count()).toBe(2);
    expect(await section('assumptions').locator('.rs-own').textContent()).toMatch(/stub4 in/);
    await choice.selectOption({ index: 1 });
    await expect.poll(() => panel().textContent()).toContain('Planned bore of a seized pin');
  });

  it('says when the cell shows what its formula no longer gives', async () => {
    await open.page.evaluate(() => sheet.show('Job sheet', 'E5', 12));
    await expect.poll(() => section('result').textContent()).toMatch(/The cell shows 12; its formula gives [\d.]+ now/);
    await open.page.evaluate(() => sheet.putFormula('=BURN.PIN.OXYGEN(B5,C5)'));
    await expect.poll(() => section('result').textContent()).not.toContain('The cell shows');
  });

  it('can be cut down to the calculated steps', async () => {
    const all = await section('working').locator('tbody tr').count();
    await open.page.getByLabel('Calculated steps only').check();
    expect(await section('working').locator('tbody tr').count()).toBeLessThan(all);
    await open.page.getByLabel('Calculated steps only').uncheck();
  });
});

describe('the supply line', () => {
  const drawing = (): ReturnType<typeof locate> =>
    section('supply').getByRole('img', { name: 'Supply line with gauge pressures' });

  it('is drawn for a pin with its pressures in words, and within the width of the pane', async () => {
    expect(await drawing().locator('desc').textContent()).toMatch(
      /^cylinder 2200 psi, regulator outlet 9\d(?:\.\d+)? psi, tip 90 psi, behind holder [\d.]+ psi, work 0 psi\./,
    );
    expect(await drawing().locator('.rs-supply-pressure').allTextContents()).toContain('90 psi');
    const boxes = await drawing()
      .locator('text')
      .evaluateAll((texts) =>
        texts.map(
          (t) => t.getBoundingClientRect().toJSON() as { left: number; right: number; top: number; bottom: number },
        ),
      );
    const frame = await drawing().boundingBox();
    for (const box of boxes)
      expect(box.left >= (frame?.x ?? 0) - 1 && box.right <= (frame?.x ?? 0) + (frame?.width ?? 0) + 1).toBe(true);
    const apart = (a: (typeof boxes)[number], b: (typeof boxes)[number]): boolean =>
      a.right <= b.left || b.right <= a.left || a.bottom <= b.top + 1 || b.bottom <= a.top + 1;
    boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b) => expect(apart(a, b)).toBe(true)));
    if (SHOTS !== undefined) await section('supply').screenshot({ path: `${SHOTS}/supply.png` });
  });

  it('is not drawn for a cell that says nothing of it', async () => {
    await select('G5');
    expect(await section('supply').count()).toBe(0);
  });
});

describe('pin and boss', () => {
  it.each([
    ['pin', 'Pin, bore and boss to scale, cut along the axis'],
    ['cooling', 'Temperature and contact pressure over time'],
  ] as const)('have a drawing %s with its words, inside its frame at 320 px', async (id, name) => {
    await open.page.setViewportSize({ width: 320, height: 900 });
    const drawing = section(id).getByRole('img', { name });
    expect((await drawing.locator('desc').textContent())?.length).toBeGreaterThan(40);
    const boxes = await drawing
      .locator('text')
      .evaluateAll((texts) => texts.map((t) => t.getBoundingClientRect().toJSON() as { left: number; right: number }));
    const frame = await drawing.boundingBox();
    for (const box of boxes)
      expect(box.left >= (frame?.x ?? 0) - 1 && box.right <= (frame?.x ?? 0) + (frame?.width ?? 0) + 1).toBe(true);
    if (SHOTS !== undefined) await section(id).screenshot({ path: `${SHOTS}/${id}.png` });
    await open.page.setViewportSize({ width: 360, height: 900 });
  });

  it('are not drawn for a cell about something else', async () => {
    await select('G5');
    expect(await section('pin').count()).toBe(0);
    expect(await section('cooling').count()).toBe(0);
  });
});

describe('a source', () => {
  it('opens from a step with its citation and edition, and leads back to the step', async () => {
    await section('working').getByRole('link', { name: 'nasa polynomials' }).first().press('Enter');
    const entry = locate('#rs-source-nasa-polynomials');
    await expect.poll(() => entry.evaluate((e) => e === document.activeElement)).toBe(true);
    expect(await entry.textContent()).toMatch(/McBride, Zehe and Gordon.*edition2002.*used for/);
    await shot('references');
    await open.page.getByRole('button', { name: 'Back to where it is cited' }).press('Enter');
    await expect.poll(focused).toBe('nasa polynomials');
    expect(await tab('This cell').getAttribute('aria-selected')).toBe('true');
  });

  it('opens from a caution', async () => {
    const first = section('cautions').locator('details').first();
    await first.locator('summary').press('Enter');
    expect(await first.textContent()).toContain('Because of: PIN');
    await shot('caution');
    const link = first.getByRole('link');
    const key = await link.textContent();
    await link.click();
    await expect.poll(() => locate('.rs-sources .rs-selected b').textContent()).toBe(key);
  });

  it('is found by search among all', async () => {
    await tab('References').click();
    expect(await panel('references').locator('.rs-sources > li').count()).toBe(SOURCES.length);
    await open.page.getByLabel('Search references').fill('navy');
    await expect
      .poll(() => panel('references').locator('.rs-sources > li').count())
      .toBe(SOURCES.filter((s) => JSON.stringify(Object.values(s)).toLowerCase().includes('navy')).length);
    await open.page.getByLabel('Search references').fill('');
  });
});

describe('the index of functions', () => {
  it('lists every function with its arguments and can be searched', async () => {
    await tab('Functions').click();
    expect(await locate('.rs-function').count()).toBe(CATALOGUE.length);
    await open.page.getByLabel('Search functions').fill('crew minutes');
    await expect.poll(() => locate('.rs-function summary code').allTextContents()).toContain('BURN.PIN.TIME');
    await shot('functions');
    await open.page.getByLabel('Search functions').fill('');
  });

  it('puts an example in the selected cell', async () => {
    await select('Z1');
    await tab('Functions').click();
    const entry = locate('.rs-function').filter({ hasText: 'BURN.PIN.HOLE' }).first();
    await entry.locator('summary').click();
    await shot('function');
    await entry.getByRole('button', { name: 'Put in Z1: =BURN.PIN.HOLE(4)' }).click();
    await expect.poll(() => locate('.rs-said').textContent()).toBe('Z1 now holds =BURN.PIN.HOLE(4)');
    await tab('This cell').click();
    await expect.poll(() => section('result').textContent()).toContain('2.4 in');
  });

  it('asks before it replaces what a cell holds', async () => {
    await select('B5');
    await tab('Functions').click();
    const entry = locate('.rs-function').filter({ hasText: 'BURN.VERSION' }).first();
    await entry.locator('summary').click();
    await entry.getByRole('button').first().click();
    expect(await open.page.evaluate(() => sheet.read('B5', 'Job sheet'))).toEqual([[3.5]]);
    expect(await entry.getByRole('button').first().textContent()).toBe('Replace what B5 holds');
    await select('B6');
    await expect.poll(() => entry.getByRole('button').first().textContent()).toBe('Put in B6');
  });
});

describe('the assumptions', () => {
  it('are all listed with range and kind, and can be searched', async () => {
    await tab('Assumptions').click();
    expect(await panel('assumptions').locator('tbody tr').count()).toBe(REGISTRY.length);
    await open.page.getByLabel('Search assumptions').fill('bore ratio');
    await expect
      .poll(() => panel('assumptions').locator('tbody tr').allTextContents())
      .toContainEqual(expect.stringMatching(/^bore ratio0\.6/));
    await open.page.getByLabel('Search assumptions').fill('');
    await shot('assumptions');
  });

  it('go on a new sheet that works as the last argument of a formula', async () => {
    await tab('Assumptions').click();
    await open.page.getByRole('button', { name: 'Put all on a new sheet' }).click();
    const region = `Assumptions!$A$1:$H$${REGISTRY.length + 1}`;
    const note = panel('assumptions').locator('.rs-note');
    await note.waitFor();
    expect(await note.textContent()).toContain(region);
    expect(await note.textContent()).toContain(`=BURN.PIN.OXYGEN(4,10,`);
    await shot('assumptions-added');
    const rows = await open.page.evaluate((r) => sheet.read(r, 'Job sheet'), region);
    expect(rows).toEqual(
      call(findFunction('BURN.ASSUMED')!, []).map((row) => row.map((cell) => (cell === '' ? null : cell))),
    );
    await select('Z3');
    const formula = /=BURN\.PIN\.OXYGEN\([^)]*\)/.exec((await note.textContent()) ?? '')?.[0] ?? '';
    await open.page.evaluate((f) => sheet.putFormula(f), formula);
    await tab('This cell').click();
    await expect
      .poll(() => section('result').locator('b').textContent())
      .toBe(String(Number((call(findFunction('BURN.PIN.OXYGEN')!, [4, 10])[0]?.[0] as number).toPrecision(5))));
  });
});

describe('the pane for everybody', () => {
  it('is worked with the keyboard alone', async () => {
    await tab('This cell').focus();
    await open.page.keyboard.press('Tab');
    await open.page.keyboard.press('Shift+Tab');
    await expect.poll(focused).toBe('This cell');
    for (const [key, name] of [
      ['ArrowRight', 'Functions'],
      ['End', 'References'],
      ['ArrowRight', 'This cell'],
      ['ArrowLeft', 'References'],
      ['Home', 'This cell'],
    ] as const) {
      await open.page.keyboard.press(key);
      await expect.poll(focused).toBe(name);
      await expect.poll(() => tab(name).getAttribute('aria-selected')).toBe('true');
    }
    await open.page.keyboard.press('Tab');
    await expect.poll(() => open.page.evaluate(() => document.activeElement?.id)).toBe('rs-panel-cell');
  });

  it.each(['light', 'dark'] as const)(
    'has nothing that the accessibility checker objects to, %s',
    async (colorScheme) => {
      await open.page.emulateMedia({ colorScheme });
      for (const address of ['E5', 'F5', 'G5', 'L14', 'J5', 'H5']) {
        await select(address);
        expect(await violations(), address).toEqual([]);
      }
      await select('E5');
      await section('cautions').locator('summary').first().click();
      expect(await violations()).toEqual([]);
      await shot(`cell-${colorScheme}`);
      for (const name of ['Functions', 'Assumptions', 'References']) {
        await tab(name).click();
        expect(await violations(), name).toEqual([]);
        await shot(`${name.toLowerCase()}-${colorScheme}`);
      }
      await open.page.emulateMedia({ colorScheme: 'light' });
    },
  );

  it('fits into 320 px without scrolling sideways', async () => {
    await open.page.setViewportSize({ width: 320, height: 800 });
    for (const address of ['E5', 'F5', 'L14', 'J5']) {
      await select(address);
      expect(await open.page.evaluate(() => document.documentElement.scrollWidth), address).toBeLessThanOrEqual(320);
      await shot(`narrow-${address}`);
    }
    for (const name of ['Functions', 'Assumptions', 'References']) {
      await tab(name).click();
      await open.page.evaluate(() => {
        for (const each of document.querySelectorAll('details')) each.open = true;
      });
      expect(await open.page.evaluate(() => document.documentElement.scrollWidth), name).toBeLessThanOrEqual(320);
      expect(await violations(), name).toEqual([]);
      await shot(`narrow-${name.toLowerCase()}`);
    }
    await open.page.setViewportSize({ width: 360, height: 900 });
  });

  it('shows the open tab without colours of its own', async () => {
    await open.page.emulateMedia({ forcedColors: 'active' });
    const edge = (name: string): Promise<string> => tab(name).evaluate((e) => getComputedStyle(e).borderBottomColor);
    expect(await edge('This cell')).not.toBe(await edge('Functions'));
    expect(await violations()).toEqual([]);
    await shot('forced-colours');
    await open.page.emulateMedia({ forcedColors: 'none' });
  });

  it('prints the cell alone, without controls', async () => {
    await open.page.emulateMedia({ media: 'print' });
    expect(await locate('.rs-tabs').isVisible()).toBe(false);
    expect(await section('working').isVisible()).toBe(true);
    await shot('print');
    await open.page.emulateMedia({ media: 'screen' });
  });

  it("asks for nothing outside, and keeps to its page's policy, which allows nothing inline", () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(ownPage())?.[1] ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('unsafe');
    expect(open.outside).toEqual([]);
    expect(open.complaints).toEqual([]);
  });

  it('goes away without a trace', async () => {
    await open.page.evaluate(() => (globalThis as unknown as { unmount: () => void }).unmount());
    expect(await locate('#pane').innerHTML()).toBe('');
    await open.page.evaluate(() => sheet.select('Job sheet', 'E5'));
  });
});
