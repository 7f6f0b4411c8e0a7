/**
 * How soon the pane shows another cell while functions are at work, in a browser that plays the desktop host: while 100,000
 * pins are planned item by item, and while a job list is compared in one piece, beside the page.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { DesktopHost } from '../browser/desktop-host.ts';
import { openPage } from '../browser/page.ts';
import type { Call } from '../browser/played-host.ts';
import type { Book } from '../host/workbook-host.ts';

const ADDRESSES = ['D5', 'D6', 'D7'];
const book: Book = {
  sheets: { Pins: { A5: 3.5, B5: 10, A6: 4, B6: 12, A7: 3, B7: 8, D5: 1, D6: 1, D7: 1 } },
  formulas: {
    Pins: Object.fromEntries(ADDRESSES.map((at) => [at, `=BURN.PIN.OXYGEN(A${at.slice(1)},B${at.slice(1)})`])),
  },
  active: { sheet: 'Pins', at: 'D5' },
};

const PLAN: Call = [
  'PIN.PLAN',
  [Array.from({ length: 100_000 }, (_, i) => [2 + i * 0.00004]), [[10]], null, null, null, null],
];
const LIST = [['dia', 'length'], ...Array.from({ length: 100 }, (_, i) => [2 + (i % 41) / 8, 5 + (i % 77) / 4])];
const COMPARE: Call = [
  'JOB.COMPARE',
  [
    LIST,
    [['position', 'flat']],
    [['position', 'overhead']],
    [
      ['rod', 9],
      ['oxygen', 0.4],
      ['crew', 180],
    ],
  ],
];

const line = (what: string, figure: string): void => console.log(`${what.padEnd(60)} ${figure}`);

/** A folder with the add-in as built. */
function built(): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-pane-'));
  execFileSync(
    process.execPath,
    ['node_modules/webpack/bin/webpack.js', '--output-path', folder, '--env', 'only=addin', '--env', 'office=package'],
    { stdio: 'ignore' },
  );
  return folder;
}

/** Milliseconds from the host's word that another cell is selected until the pane shows it. */
async function shownAfter(page: Page, host: DesktopHost, at: string): Promise<number> {
  const shown = page.evaluate(
    (wanted) =>
      new Promise<number>((resolve) => {
        const start = performance.now();
        new MutationObserver((_, observer) => {
          if (document.querySelector('.rs-address b')?.textContent !== wanted) return;
          observer.disconnect();
          resolve(performance.now() - start);
        }).observe(document.body, { subtree: true, childList: true, characterData: true });
      }),
    at,
  );
  await host.select('Pins', at);
  return shown;
}

/** The longest and the middle of the times while a call is at work. */
async function during(page: Page, host: DesktopHost, what: string, call?: Call): Promise<void> {
  const times: number[] = [];
  const start = performance.now();
  const work = { done: false };
  const [running] = call ? await host.begin(call) : [];
  const end = running ? running.outcome : new Promise((resolve) => setTimeout(resolve, 3000));
  void end.then(() => (work.done = true));
  for (let i = 1; !work.done; i++) times.push(await shownAfter(page, host, ADDRESSES[i % ADDRESSES.length]!));
  const sorted = times.toSorted((a, b) => a - b);
  line(
    `the pane shows another cell ${what}`,
    `${sorted[sorted.length >> 1]?.toFixed(0)} ms, at most ${sorted.at(-1)?.toFixed(0)} ms (${times.length} cells in ${((performance.now() - start) / 1000).toFixed(1)} s)`,
  );
}

async function main(): Promise<void> {
  const folder = built();
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.join(entry.parentPath, entry.name));
  const open = await openPage({
    '': '<!doctype html><title>before</title>',
    'favicon.ico': '',
    ...Object.fromEntries(files.map((file) => [path.relative(folder, file), readFileSync(file)])),
  });
  try {
    const { page } = open;
    const host = await DesktopHost.on(page, book);
    await page.goto(new URL('pane.html', page.url()).href);
    await page.locator('.rs-address b').waitFor();
    await during(page, host, 'with nothing else to do');
    await during(page, host, 'while 100,000 pins are planned', PLAN);
    await during(page, host, 'while 100 items are compared', COMPARE);
  } finally {
    await open.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

void main();
