/**
 * The functions in LibreOffice Calc against the same calls in this process: 5,000 single cells, and a plan of 10,000 rows.
 * Calc is driven from outside; what a round trip of the driver takes by itself is told too.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { Calc } from '../libreoffice/program/calc.ts';
import { profileWith } from '../libreoffice/program/profile.ts';

const SINGLE = 5_000;
const ROWS = 10_000;
const TIMES = 3;
/** Sizes as they are measured: diameters in eighths of an inch, lengths in quarters; no two pins of the list alike. */
const sizes = (i: number): readonly [number, number] => [
  2 + (i % 41) / 8 + Math.floor(i / 3157) / 1000,
  5 + (i % 77) / 4,
];
const OXYGEN = hostFunctions.find((f) => f.name === 'BURN.PIN.OXYGEN')!;
const PLAN = hostFunctions.find((f) => f.name === 'BURN.PIN.PLAN')!;

const median = (xs: readonly number[]): number => xs.toSorted((a, b) => a - b)[Math.floor(xs.length / 2)] ?? NaN;
const line = (what: string, figure: string): void => console.log(`${what.padEnd(44)} ${figure}`);

async function times(run: (time: number) => number | Promise<number>): Promise<number> {
  const found: number[] = [];
  for (let i = 0; i < TIMES; i++) found.push(await run(i));
  return median(found);
}

function here(work: () => unknown): number {
  const start = performance.now();
  work();
  return (performance.now() - start) / 1000;
}

async function main(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-bench-'));
  const made = (await import(pathToFileURL(path.resolve('src/libreoffice/package.mjs')).href)) as {
    readonly extension: () => Promise<{ readonly archive: Buffer }>;
  };
  const file = path.join(folder, 'rodsheet.oxt');
  writeFileSync(file, (await made.extension()).archive);
  const calc = await Calc.start(profileWith(file));
  try {
    await calc.open('d');
    await calc.put('d', { A1: '=BURN.PIN.OXYGEN(3.5;12)' });

    const given = Array.from({ length: SINGLE }, (_, i) => sizes(i));
    const own = await times(() => here(() => given.forEach(([d, l]) => OXYGEN.call([d, l]))));
    const cells = await times(
      (i) =>
        calc.do('column', {
          document: 'd',
          address: `${'BCD'[i] ?? ''}1:${'BCD'[i] ?? ''}${SINGLE}`,
          formula: '=BURN.PIN.OXYGEN(%r;%r)',
          rows: SINGLE,
          arguments: given,
        }) as Promise<number>,
    );
    const plain = await times(
      (i) =>
        calc.do('column', {
          document: 'd',
          address: `${'EFG'[i] ?? ''}1:${'EFG'[i] ?? ''}${SINGLE}`,
          formula: '=SQRT(%r*%r)',
          rows: SINGLE,
          arguments: given,
        }) as Promise<number>,
    );
    line(`${SINGLE} cells, in this process`, `${own.toFixed(2)} s`);
    line(`${SINGLE} cells, in Calc`, `${cells.toFixed(2)} s, ${(cells / own).toFixed(1)} times as long`);
    line(`${SINGLE} cells with SQRT, in Calc`, `${plain.toFixed(2)} s`);

    const list = Array.from({ length: ROWS }, (_, i) => sizes(i));
    await calc.open('plan');
    await calc.fill('plan', 'A1', list);
    const [diameters, lengths] = [list.map(([d]) => [d]), list.map(([, l]) => [l])];
    const alone = await times(() => here(() => PLAN.call([diameters, lengths])));
    const columns = PLAN.call([[[3.5]], [[12]]])[0]!.length;
    const last = `${String.fromCharCode(64 + Math.floor((3 + columns) / 26))}${String.fromCharCode(65 + ((3 + columns) % 26))}`;
    const planned = await times(
      () =>
        calc.do('timed', {
          document: 'plan',
          address: `E1:${last.replace('@', '')}${ROWS + 1}`,
          formula: `=BURN.PIN.PLAN(A1:A${ROWS};B1:B${ROWS})`,
        }) as Promise<number>,
    );
    line(`plan of ${ROWS} rows, in this process`, `${alone.toFixed(2)} s`);
    line(`plan of ${ROWS} rows, in Calc`, `${planned.toFixed(2)} s, ${(planned / alone).toFixed(1)} times as long`);
  } finally {
    await calc.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

void main();
