/**
 * The first hour of a new estimator, over the built files: what the screen shows at each step, whether it agrees with a
 * fresh calculation, and that nothing leaves this machine. Each step leaves a screenshot in .cache/screenshots, with a
 * page that shows them all; SCREENSHOTS=assets makes the README's pictures anew.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { demoWorkbook } from '../../src/trial/demo/demo-workbook.ts';
import { builtFiles } from './built.ts';
import { edit, goTo } from './edit.ts';
import { openPage, type OpenPage } from './page.ts';
import { Screenshots } from './screenshots.ts';

const SIZE = { width: 1440, height: 860 };
const PINS = demoWorkbook().sheets[0];

const shots = new Screenshots(new URL('../../.cache/screenshots', import.meta.url).pathname);
let open: OpenPage;

beforeAll(async () => {
  open = await openPage(await builtFiles(), 'trial/');
  await open.page.setViewportSize(SIZE);
});
afterAll(async () => {
  shots.contactSheet('The first hour');
  await (open as OpenPage | undefined)?.close();
});

/** A step with its picture, the failing one's too. */
function step(name: string, run: () => Promise<void>, published?: string): void {
  it(name, async () => {
    try {
      await run();
    } catch (e) {
      await shots.take(open.page, `${name} failed`);
      throw e;
    }
    await shots.take(open.page, name, published);
  });
}

const locate = (selector: string): ReturnType<OpenPage['page']['locator']> => open.page.locator(selector);
const section = (id: string): ReturnType<typeof locate> => locate(`.rs-section-${id}`);
const list = (): ReturnType<typeof locate> => locate('[data-u-comp="sheets-formula-editor"] li');
const press = (...keys: readonly string[]): Promise<void> =>
  keys.reduce((before, key) => before.then(() => open.page.keyboard.press(key)), Promise.resolve());
const type = (text: string): Promise<void> => open.page.keyboard.type(text, { delay: 10 });
const says = (text: string | RegExp): Promise<void> =>
  expect.poll(() => open.page.textContent('#status')).toMatch(text);

/** Goes to cells by the name box, and waits until the pane is there too. */
async function select(address: string): Promise<void> {
  await goTo(open.page, address);
  await expect.poll(() => locate('.rs-address b').textContent()).toBe(address.split(':')[0]);
}

/** The argument that is being typed, as its help has it; the help of a chosen function shows when the editor has taken its name. */
const argument = (help: string): Promise<void> => open.page.getByText(help).first().waitFor();

async function sheet(name: string): Promise<void> {
  await locate('#sheet').getByText(name, { exact: true }).click();
  await expect.poll(() => locate('.rs-address').textContent()).toMatch(new RegExp(`^${name} `));
}

async function enter(address: string, text: string): Promise<void> {
  await select(address);
  await type(text);
  await press('Enter');
}

/** What the sheet on show shows, by address, read off the table that it is printed as. */
async function shown(): Promise<Readonly<Record<string, string>>> {
  const rows = await open.page.evaluate(() => {
    window.dispatchEvent(new Event('beforeprint'));
    const read = [...document.querySelectorAll<HTMLTableRowElement>('#print tr')].map((row) =>
      [...row.cells].map((cell) => [cell.textContent, cell.colSpan] as const),
    );
    window.dispatchEvent(new Event('afterprint'));
    return read;
  });
  return Object.fromEntries(
    rows.flatMap((cells, r) => {
      let column = 0;
      return cells.map(([text, span]) => {
        const address = `${letters(column)}${r + 1}`;
        column += span;
        return [address, text] as const;
      });
    }),
  );
}
const letters = (column: number): string =>
  (column < 26 ? '' : letters(Math.floor(column / 26) - 1)) + String.fromCharCode(65 + (column % 26));

