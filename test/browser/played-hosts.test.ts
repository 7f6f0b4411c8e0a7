/** The built page in the hosts on the desktop and on the web, as far as a browser can play them, with the vendor's libraries as shipped and the page's own policy. */
import type { Frame, Page } from 'playwright-core';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';
import { call } from '../../src/sheet/call.ts';
import { argumentsOf, asCalled } from '../addin/example-arguments.ts';
import { RowsAlike } from '../core/operations/rows-alike.ts';
import type { Book } from '../host/workbook-host.ts';
import { builtFiles } from './built.ts';
import { DesktopHost } from './desktop-host.ts';
import { openPage, type OpenPage } from './page.ts';
import type { PlayedHost } from './played-host.ts';
import { PLAYED, WebHost } from './web-host.ts';

const book = (): Book => ({
  sheets: {
    Pins: {
      A4: 'diameter',
      B4: 'length',
      A5: 3.5,
      B5: 10,
      A6: 4,
      B6: 12,
      A7: 3,
      B7: 8,
      D5: 93.8,
      D6: 160.2,
      D7: 70.1,
      F5: '#NAME?',
      F6: '#NAME?',
      F7: '#NAME?',
      G5: '#VALUE!',
    },
    Locked: { A1: '#NAME?' },
    Assumptions: { A1: 'name', B1: 'value', A2: 'stub', B2: 5 },
  },
  formulas: {
    Pins: {
      D5: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)',
      F5: '=_xldudf_BURN_PIN_OXYGEN(A5,B5)',
      F6: '=BURN.PIN.RODS(A6,B6)',
      F7: '=NOSUCH(A7)',
      G5: '=BURN.PIN.OXYGEN(A5,-1)',
      H5: '=BURN.PIN.OXYGEN(Bore,List[length],,,,Assumptions!A:E)',
      K5: '=BURN.PIN.PLAN(A5:A6,B5:B6)',
    },
    Locked: { A1: '=_xldudf_BURN_VERSION()' },
  },
  spills: { Pins: [{ from: 'D5', to: 'D5:D7' }] },
  names: { Bore: 'Pins!A5:A7' },
  tables: { List: { sheet: 'Pins', at: 'A4', columns: ['diameter', 'length'], rows: 3 } },
  locked: ['Locked'],
  active: { sheet: 'Pins', at: 'D5' },
});

let files: Record<string, string | Buffer>;
let open: OpenPage;
let host: PlayedHost;
/** Where the add-in is shown: the page itself, or a frame of the host's. */
let addin: Page | Frame;
/** A complaint of the browser that a test brings about. */
let foreseen: RegExp | undefined;
beforeAll(async () => {
  const built = await builtFiles();
  files = {
    'favicon.ico': '',
    ...built,
    'add-in.html': built['pane.html'] ?? '',
    '': '<!doctype html><title>before</title>',
  };
});
afterEach(async () => {
  // The policy refuses the frame that the library opens to its maker, and its inline style.
  const unforeseen = open.complaints.filter((text) => !foreseen?.test(text));
  foreseen = undefined;
  expect(unforeseen.filter((text) => !/violates the following Content Security Policy/.test(text))).toEqual([]);
  await open.close();
});

type HostName = 'desktop' | 'web';

/** Opens the add-in in a host; `before` is done to the page that holds it before it is loaded. */
async function start(
  name: HostName,
  before: (page: Page) => Promise<unknown> = () => Promise.resolve(),
): Promise<void> {
  open = await openPage(files, '', ...(name === 'web' ? PLAYED : []));
  const { page } = open;
  if (name === 'desktop') {
    const address = new URL('add-in.html', page.url()).href;
    await before(page);
    host = await DesktopHost.on(page, book());
    await page.goto(address);
    addin = page;
  } else {
    const web = await WebHost.on(page, files, book());
    await before(page);
    host = web;
    addin = await web.show();
    await expect.poll(() => web.workbook.takesCalls).toBe(true);
  }
  await addin.waitForFunction(() => 'Office' in globalThis && 'Excel' in globalThis);
}

/** Hides the page as a host does that loads it for the functions alone. */
const hide = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    Object.assign(globalThis, { hidden: true });
    Object.defineProperty(document, 'visibilityState', {
      get: () => ((globalThis as unknown as { hidden: boolean }).hidden ? 'hidden' : 'visible'),
    });
  });
const section = (id: string): Promise<string | null> => addin.locator(`.rs-section-${id}`).textContent();
const pane = (): ReturnType<Page['locator']> => addin.locator('#rs-panel-cell');

const paneScript = (): string => Object.keys(files).find((name) => /^pane\.[0-9a-f]+\.js$/.test(name)) ?? '';
/** What the page has loaded of our own, in order. */
const fetched = (): Promise<readonly string[]> =>
  addin.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .map(({ name }) => new URL(name).pathname.slice(1))
      .filter((name) => /^(functions|pane)\b/.test(name))
      .sort(),
  );

