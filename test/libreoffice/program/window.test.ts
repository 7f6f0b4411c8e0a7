/** Calc in a window: what somebody types, sees and prints. Leaves a picture of each step in .cache/libreoffice/index.html. */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Calc } from './calc.ts';
import { startCalc } from './installed.ts';

const PICTURES = path.resolve('.cache/libreoffice');
const STEP = 40;

let screen: ChildProcess;
let display: string;
let calc: Calc;
const taken: string[] = [];

/** A screen of its own; the program that makes it says its number. */
async function startScreen(): Promise<string> {
  screen = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1280x800x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const numbers = screen.stdio[3] as NodeJS.ReadableStream;
  const number = await new Promise<string>((resolve, reject) => {
    numbers.once('data', (said: Buffer) => resolve(said.toString().trim()));
    screen.once('error', reject);
  });
  return `:${number}`;
}

const onScreen = (program: string, ...args: readonly string[]): string =>
  execFileSync(program, args, { env: { ...process.env, DISPLAY: display }, encoding: 'latin1' });

const later = (seconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, seconds * 1000));

/** Where SCREENSHOTS names a folder, a picture that is published goes there too. */
function picture(name: string, published?: string): void {
  const file = path.join(PICTURES, `${name}.png`);
  onScreen('import', '-window', 'root', '-colors', '64', file);
  taken.push(name);
  const assets = process.env['SCREENSHOTS'];
  if (assets !== undefined && published !== undefined) copyFileSync(file, path.join(assets, `${published}.png`));
}

/** The program shows things in its time; looks until two glances are alike, or for a while where a caret blinks. */
async function settled(): Promise<void> {
  let before = '';
  for (let glance = 0; glance < 12; glance++) {
    await later(0.5);
    const now = onScreen('import', '-window', 'root', '-resize', '160x100', '-depth', '8', 'gray:-');
    if (now === before) return;
    before = now;
  }
}

const type = (text: string): string => onScreen('xdotool', 'type', '--delay', String(STEP), text);
const press = (...keys: readonly string[]): string => onScreen('xdotool', 'key', ...keys);

beforeAll(async () => {
  rmSync(PICTURES, { recursive: true, force: true });
  mkdirSync(PICTURES, { recursive: true });
  display = await startScreen();
  calc = await startCalc({ window: true, environment: { DISPLAY: display, SAL_USE_VCLPLUGIN: 'gen' } });
  await calc.open('d');
  await calc.fill('d', 'A1', [
    ['diameter', 'length'],
    [3.5, 12],
    [4, 'long'],
  ]);
  await calc.do('select', { document: 'd', address: 'C2' });
  onScreen('xdotool', 'search', '--sync', '--onlyvisible', '--name', 'Calc', 'windowfocus', '--sync');
});
afterAll(async () => {
  await calc.end();
  screen.kill();
  const figures = taken.map(
    (name) => `<figure><img src="${name}.png" alt=""><figcaption>${name}</figcaption></figure>`,
  );
  writeFileSync(
    path.join(PICTURES, 'index.html'),
    `<!doctype html><meta charset="utf-8"><title>Rodsheet in LibreOffice Calc</title>\n${figures.join('\n')}\n`,
  );
});

describe('Calc in a window', () => {
  it('completes the name of a function as it is typed, with its help, and calculates it', async () => {
    type('=burn.pin.oxy');
    await settled();
    picture('1 a function is completed as it is typed');
    press('Return');
    type('A2;B2)');
    await settled();
    picture('2 its arguments are named');
    press('Return');
    await expect.poll(async () => (await calc.cell('d', 'C2')).formula).toBe('=BURN.PIN.OXYGEN(A2;B2)');
    expect((await calc.cell('d', 'C2')).error).toBe(0);
  });

  it('says in the status bar why the selected cell failed', async () => {
    await calc.put('d', { C3: '=BURN.PIN.OXYGEN(A3;B3)' });
    await calc.do('select', { document: 'd', address: 'C3' });
    await later(3);
    await settled();
    picture('3 the status bar says why a cell failed', 'libreoffice');
  });

  it('has the functions in its wizard', async () => {
    await calc.do('select', { document: 'd', address: 'C2' });
    press('ctrl+F2');
    onScreen('xdotool', 'search', '--sync', '--onlyvisible', '--name', 'Function Wizard');
    await settled();
    picture('4 the function wizard');
    press('Escape');
    await settled();
  });

  it('has the menu Rodsheet', async () => {
    press('alt+r');
    await settled();
    picture('5 the menu');
    press('Escape');
    await settled();
  });

  it('prints a plan to PDF', async () => {
    await calc.put('d', { 'A6:N7': '=BURN.PIN.PLAN(A2:A2;B2:B2)' });
    const file = path.join(PICTURES, 'plan.pdf');
    await calc.save('d', file);
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    expect(text).toContain('3/8 x 36');
  });
});
