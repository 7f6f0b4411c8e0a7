/** The built page in the host on the web, as far as a browser can play it: in a sandboxed frame of another address, with the vendor's library as shipped. */
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Book } from '../host/workbook-host.ts';
import { builtFiles } from './built.ts';
import { WebHost } from './web-host.ts';

const book = (): Book => ({
  sheets: { Pins: { A4: 'diameter', B4: 'length', A5: 3.5, B5: 10, D5: 93.8, E5: '#VALUE!', F5: '#NAME?' } },
  formulas: {
    Pins: { D5: '=BURN.PIN.OXYGEN(A:A,B:B)', E5: '=BURN.PIN.OXYGEN(A5,-1)', F5: '=_xldudf_BURN_PIN_OXYGEN(A5,B5)' },
  },
  active: { sheet: 'Pins', at: 'E5' },
});

let files: Record<string, string | Buffer>;
let host: WebHost;
beforeAll(async () => {
  files = await builtFiles();
});
afterEach(async () => {
  expect(
    host.complaints.filter((text) => !/violates the following Content Security Policy|favicon/.test(text)),
  ).toEqual([]);
  await host.close();
});
const shown = (): Promise<string | null> => host.frame().locator('#pane').textContent();

describe('the pane in the host on the web', () => {
  it('follows the selected cell, its errors and unknown names', async () => {
    host = await WebHost.open(files, book());
    await expect.poll(shown, { timeout: 60_000 }).toMatch(/#VALUE! length is -1 in; must be more than 0 in/);
    await host.select('Pins', 'F5');
    await expect.poll(shown, { timeout: 60_000 }).toContain('The spreadsheet does not know the function in this cell');
    await host.frame().getByRole('button', { name: 'Enter F5 again' }).click();
    await expect.poll(shown, { timeout: 60_000 }).toContain('1 cell entered again.');
    expect(host.workbook.book.formulas['Pins']?.['F5']).toBe('=BURN.PIN.OXYGEN(A5,B5)');
  });

  it('does nothing in a frame that is not shown, until it is', async () => {
    host = await WebHost.open(files, book(), true);
    await expect.poll(() => host.frame().evaluate(() => 'Excel' in globalThis), { timeout: 60_000 }).toBe(true);
    await host.page.waitForTimeout(1000);
    expect(host.workbook.followed).not.toContain('SelectionChanged');
    expect(await host.frame().getByRole('tab').count()).toBe(0);
    await host.show();
    await expect.poll(shown, { timeout: 60_000 }).toMatch(/#VALUE! length is -1 in/);
  });
});
