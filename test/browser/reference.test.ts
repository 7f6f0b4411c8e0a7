/** Pages of the reference in a browser: contrast, sizes and widths, which jsdom has not. */
import { readFileSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtFiles } from './built.ts';
import { openPage, type OpenPage } from './page.ts';

declare const axe: { run(context: Document, options: RunOptions): Promise<AxeResults> };

const ROOT = new URL('../..', import.meta.url).pathname;
let open: OpenPage;
let home: string;

beforeAll(async () => {
  open = await openPage({ '': '<!doctype html><title>home</title>', 'favicon.ico': '', ...(await builtFiles()) });
  home = open.page.url();
});
afterAll(() => open.close());

describe.each([
  ['light', 360],
  ['dark', 360],
  ['light', 1100],
] as const)('the reference, %s, %d px wide', (scheme, width) => {
  it.each(['index', 'worked-job', 'pin-plan', 'noise-hours'])(
    'reads without scrolling sideways on %s, and axe-core finds nothing',
    async (file) => {
      const { page } = open;
      await page.emulateMedia({ colorScheme: scheme });
      await page.setViewportSize({ width, height: 800 });
      await page.goto(`${home}reference/${file}.html`);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      await page.evaluate(readFileSync(`${ROOT}node_modules/axe-core/axe.min.js`, 'utf8'));
      const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
      expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html ?? ''}`)).toEqual([]);
      expect(open.complaints).toEqual([]);
      expect(open.outside).toEqual([]);
    },
  );
});