/** A point of the sheet of pins as it opens: the middle of a cell, or its lower right corner. */
async function point(address: string, corner = false): Promise<{ readonly x: number; readonly y: number }> {
  const [, letter = 'A', row = '1'] = /^([A-Z])(\d+)$/.exec(address) ?? [];
  const widths = new Map(
    Object.entries(PINS?.widths ?? {}).flatMap(([range, width]) => {
      const [from = '', to = from] = range.split(':');
      return Array.from(
        { length: to.charCodeAt(0) - from.charCodeAt(0) + 1 },
        (_, i) => [from.charCodeAt(0) + i, width] as const,
      );
    }),
  );
  const size = (n: number, sizes: (at: number) => number): number =>
    Array.from({ length: n }, (_, i) => sizes(i)).reduce((a, b) => a + b, 0);
  const width = (at: number): number => widths.get(at + 65) ?? 88;
  const height = (at: number): number => PINS?.heights?.[at + 1] ?? 24;
  const [column, line] = [letter.charCodeAt(0) - 65, Number(row) - 1];
  const boxes = await Promise.all((await locate('#sheet canvas').all()).map((canvas) => canvas.boundingBox()));
  // The formula bar and the cell being typed in are canvases too.
  const grid = boxes.find((box) => (box?.height ?? 0) > 300);
  const share = corner ? 1 : 0.5;
  return {
    x: (grid?.x ?? 0) + 46 + size(column, width) + share * width(column),
    y: (grid?.y ?? 0) + 20 + size(line, height) + share * height(line),
  };
}

/** A fresh calculation. */
function fresh(name: string, ...args: readonly Argument[]): Cell {
  const declaration = findFunction(name);
  if (!declaration) throw new Error(`there is no ${name}`);
  return call(declaration, args)[0]?.[0] ?? null;
}
function failure(name: string, ...args: readonly Argument[]): string {
  const value = fresh(name, ...args);
  if (!isCellError(value)) throw new Error(`${name} does not fail`);
  return `${value.error} ${value.message}`;
}
const figure = (value: Cell): string => `${Number((value as number).toPrecision(5))} scf`;
/** Waits until a cell of the sheet on show holds a number. */
const holds = (address: string, value: Cell): Promise<void> =>
  expect
    .poll(async () => Number(Number((await shown())[address]).toPrecision(9)))
    .toBe(Number((value as number).toPrecision(9)));
const result = (text: string): Promise<void> =>
  expect.poll(async () => (await section('result').textContent()) ?? '').toContain(text);