describe.each<HostName>(['desktop', 'web'])('the pane in the host on the %s', (name) => {
  it('follows cells, spills, errors, names, tables and whole columns', async () => {
    await start(name);
    await expect.poll(() => section('result')).toMatch(/^Result[\d.]+ scf/);
    const result = async (at: string): Promise<string> => {
      await host.select('Pins', at);
      await expect.poll(() => addin.locator('.rs-address b').textContent()).toBe(at);
      return (await section('result')) ?? '';
    };
    expect(await result('D6')).toMatch(/^Result[\d.]+ scf/);
    expect(await addin.locator('.rs-address').textContent()).toContain('from D5');
    expect(await result('G5')).toMatch(/#VALUE! length is -1 in; must be more than 0 in/);
    expect(await result('H5')).toMatch(/^Result[\d.]+ scf/);
    expect(await section('assumptions')).toContain('your value');
  });

  it('recognises functions that the host keeps as unknown names, and enters the cell or all of them again', async () => {
    await start(name);
    await host.select('Pins', 'F5');
    await expect.poll(() => pane().textContent()).toContain('The spreadsheet does not know the function in this cell');
    await addin.getByRole('button', { name: 'Find all such cells' }).click();
    await expect.poll(() => pane().textContent()).toContain('3 cells of this workbook.');
    await addin.getByRole('button', { name: 'Enter all 3 cells again' }).click();
    await expect.poll(() => pane().textContent()).toContain('2 cells entered again. 1 cell could not be:');
    expect(await pane().textContent()).toContain(
      'Locked A1: The cell or chart you are trying to change is on a protected sheet.',
    );
    expect(host.workbook.book.formulas['Pins']).toMatchObject({
      F5: '=BURN.PIN.OXYGEN(A5,B5)',
      F6: '=BURN.PIN.RODS(A6,B6)',
      F7: '=NOSUCH(A7)',
    });
    await host.select('Pins', 'F6');
    await addin.getByRole('button', { name: 'Enter F6 again' }).click();
    await expect.poll(() => pane().textContent()).toContain('1 cell entered again.');
  });

  it('adds a job list, and the template, as sheets beside those there are', async () => {
    await start(name);
    const before = structuredClone(host.workbook.book);
    await host.select('Pins', 'B9');
    await addin.getByRole('button', { name: 'Add a blank job list' }).click();
    await expect.poll(() => pane().textContent()).toContain('Added the sheets Job list, Plan. What was there');
    expect(host.workbook.book.formulas['Plan']).toMatchObject({ A4: "=BURN.JOB.PLAN('Job list'!$A$4:$I$35)" });
    await addin.getByRole('button', { name: 'Add the job template' }).click();
    await expect
      .poll(() => pane().textContent())
      .toMatch(/Added the sheets Pins 2, Plan 2, .*, Assumptions 2, Checks, About and the name Assume\./);
    expect(host.workbook.book.names?.['Assume']).toMatch(/^'Assumptions 2'!\$A\$3:\$K\$\d+$/);
    for (const name of Object.keys(before.sheets)) {
      expect(host.workbook.book.sheets[name]).toEqual(before.sheets[name]);
      expect(host.workbook.book.formulas[name]).toEqual(before.formulas[name]);
    }
  });

  it('sets the formats of a plan, and says so', async () => {
    await start(name);
    await host.select('Pins', 'K5');
    await addin.getByRole('button', { name: 'Set widths, decimals and headings' }).click();
    await expect.poll(() => pane().textContent()).toContain('of the table from K5 are set.');
    expect(host.workbook.looks['Pins']).toMatchObject({ 'K5:AI5': { 'font Bold': true } });
    expect(host.workbook.done).toContain('freeze Pins 5');
    await host.select('Pins', 'D5');
    await expect.poll(() => addin.locator('.rs-address b').textContent()).toBe('D5');
    expect(await addin.getByRole('button', { name: 'Set widths, decimals and headings' }).count()).toBe(0);
  });

  it('puts the assumptions on a sheet of their own, with a name that is free', async () => {
    await start(name);
    await addin.getByRole('tab', { name: 'Assumptions' }).click();
    await addin.getByRole('button', { name: /sheet/i }).first().click();
    await expect.poll(() => host.workbook.done).toContain('activate Assumptions 2');
    expect(host.workbook.book.sheets['Assumptions 2']).toMatchObject({ A1: 'name', B1: 'value' });
    await expect.poll(() => addin.locator('#rs-panel-assumptions').textContent()).toContain('Assumptions 2');
  });

  it('says of every function what it is for and how it is written, which only the pane has the words of', async () => {
    await start(name);
    await addin.getByRole('tab', { name: 'Functions' }).click();
    const panel = addin.locator('#rs-panel-functions');
    await expect.poll(() => panel.textContent()).toContain(CATALOGUE[0]!.summary);
    const said = (await panel.textContent()) ?? '';
    for (const d of CATALOGUE) {
      const words = [d.summary, ...hostFunction(d).parameters.map(({ summary }) => summary), ...d.examples];
      for (const each of words) expect(said, d.name).toContain(each);
    }
    const families = [...new Set(CATALOGUE.map((d) => d.family))];
    expect(await panel.locator('h3').allTextContents()).toEqual(families);
  });

  it('looks through the whole workbook, and leads to the cells of what it finds', async () => {
    await start(name);
    await host.select('Assumptions', 'A1');
    await addin.getByRole('button', { name: 'Check the workbook' }).click();
    const check = addin.locator('.rs-check');
    await expect.poll(() => check.textContent()).toMatch(/\d+ cells with our functions looked at: \d+ found/);
    const found = check.getByRole('listitem').filter({ hasText: 'length is -1 in' }).first();
    await found.getByRole('button').click();
    await expect.poll(() => host.workbook.done).toContain('select Pins G5');
    expect(await check.getByText('Cautions of all this work').count()).toBe(1);
  });

  it('does nothing until somebody sees it, while the functions answer', async () => {
    await start(name, hide);
    const [rods] = await host.run(['PIN.RODS', [[[4]], [[10]], null, null, null, null]]);
    expect(rods).toEqual({ value: [[expect.any(Number)]] });
    expect(host.workbook.followed.size).toBe(0);
    expect(await addin.getByRole('tab').count()).toBe(0);
    expect(await fetched()).toEqual(['functions.js']);
    await addin.evaluate(() => {
      Object.assign(globalThis, { hidden: false });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await expect.poll(() => section('result')).toMatch(/^Result[\d.]+ scf/);
    expect(host.workbook.followed.size).toBeGreaterThan(0);
    expect(await fetched()).toEqual(['functions.js', 'pane.css', paneScript()].sort());
  });

  it('says when its script is gone, and fetches it when it is back; the functions answer meanwhile', async () => {
    foreseen = /status of 404/;
    let gone = true;
    await start(name, (page) =>
      page.route(`**/${paneScript()}`, (route) => (gone ? route.fulfill({ status: 404 }) : route.fallback())),
    );
    await expect.poll(() => addin.getByRole('alert').textContent()).toContain('The pane could not be fetched');
    const [rods] = await host.run(['PIN.RODS', [[[4]], [[10]], null, null, null, null]]);
    expect(rods).toEqual({ value: [[expect.any(Number)]] });
    gone = false;
    await addin.getByRole('button', { name: 'Try again' }).click();
    await expect.poll(() => section('result')).toMatch(/^Result[\d.]+ scf/);
  });
});

describe.each<HostName>(['desktop', 'web'])('functions in the host on the %s', (name) => {
  it('give in the page of the shared runtime what they give in the source, in every example', async () => {
    await start(name);
    const list = CATALOGUE.flatMap((d) => d.examples.map((formula) => ({ d, formula, args: argumentsOf(formula) })));
    const outcomes = await host.run(
      ...list.map(({ d, args }) => [d.name.slice('BURN.'.length), padded(d, args)] as const),
    );
    list.forEach(({ d, formula, args }, i) => {
      const rows = call(d, asCalled(args)).map((row) => row.map(asShown));
      expect(outcomes[i], formula).toEqual({ value: rows });
    });
  });

  it('of single plans by the thousand are worked out as one list, by the script that is fetched for it', async () => {
    await start(name);
    const plan = findFunction('BURN.PIN.PLAN')!;
    const sizes = Array.from({ length: 3000 }, (_, i) => [2 + i / 700, 5 + ((i * 0.618) % 1) * 19] as const);
    const outcomes = await host.run(
      ...sizes.map(([diameter, length]) => ['PIN.PLAN', padded(plan, [[[diameter]], [[length]]])] as const),
    );
    expect(await addin.evaluate(() => performance.getEntriesByType('resource').map((entry) => entry.name))).toEqual(
      expect.arrayContaining([expect.stringMatching(/\/lists\b[^/]*\.js$/)]),
    );
    const alike = new RowsAlike(false);
    for (let i = 0; i < sizes.length; i += 20) {
      const [heading, row] = call(plan, [...sizes[i]!]).map((cells) => cells.map((cell) => cell ?? ''));
      const { value } = outcomes[i] as { readonly value: readonly (readonly unknown[])[] };
      expect(value, `${i}`).toHaveLength(2);
      expect(value[0]).toEqual(heading);
      alike.compare('PIN', `${i}`, value[1]!, row!);
    }
    alike.check();
  });

  it('that take long at a stretch leave the page to answer others, and stop where they are taken back', async () => {
    await start(name);
    await expect.poll(() => section('result')).toMatch(/^Result[\d.]+ scf/);
    const args = padded(findFunction('BURN.JOB.COST')!, [LONG_LIST, PRICES]);
    const [cost] = await host.begin(['JOB.COST', args]);
    const silence = longestSilence();
    await host.select('Pins', 'D6');
    await expect.poll(() => addin.locator('.rs-address b').textContent()).toBe('D6');
    const [rods] = await host.run(['PIN.RODS', [[[4]], [[10]], null, null, null, null]]);
    expect(rods).toEqual({ value: [[expect.any(Number)]] });
    const outcome = await cost!.outcome;
    const before = performance.now();
    const rows = call(findFunction('BURN.JOB.COST')!, [LONG_LIST, PRICES]).map((row) => row.map(asShown));
    const took = performance.now() - before;
    expect(outcome).toEqual({ value: rows });

    // The pane reads the cell, and what it rests on, as patiently.
    Object.assign(host.workbook.book.sheets, { List: cellsOf(LONG_LIST), Prices: cellsOf(PRICES) });
    host.workbook.book.formulas['Pins']!['J5'] = `=BURN.JOB.COST(List!A1:D${LONG_LIST.length},Prices!A1:B3)`;
    await host.select('Pins', 'J5');
    await expect.poll(() => addin.locator('.rs-address b').textContent()).toBe('J5');
    await expect.poll(() => section('working')).toContain('Working');
    // A page that worked it out itself would be silent for all of that; how long that is goes by the machine and its other work.
    expect(await silence()).toBeLessThan(took / 2);

    const [again] = await host.begin(['JOB.COST', padded(findFunction('BURN.JOB.COST')!, [LONGER_LIST, PRICES])]);
    await addin.waitForTimeout(100);
    expect(open.page.workers()).toHaveLength(1);
    await again!.cancel();
    await expect.poll(() => open.page.workers()).toEqual([]);
    const [short] = await host.run([
      'JOB.COST',
      padded(findFunction('BURN.JOB.COST')!, [LONG_LIST.slice(0, 2), PRICES]),
    ]);
    expect(short).toEqual({ value: expect.any(Array) as unknown });
  });
});

const listOf = (rows: number, over: number): readonly (readonly (string | number)[])[] => [
  ['mark', 'qty', 'dia', 'length'],
  ...Array.from({ length: rows }, (_, i) => [`P${i}`, 1 + (i % 3), 2 + over + (i % 41) / 8, 5 + over + (i % 77) / 4]),
];
const LONG_LIST = listOf(150, 0);
/** Of sizes that nothing is known of yet: it must still be in hand when it is taken back, also on a machine that is slow to say so. */
const LONGER_LIST = listOf(1000, 0.03);
const PRICES = [
  ['rod', 9],
  ['oxygen', 0.4],
  ['crew', 180],
];

/** Cells from A1 on by address. */
const cellsOf = (rows: readonly (readonly (string | number)[])[]): Record<string, string | number> =>
  Object.fromEntries(rows.flatMap((row, r) => row.map((cell, c) => [`${'ABCD'[c] ?? ''}${r + 1}`, cell] as const)));

/** Watches the page from now on; gives, when it is asked, the longest time in which it answered nothing [ms]. */
function longestSilence(): () => Promise<number> {
  const watching = addin.evaluate(() => {
    const seen = Object.assign(globalThis, { silence: 0 });
    let last = performance.now();
    setInterval(() => {
      const now = performance.now();
      seen.silence = Math.max(seen.silence, now - last);
      last = now;
    }, 5);
  });
  return async () => {
    await watching;
    return addin.evaluate(() => (globalThis as unknown as { readonly silence: number }).silence);
  };
}

/** One argument for each parameter, as the host hands them over. */
function padded(d: (typeof CATALOGUE)[number], args: readonly unknown[]): readonly unknown[] {
  const count = Object.keys(d.parameters).length + (d.assume ? 1 : 0);
  return Array.from({ length: count }, (_, i) => args[i] ?? null);
}

/** As the host is told of a cell; the browser's engine may differ from this one's in the last digit of a power or a
 * logarithm, and a difference of two such numbers in more. */
function asShown(cell: Cell): unknown {
  if (cell === null) return '';
  if (typeof cell === 'number')
    return expect.closeTo(cell, 9 - Math.ceil(Math.log10(Math.max(1, Math.abs(cell))))) as unknown;
  return typeof cell === 'object' ? (expect.objectContaining({ message: cell.message }) as unknown) : cell;
}
