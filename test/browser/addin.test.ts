import { beforeAll, describe, expect, it } from 'vitest';
import { builtFiles } from './built.ts';
import { openPage } from './page.ts';

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
});
