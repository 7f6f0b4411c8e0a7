/** The charts of a load and of a schedule, in a real browser. */
import { mkdirSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Cell } from '../../src/catalogue/cell.ts';
import type { MemoryPort } from './memory-port.ts';
import { openMemoryPane } from './memory-pane.ts';
import type { OpenPage } from './page.ts';

declare const sheet: MemoryPort;
declare const axe: { run(context: Document, options: RunOptions): Promise<AxeResults> };

const PAGE =
  '<!doctype html><html lang="en"><head><title>Charts</title><link rel="icon" href="data:,"><link rel="stylesheet" href="pane.css"></head><body class="rs-page"><main><h1>Charts</h1><div id="pane"></div></main><script src="functions.js"></script></body></html>';
const CELLS: Readonly<Record<string, Cell>> = {
  A1: 'diameter',
  B1: 'length',
  A2: 4,
  B2: 10,
  A3: 4,
  B3: 12,
  A4: 3.5,
  B4: 9,
  A5: 5,
  B5: 16,
  A6: 6,
  B6: 20,
  A7: 4,
  B7: 11,
  D20: '=BURN.PIN.PLAN(A2:A7,B2:B7)',
  D1: '=BURN.JOB.STOCK(A1:B7,90)',
  D30: '=BURN.JOB.SCHEDULE(A1:B7,2,6)',
  D60: '=BURN.ASSUME.EFFECT("PIN",A2:B2)',
  D80: '=BURN.LOG.FIT({"diameter","length","rods used","oxygen used";4,10,7,140;3.5,12,6,128;5,16,16,330})',
  F1: 'mark',
  G1: 'dia',
  H1: 'length',
  F2: 'Walking shoe link, upper left',
  G2: 5,
  H2: 18,
  F3: 'A-frame back leg, right-hand inner sheave',
  G3: 4,
  H3: 14,
  F4: 'Boom',
  G4: 6,
  H4: 20,
  D100: '=BURN.JOB.PLAN(F1:H4)',
  D120: '=BURN.JOB.SCHEDULE(F1:H4,1,8)',
  D90: '=BURN.JOB.COST(A1:B7,{"rod",9,"";"oxygen",38,"100 scf";"crew",180,"h"})',
};

let open: OpenPage;
beforeAll(async () => {
  open = await openMemoryPane(PAGE);
  await open.page.evaluate((cells) => sheet.fill('Charts', cells), CELLS);
});
afterAll(() => (open as OpenPage | undefined)?.close());

/** What of the drawn texts stands outside its picture: cut off where the pane is as narrow. */
const cutOff = (id: string): Promise<readonly string[]> =>
  open.page.locator(`.rs-section-${id} svg[role=img]`).evaluateAll((pictures) =>
    pictures.flatMap((picture) => {
      const frame = picture.getBoundingClientRect();
      return [...picture.querySelectorAll('text')]
        .filter((text) => {
          const { left, right, top, bottom } = text.getBoundingClientRect();
          return left < frame.left - 1 || right > frame.right + 1 || top < frame.top - 1 || bottom > frame.bottom + 1;
        })
        .map((text) => text.textContent);
    }),
  );

describe.each(['light', 'dark'] as const)('in a narrow pane, %s', (colorScheme) => {
  it.each([
    ['D1', 'pictures', 8, 'cylinders: '],
    ['D30', 'pictures', 18, 'shift 1 crew 1: burns '],
    ['D100', 'pictures', 3, 'Walking shoe link, upper left: '],
    ['D120', 'pictures', 6, 'burns Walking shoe link, upper left'],
    ['D90', 'pictures', 2, 'rod 3/8 x 36: '],
    ['D20', 'pictures', 6, '1: '],
    ['D60', 'pictures', 4, 'oxygen burnt share: '],
    ['D80', 'pictures', 0, 'rods 0.'],
  ] as const)(
    '%s has its chart, with words for those who do not see it, and nothing cut',
    async (address, id, rectangles, words) => {
      await open.page.emulateMedia({ colorScheme });
      await open.page.setViewportSize({ width: 320, height: 900 });
      const section = open.page.locator(`.rs-section-${id}`);
      await open.page.evaluate((at) => sheet.select('Charts', at), address);
      await expect.poll(() => open.page.locator('.rs-address b').textContent()).toBe(address);
      const picture = section.locator('svg[role=img]').first();
      await picture.waitFor();
      expect(await picture.locator('rect').count()).toBeGreaterThanOrEqual(rectangles);
      expect(await section.locator('svg desc').first().textContent()).toContain(words);
      expect((await picture.boundingBox())?.width).toBeLessThanOrEqual(320);
      expect(await cutOff(id)).toEqual([]);
      const { violations } = await open.page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
      expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')}`)).toEqual([]);
      const shots = process.env['SHOTS'];
      if (shots !== undefined) {
        mkdirSync(shots, { recursive: true });
        await section.screenshot({ path: `${shots}/${address}-${colorScheme}.png` });
      }
      expect(open.complaints).toEqual([]);
    },
  );
});

describe('the assumptions of a job', () => {
  const LOG =
    '{"diameter","length","rods used","oxygen used","burning minutes","crew minutes";4,10,7,140,9,62;3.5,12,6,128,8,58;5,16,16,330,18,85}';

  it('that cells of one list do not share are told, with what differs, and a fit goes in by one click that shows what it changes', async () => {
    const { page } = open;
    await page.evaluate(async (log) => {
      await sheet.fill('Set', { A1: 'burning duty', B1: 0.5, C1: 0.4, D1: 0.6 });
      await sheet.fill('Charts', {
        J1: '=BURN.PIN.RODS(G2,H2)',
        J20: '=BURN.JOB.STOCK(F1:H4,90,Set!A1:G40)',
        J40: `=BURN.LOG.FIT(${log})`,
      });
      sheet.formulas = { all: () => sheet.allFormulas() };
      sheet.select('Charts', 'J1');
    }, LOG);
    const note = page.locator('.rs-differing');
    await note.waitFor();
    const text = (await note.textContent()) ?? '';
    expect(text).toContain('Charts J20: Set!A1:G40');
    expect(text).toMatch(/Charts [A-Z0-9]+.*: the defaults/);
    expect(text).toMatch(/burning duty: .* against 0\.5 \(0\.4 to 0\.6\)/);

    await page.evaluate(() => sheet.select('Charts', 'J40'));
    const section = page.locator('.rs-section-fit');
    const button = section.getByRole('button', { name: /^Put these \d+ assumptions into Set!A1:G40$/ });
    // The sheet beside it has a range of its own.
    await section.getByRole('combobox').selectOption('Set!A1:G40 (1 formula)');
    await button.waitFor();
    const row = section.locator('tr', { hasText: 'burning duty' });
    const [name, now, by] = await row.locator('th, td').allTextContents();
    expect([name, now]).toEqual(['burning duty', '0.5 (0.4 to 0.6)']);
    const held = (address: string): Promise<unknown> =>
      page.evaluate((at) => sheet.sheets.get('Set')?.get(at)?.value, address);
    // Nothing is written before the click.
    expect(await held('B1')).toBe(0.5);
    const { violations } = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
    expect(violations.map((v) => v.id)).toEqual([]);
    await button.click();
    await section.getByText('Set!A1:G40 holds this fit already.').waitFor();
    expect(await held('B1')).toBeCloseTo(Number.parseFloat(by ?? ''), 3);
    expect(await held('F1')).toBe('your log');
    expect(await held('A2')).not.toBeUndefined();
  });
});