describe('the first hour', () => {
  step('open the trial', async () => {
    await locate('#pane [role=tab]').first().waitFor();
    await expect.poll(async () => (await shown())['F6']).toMatch(/^\d+$/);
    expect(await locate('#pane').textContent()).toContain('In an empty cell type =BURN. and choose from the list');
    expect((await shown())['A1']).toBe('Dragline overhaul: seized pins');
  });

  step('no sheet begins with a failure', async () => {
    for (const { name } of demoWorkbook().sheets) {
      await sheet(name);
      const cells = await shown();
      expect(
        Object.entries(cells).filter(([, text]) => /^#[A-Z/0]+[!?]?$/.test(text)),
        name,
      ).toEqual([]);
    }
    await sheet('Pins');
  });

  step(
    'see how a figure was worked out',
    async () => {
      await select('H10');
      await result(figure(fresh('BURN.PIN.OXYGEN', '4-1/2', 16)));
      // What is hidden from sight must not make the page longer than the window.
      expect(await open.page.evaluate(() => document.documentElement.scrollHeight <= window.innerHeight)).toBe(true);
    },
    'screenshot',
  );

  step('type =BURN. and see the functions', async () => {
    await select('K6');
    await type('=BURN.');
    await expect.poll(() => list().first().textContent()).toContain(findFunction('BURN.PIN.HOLE')?.summary);
    expect(await list().count()).toBeGreaterThan(5);
  });

  step('choose by keyboard and read what the argument is', async () => {
    await type('PIN.OX');
    await expect.poll(() => list().count()).toBe(1);
    await press('Enter');
    // The rest of the help is folded up; the argument that is being typed is not.
    await argument('Required. Pin diameter, in');
    expect(await open.page.getByText('Length of pin to burn through, in').first().isVisible()).toBe(false);
  });

  step('point at the cells', async () => {
    for (const [at, then] of [
      ['C6', ','],
      ['D6', ''],
    ] as const) {
      const { x, y } = await point(at);
      await edit(open.page, () => open.page.mouse.click(x, y));
      if (then !== '') await edit(open.page, () => type(then));
    }
    await press('Enter');
    await select('K6');
    await expect.poll(() => locate('.rs-formula code').first().textContent()).toBe('=BURN.PIN.OXYGEN(C6,D6)');
    await result(figure(fresh('BURN.PIN.OXYGEN', 6, 24)));
  });

  step('fill down by dragging, by ctrl+D and by copying', async () => {
    // Dragged too near to the edge of its window, the sheet scrolls on by itself.
    await open.page.setViewportSize({ ...SIZE, width: SIZE.width + 300 });
    await select('K6');
    const [from, to] = [await point('K6', true), await point('K8')];
    await open.page.mouse.move(from.x, from.y);
    await open.page.mouse.down();
    await open.page.mouse.move(from.x - 3, to.y, { steps: 8 });
    await open.page.mouse.up();
    await open.page.setViewportSize(SIZE);
    await holds('K8', fresh('BURN.PIN.OXYGEN', 5, 18));
    await select('K8:K10');
    await press('Control+d');
    await holds('K10', fresh('BURN.PIN.OXYGEN', '4-1/2', 16));
    await open.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await select('K10');
    await press('Control+c');
    await select('K11:K12');
    await press('Control+v');
    await holds('K12', fresh('BURN.PIN.OXYGEN', 4, 14));
  });

  step('choose by mouse', async () => {
    await select('L6');
    await type('=BURN.PIN.R');
    await list().filter({ hasText: 'BURN.PIN.RODS' }).click();
    await argument('Required. Pin diameter, in');
    await type('C6,D6)');
    await press('Enter');
    await select('L6');
    await result(String(fresh('BURN.PIN.RODS', 6, 24)));
  });

  step('type on past the list, and Enter ends the formula', async () => {
    await select('L7');
    await type('=BURN.PIN.');
    await list().first().waitFor();
    await type('RODS(C7,D7)');
    await press('Enter');
    await select('L7');
    await result(String(fresh('BURN.PIN.RODS', 6, 24)));
    expect(await locate('.rs-formula code').first().textContent()).toBe('=BURN.PIN.RODS(C7,D7)');
  });

  step('change a diameter and see the results follow', async () => {
    await enter('C6', '5');
    await holds('K6', fresh('BURN.PIN.OXYGEN', 5, 24));
    await enter('C7', '150 mm');
    await holds('K7', fresh('BURN.PIN.OXYGEN', '150 mm', 24));
  });
});

describe('mistakes are told', () => {
  step(
    'a typed 3/8 that became a date',
    async () => {
      await enter('C8', '3/8');
      await says(
        /^F8 #VALUE! diameter is \d+, which looks like a date: the sheet turned a fraction into one\. 3\/8\? Type '3\/8/,
      );
      await select('H8');
      await result('which looks like a date');
      // Where nothing could be worked out, the arguments come before the cautions.
      expect((await locate('.rs-section h3').allTextContents()).slice(0, 2)).toEqual(['Result', 'Arguments']);
    },
    'mistake',
  );

  step('the same as a text is taken, and says what it lacks', async () => {
    await enter('C8', "'3/8");
    await says(failure('BURN.PIN.RODS', '3/8', 18));
    await enter('C8', '5');
    await expect.poll(() => open.page.textContent('#status')).toBe('');
  });

  step('a hole wider than the pin', async () => {
    await enter('E6', '7');
    await says(`F6 ${failure('BURN.PIN.RODS', 5, 24, 7)}`);
    await select('E6');
    await press('Delete');
    await expect.poll(() => open.page.textContent('#status')).toBe('');
  });

  const typed: readonly (readonly [what: string, formula: string, told: () => string])[] = [
    ['an unknown rod', '=BURN.PIN.OXYGEN(4,12,,"5/8")', () => failure('BURN.PIN.OXYGEN', 4, 12, undefined, '5/8')],
    ['a missing argument', '=BURN.PIN.OXYGEN(4)', () => failure('BURN.PIN.OXYGEN', 4)],
    [
      'ranges of unequal sizes',
      '=BURN.PIN.OXYGEN(C12:C14,D12:D15)',
      () => failure('BURN.PIN.OXYGEN', [[4], [4], [4]], [[1], [1], [1], [1]]),
    ],
    [
      'a misspelled function',
      '=BURN.PIN.OXIGEN(4,12)',
      () => '#NAME? there is no function BURN.PIN.OXIGEN; nearest: BURN.PIN.OXYGEN',
    ],
    ['a range without a last row', '=SUM(C6:C)', () => '#NAME? C6:C has no last row'],
  ];
  for (const [what, formula, told] of typed) {
    step(what, async () => {
      await enter('L9', formula);
      await says(`L9 ${told()}`.replace(/[.*+?^${}()|[\]\\]/g, (c) => c));
    });
  }

  step('a result with something in its way', async () => {
    await enter('L12', 'mine');
    await enter('L9', '=BURN.PIN.RODS(C9:C14,D9:D14)');
    await says('L9 #SPILL! L12 is in the way of the result');
    await select('L12');
    await press('Delete');
    await holds('L14', fresh('BURN.PIN.RODS', '4-1/2', 15));
  });

  step('leaving an edit by Escape', async () => {
    await select('L3');
    await edit(open.page, () => open.page.mouse.click(160, 53)); // the fx button
    await press('Escape');
    await select('L4');
    expect(open.complaints).toEqual([]);
  });
});

describe('own assumptions', () => {
  step('replace a default', async () => {
    await sheet('Assumptions');
    const listed = call(findFunction('BURN.ASSUMED')!, []) as Cell[][];
    const at = listed.findIndex(([name]) => name === 'stub');
    const [, , low = null, high = null] = listed[at] ?? [];
    await enter(`B${3 + at}`, '3.4');
    await sheet('Pins');
    const assumed = fresh('BURN.PIN.OXYGEN', 5, 24, undefined, undefined, undefined, [['stub', 3.4, low, high]]);
    expect(assumed).not.toBe(fresh('BURN.PIN.OXYGEN', 5, 24));
    await select('H6');
    await result(figure(assumed));
    expect(await section('assumptions').locator('.rs-own').first().textContent()).toMatch(/^stub3\.4 in/);
  });

  step('see what departs from the defaults', async () => {
    await enter('K20', '=BURN.ASSUME.DIFF(Assumptions!A3:F250)');
    await expect.poll(async () => (await shown())['K21']).toBe('stub');
    expect((await shown())['L21']).toBe('3.4');
  });
});

describe('a plan and its working', () => {
  step('spill a plan', async () => {
    await enter('B38', '=BURN.PIN.PLAN(C9:C12,D9:D12)');
    const cells = call(findFunction('BURN.PIN.PLAN')!, [
      [[5], ['4-1/2'], ['4-1/2'], [4]],
      [[18], [16], [16], [14]],
    ]);
    await expect.poll(async () => (await shown())['B42']).toBe('4');
    const got = await shown();
    expect([got['B38'], got['C38'], got['D38']]).toEqual(cells[0]?.slice(0, 3));
    expect([1, 2, 3, 4].map((r) => got[`D${38 + r}`])).toEqual(cells.slice(1).map((row) => String(row[2])));
  });

  step(
    'the plan of the whole list',
    async () => {
      await sheet('Plan');
      await select('J6');
      await expect.poll(() => section('result').locator('.rs-selected dt').textContent()).toContain('oxygen, scf');
      expect(await locate('.rs-address').textContent()).toContain('from A3');
      expect(await section('result').textContent()).toContain('A-frame back leg, left');
    },
    'plan',
  );

  step(
    'read the working',
    async () => {
      await section('working')
        .locator('h3')
        .evaluate((h) => h.scrollIntoView());
      expect(await section('working').locator('tr').count()).toBeGreaterThan(30);
      expect(await section('working').locator('.rs-selected').textContent()).toMatch(/^oxygen/);
    },
    'working',
  );

  step('follow a figure to its source, and back', async () => {
    const link = section('cautions').locator('summary').first();
    await link.click();
    await section('cautions').locator('details[open] a').first().click();
    await locate('#rs-panel-references .rs-selected').waitFor();
    await open.page.getByRole('button', { name: 'Back to where it is cited' }).click();
    await expect
      .poll(() => open.page.getByRole('tab', { name: 'This cell' }).getAttribute('aria-selected'))
      .toBe('true');
  });
});

describe('other ways to see it', () => {
  step('print the sheet and the working', async () => {
    await open.page.emulateMedia({ media: 'print' });
    await open.page.evaluate(() => void window.dispatchEvent(new Event('beforeprint')));
    expect(await locate('#sheet').isVisible()).toBe(false);
    expect(await locate('#print td').filter({ hasText: 'tip pressure, psi' }).isVisible()).toBe(true);
    expect(await section('working').isVisible()).toBe(true);
    expect(await locate('#print').evaluate((table) => table.scrollWidth <= document.documentElement.clientWidth)).toBe(
      true,
    );
  });

  step('a window of 800 px', async () => {
    await open.page.evaluate(() => void window.dispatchEvent(new Event('afterprint')));
    await open.page.emulateMedia({ media: null });
    await open.page.setViewportSize({ width: 800, height: 860 });
    await expect.poll(async () => ((await locate('#pane').boundingBox())?.y ?? 0) > 300).toBe(true);
    expect(await open.page.evaluate(() => document.documentElement.scrollWidth)).toBe(800);
  });

  step('zoomed to 200 percent', async () => {
    await open.page.setViewportSize({ width: 640, height: 400 });
    expect(await open.page.evaluate(() => document.documentElement.scrollWidth)).toBe(640);
    expect((await locate('#sheet').boundingBox())?.height).toBeGreaterThan(250);
  });

  step('in the dark, by keyboard alone', async () => {
    await open.page.setViewportSize(SIZE);
    await open.page.emulateMedia({ colorScheme: 'dark' });
    await select('H7');
    await press('Enter');
    await press('F6');
    await expect.poll(() => open.page.evaluate(() => document.activeElement?.id)).toBe('rs-tab-cell');
    await press('ArrowRight');
    await expect
      .poll(() => open.page.getByRole('tab', { name: 'Functions' }).getAttribute('aria-selected'))
      .toBe('true');
    await press('ArrowLeft', 'F6');
    await expect
      .poll(() => open.page.evaluate(() => document.querySelector('#pane')?.contains(document.activeElement)))
      .toBe(false);
  });

  step('a reload keeps the work, and it can be thrown away', async () => {
    await open.page.emulateMedia({ colorScheme: null });
    await sheet('Pins');
    await expect.poll(() => locate('.job-kept').textContent()).toMatch(/^Kept in this browser, /);
    const edited = await shown();
    await open.page.reload();
    await expect.poll(() => locate('#job').textContent()).toContain('Recovered from');
    await expect.poll(async () => (await shown())['C6']).toBe(edited['C6']);
    await locate('#job').getByRole('button', { name: 'Throw it away' }).click();
    await expect.poll(async () => (await shown())['C6']).toBe('6');
  });

  it('complains of nothing and asks for nothing outside', () => {
    expect(open.complaints).toEqual([]);
    expect(open.outside).toEqual([]);
  });
});
