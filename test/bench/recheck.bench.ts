/**
 * Recheck of saved workbooks: 2,000 formulas of ours one by one, each with the whole list of assumptions, and plans of
 * 10,000 pins, spilled by one formula and with two formulas of their own in every row.
 *
 * Each workbook is made as the host saves it, then read, recalculated and compared as the command does, and written anew
 * with every result changed. Limits: 5 s and 15 s.
 */
import { recheck } from '../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../src/cli/recheck/refresh.ts';
import { newWorkbook, type NewSheet } from '../../src/files/xlsx/new-workbook.ts';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { call } from '../../src/sheet/call.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { CellContent } from '../../src/sheet/described-workbook.ts';

const diameterOf = (i: number): number => 2 + (i % 97) / 20;
const lengthOf = (i: number): number => 5 + (i % 211) / 11;

async function made(sheets: readonly NewSheet[]): Promise<Buffer> {
  const workbook = { sheets, title: 'A benchmark' };
  return Buffer.from(newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost))));
}

async function measured(label: string, file: Buffer, limit: number): Promise<void> {
  const start = performance.now();
  const result = await recheck(file);
  const read = performance.now();
  const written = refreshed(result);
  const end = performance.now();
  const same = result.cells.filter((c) => c.status === 'same').length;
  const seconds = (read - start) / 1000;
  console.log(
    `${label.padEnd(36)} ${seconds.toFixed(2)} s (limit ${limit} s${seconds > limit ? ', EXCEEDED' : ''}), ${result.formulas} formulas, ${result.cells.length} cells, ${same} the same, ` +
      `${(file.length / 1e6).toFixed(2)} MB; written in ${((end - read) / 1000).toFixed(2)} s, ${(written.length / 1e6).toFixed(2)} MB; peak ${(process.resourceUsage().maxRSS / 1e3).toFixed(0)} MB`,
  );
  if (seconds > limit || same !== result.cells.length) process.exitCode = 1;
}

async function main(): Promise<void> {
  const listing = call(findFunction('BURN.ASSUMED')!, []) as readonly (readonly CellContent[])[];
  const assume = `Assumptions!A$1:F$${listing.length}`;
  const rows = (n: number, last: string): CellContent[][] =>
    Array.from({ length: n }, (_, i) => [
      diameterOf(i),
      lengthOf(i),
      `=BURN.PIN.OXYGEN(A${i + 1},B${i + 1}${last})`,
      `=BURN.PIN.RODS(A${i + 1},B${i + 1}${last})`,
    ]);
  const pins = rows(1000, `,,,,${assume}`);
  const list = await made([
    { name: 'Pins', rows: [...pins, [null, null, '=SUM(C1:C1000)', '=SUM(D1:D1000)']] },
    { name: 'Assumptions', rows: listing },
  ]);
  await measured('2,000 formulas, one pin each', list, 5);

  const sizes = Array.from({ length: 10_000 }, (_, i): CellContent[] => [diameterOf(i), lengthOf(i)]);
  const plan = await made([
    { name: 'Pins', rows: sizes },
    { name: 'Plan', rows: [['=BURN.PIN.PLAN(Pins!A1:A10000,Pins!B1:B10000)']] },
  ]);
  await measured('a plan of 10,000 rows, one formula', plan, 15);

  const each = await made([{ name: 'Pins', rows: rows(10_000, '') }]);
  await measured('10,000 rows, two formulas a row', each, 15);
}

void main();
