/** What is typed while the browser workbook is being made. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { builtFiles } from './built.ts';
import { openPage, type OpenPage } from './page.ts';

const TYPED = 'boom foot pin 24x6';
let open: OpenPage;

beforeAll(async () => {
  open = await openPage(await builtFiles(), 'reference/index.html');
});
afterAll(() => open.close());

/** The first cell, as the sheet is printed. */
const first = (): Promise<string | undefined> =>
  open.page.evaluate(() => {
    window.dispatchEvent(new Event('beforeprint'));
    const text = document.querySelector<HTMLTableRowElement>('#print tr')?.cells[0]?.textContent;
    window.dispatchEvent(new Event('afterprint'));
    return text;
  });

it('comes into the selected cell, all of it and in its order, and nothing throws', async () => {
  const { page } = open;
  // Held back until there is something typed: a busy machine makes the sheet before the first key.
  let begin = (): void => undefined;
  const begun = new Promise<void>((resolve) => (begin = resolve));
  await page.route('**/trial/trial.js', async (route) => {
    await begun;
    await route.fallback();
  });
  await page.goto(new URL('../trial/', page.url()).href, { waitUntil: 'commit' });
  await page.waitForFunction(() => 'typeEarlyKeys' in globalThis);
  const sheetWasThere = await page.evaluate(() => document.querySelector('[data-u-comp="editor"]') !== null);
  await page.keyboard.type(TYPED.slice(0, 4), { delay: 20 });
  begin();
  await page.keyboard.type(TYPED.slice(4), { delay: 20 });
  await page.keyboard.press('Enter');
  expect(sheetWasThere).toBe(false);
  await expect.poll(first).toBe(TYPED);
  expect(open.complaints).toEqual([]);
});
