import { mkdirSync, writeFileSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MemoryPort } from './memory-port.ts';
import { openMemoryPane } from './memory-pane.ts';
import type { OpenPage } from './page.ts';

declare const sheet: MemoryPort;
declare const axe: { run(context: Document, options: RunOptions): Promise<AxeResults> };

/** A folder for what was printed, to look at; nothing is kept without it. */
const SHOTS = process.env['SHOTS'];

const LIST = 'B5:C6';

let open: OpenPage;
const part = (): ReturnType<OpenPage['page']['locator']> => open.page.locator('.rs-section-job-sheet');

/** Pages of a PDF: its leaf page objects. */
const pages = (pdf: Buffer): number => (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

/** Selects a cell with a job sheet of this title, and waits for it: the one before stands in the same cell. */
async function show(conditions: string, title: string): Promise<void> {
  const formula = `=BURN.JOB.SHEET(${LIST},"${conditions}","${title}")`;
  await open.page.evaluate(async (f) => {
    sheet.select('Job sheet', 'Z40');
    await sheet.putFormula(f);
  }, formula);
  await expect.poll(() => part().locator('.rs-sheet-title').textContent()).toBe(`Hot work: ${title}`);
}

/** Presses the button with a printer that does nothing but count. */
async function print(): Promise<void> {
  await open.page.evaluate(() => {
    const print = (): void => {
      window.dispatchEvent(new Event('beforeprint'));
      Object.assign(globalThis, { printed: 1 });
    };
    Object.assign(globalThis, { printed: 0, print });
  });
  await part().getByRole('button', { name: 'Print on one page' }).click();
  expect(await open.page.evaluate(() => (globalThis as unknown as { printed: number }).printed)).toBe(1);
}

beforeAll(async () => {
  open = await openMemoryPane();
});
afterAll(() => (open as OpenPage | undefined)?.close());

describe('the job sheet in the pane', () => {
  it('has cautions first and lines to sign last', async () => {
    await show('height 30 ft, grease-packed', 'Boom foot pins');
    const names = await part().locator('h4').allTextContents();
    expect([names[0], names.at(-1)]).toEqual(['Cautions', 'Sign-off']);
    expect(await part().locator('.rs-sheet-cautions dd').first().textContent()).toBe('can kill');
  });

  it('fits into 320 px and holds nothing that the accessibility checker objects to', async () => {
    await open.page.setViewportSize({ width: 320, height: 800 });
    expect(await open.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    const { violations } = await open.page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
    expect(violations.map((v) => v.id)).toEqual([]);
    await open.page.setViewportSize({ width: 360, height: 900 });
  });

  it.each([
    ['a plain job', ''],
    [
      'a job with many conditions',
      'confined, height 30 ft, grease-packed, hydraulic cylinder, galvanised, combustibles, wind, fuel gas, alone, wet',
    ],
  ])('prints %s on one page, by itself', async (job, conditions) => {
    await show(conditions, `Boom foot pins, ${job}`);
    // Printing a PDF ends with `afterprint`, as the printer of a person does.
    for (const format of ['Letter', 'A4'] as const) {
      await print();
      const pdf = await open.page.pdf({ format, preferCSSPageSize: false });
      if (SHOTS !== undefined) {
        mkdirSync(SHOTS, { recursive: true });
        writeFileSync(`${SHOTS}/job-sheet-${format}-${conditions === '' ? 'plain' : 'many'}.pdf`, pdf);
      }
      expect(pages(pdf), format).toBe(1);
    }
    expect(await open.page.locator('.rs-print').count()).toBe(0);
    await print();
    await open.page.emulateMedia({ media: 'print' });
    expect(await open.page.locator('.rs-tabs').isVisible()).toBe(false);
    expect(await open.page.locator('.rs-print .rs-sheet-sign-off').isVisible()).toBe(true);
    await open.page.emulateMedia({ media: null });
    await open.page.evaluate(() => void window.dispatchEvent(new Event('afterprint')));
    expect(await open.page.locator('.rs-print').count()).toBe(0);
    expect(await open.page.locator('.rs-tabs').isVisible()).toBe(true);
  });

  it('says so in a window that does nothing when asked to print, and puts the lines on a sheet instead', async () => {
    await show('', 'Boom foot pins');
    await open.page.evaluate(() => void Object.assign(globalThis, { print: () => undefined }));
    await part().getByRole('button', { name: 'Print on one page' }).click();
    await expect.poll(() => part().getByRole('status').textContent()).toContain('This window cannot print');
    expect(await open.page.locator('.rs-print').count()).toBe(0);
    await part().getByRole('button', { name: 'Put the lines on a sheet' }).click();
    await expect
      .poll(() => part().getByRole('status').textContent())
      .toContain('The lines stand on the sheet Job sheet 2');
    const first = await open.page.evaluate(() => [...(sheet.sheets.get('Job sheet 2')?.values() ?? [])].slice(0, 2));
    expect(first.map((held) => held.value)).toEqual(['Hot work', 'Boom foot pins']);
  });

  it('complains of nothing and asks for nothing outside', () => {
    expect(open.complaints).toEqual([]);
    expect(open.outside).toEqual([]);
  });
});
