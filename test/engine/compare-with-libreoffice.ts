/**
 * What ordinary formulas come to here and in LibreOffice, which calculates them when it opens a workbook without saved
 * values. Run by itself (`npx tsx test/engine/compare-with-libreoffice.ts`) it lists what differs, and why.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import { addressOf } from '../../src/files/xlsx/address.ts';
import { newWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { storedForm } from '../../src/files/xlsx/stored-form.ts';
import { escaped } from '../../src/files/xlsx/xml.ts';
import { newArchive, openArchive } from '../../src/files/xlsx/zip.ts';
import type { Cell } from '../../src/sheet/host-function.ts';
import { ARRAYS, DIFFERENCES, FORMULAS, ROWS } from './compared-formulas.ts';

export const SOFFICE = ['/usr/bin/soffice', '/usr/bin/libreoffice'].find((p) => existsSync(p));

export interface Compared {
  readonly formula: string;
  readonly array: boolean;
  readonly here: readonly (readonly Cell[])[];
  readonly there: readonly (readonly Cell[])[];
  readonly agree: boolean;
}

type Grid = readonly (readonly Cell[])[];

interface Placed {
  readonly formula: string;
  readonly array: boolean;
  readonly row: number;
  readonly column: number;
}

/** Single formulas stand in column H below the cells, arrays in column AA, with room for each. */
const FIRST_ROW = 20;
const SINGLE = 7;
const MANY = 26;
const ROOM = 8;

const PLACED: readonly Placed[] = [
  ...FORMULAS.map((formula, i) => ({ formula, array: false, row: FIRST_ROW + i, column: SINGLE })),
  ...ARRAYS.map((formula, i) => ({ formula, array: true, row: FIRST_ROW + ROOM * i, column: MANY })),
];

/** Every formula of the lists. */
export async function compared(): Promise<readonly Compared[]> {
  const cells = Object.fromEntries(PLACED.map((p) => [addressOf(p.row, p.column), `=${p.formula}`]));
  const size = [FIRST_ROW + Math.max(FORMULAS.length, ROOM * ARRAYS.length) + ROOM, MANY + ROOM] as const;
  const ours = await calculateWorkbook({ sheets: [{ name: 'S', rows: ROWS, cells, size }] }, []);
  const here = PLACED.map((p): Grid => {
    const filled = ours.spilledAt(0, p.row, p.column);
    return p.array ? filled : [[filled[0]?.[0] ?? null]];
  });
  const theirs = inLibreOffice(await withoutValues(here));
  return PLACED.map(({ formula, array, row, column }, i) => {
    const there = here[i]!.map((line, r) => line.map((_, c) => theirs(row + r, column + c)));
    return { formula, array, here: here[i]!, there, agree: alike(here[i]!, there) };
  });
}

/** The workbook as the host would store it, without values. */
async function withoutValues(here: readonly Grid[]): Promise<Buffer> {
  const workbook = { sheets: [{ name: 'S', rows: ROWS }], title: 'Formulas' };
  const archive = openArchive(newWorkbook(workbook, await calculateWorkbook(workbook, [])));
  const byRow = new Map<number, string>();
  PLACED.forEach(({ formula, array, row, column }, i) => {
    const at = addressOf(row, column);
    const stored = storedForm(formula);
    const to = addressOf(row + here[i]!.length - 1, column + here[i]![0]!.length - 1);
    const kind = array || stored.array ? ` t="array" ref="${at}:${array ? to : at}"` : '';
    byRow.set(row, `${byRow.get(row) ?? ''}<c r="${at}"><f${kind}>${escaped(stored.text)}</f></c>`);
  });
  const rows = [...byRow].sort(([a], [b]) => a - b).map(([row, text]) => `<row r="${row + 1}">${text}</row>`);
  const sheet = 'xl/worksheets/sheet1.xml';
  const parts = archive.names.map((name): [string, Uint8Array] => {
    const text = Buffer.from(archive.read(name)).toString();
    return [name, Buffer.from(name === sheet ? text.replace('</sheetData>', `${rows.join('')}</sheetData>`) : text)];
  });
  return Buffer.from(newArchive(new Map(parts)));
}

/** The values that it gives the cells. */
function inLibreOffice(workbook: Buffer): (row: number, column: number) => Cell {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
  try {
    const file = path.join(folder, 'formulas.xlsx');
    writeFileSync(file, workbook);
    const profile = `-env:UserInstallation=file://${folder}/profile`;
    const args = [profile, '--headless', '--convert-to', 'xlsx', '--outdir', path.join(folder, 'out'), file];
    execFileSync(SOFFICE!, args, { stdio: 'pipe' });
    const read = readWorkbook(readFileSync(path.join(folder, 'out/formulas.xlsx')));
    const values = new Map((read.sheets[0]?.cells ?? []).map((c) => [addressOf(c.row, c.column), c.value]));
    return (row, column) => values.get(addressOf(row, column)) ?? null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const alike = (one: Grid, other: Grid): boolean =>
  one.every((line, r) => line.every((cell, c) => agree(cell, other[r]?.[c] ?? null)));

function agree(one: Cell, other: Cell): boolean {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));
  if (typeof one === 'object' && one !== null)
    return typeof other === 'object' && other !== null && one.error === other.error;
  return (one ?? '') === (other ?? '');
}

if (process.argv[1] === import.meta.filename) {
  const all = await compared();
  const differing = all.filter((c) => !c.agree);
  for (const { formula, here, there } of differing)
    console.log(
      `=${formula}\n  here ${JSON.stringify(here)}, there ${JSON.stringify(there)}\n  ${DIFFERENCES[formula] ?? 'not explained'}`,
    );
  console.log(
    `${all.length} formulas, ${all.filter((c) => c.array).length} of them arrays; ${differing.length} differ`,
  );
}
