import { build } from 'esbuild';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FakeExcel } from '../addin/fake-excel.ts';
import { builtFiles } from './built.ts';
import { openPage } from './page.ts';

declare const excel: FakeExcel;
declare const associated: readonly string[];

const ROOT = new URL('../..', import.meta.url).pathname;
let files: Record<string, string | Buffer>;

beforeAll(async () => {
  const built = await builtFiles();
  files = { 'favicon.ico': '', ...built, '': built['pane.html'] ?? '' };
});

describe("the add-in's page", () => {
  it("keeps its text in a browser without the host, and lets the host's script ask for nothing outside", async () => {
    const open = await openPage(files);
    const { page, outside, complaints } = open;
    await page.waitForFunction(() => 'Office' in globalThis);
    await page.waitForTimeout(4000); // the script waits 3 s before it turns to its maker
    expect(await page.locator('#pane').textContent()).toContain('Type =BURN. in a cell');
    expect(outside).toEqual([]);
    // Refused by the page's policy: the frame of the script's maker, and its inline style.
    expect(complaints.filter((text) => !/violates the following Content Security Policy/.test(text))).toEqual([]);
    await open.close();
  });

  it('shows the pane in the host, and associates every function once', async () => {
    const { outputFiles } = await build({
      absWorkingDir: ROOT,
      entryPoints: ['test/browser/fake-office.ts'],
      bundle: true,
      write: false,
      format: 'iife',
      target: 'es2022',
    });
    const open = await openPage({ ...files, 'office/office.js': outputFiles[0]?.text ?? '' });
    const { page, complaints } = open;
    await page.getByRole('tab', { name: 'This cell' }).waitFor();
    await expect
      .poll(() => page.locator('.rs-section-result').textContent())
      .toMatch(/#VALUE! length is -1 in; must be more than 0 in/);
    await page.evaluate(async () => {
      excel.book.active = { sheet: 'Pins', at: 'D5' };
      await excel.fire();
    });
    await expect.poll(() => page.locator('.rs-section-result').textContent()).toMatch(/^Result[\d.]+ scf/);
    const { functions } = JSON.parse(String(files['functions.json'])) as { functions: readonly { id: string }[] };
    expect(await page.evaluate(() => associated)).toEqual(functions.map((f) => f.id));
    expect(complaints).toEqual([]);
    await open.close();
  });
});
