import { findIn } from '../../src/check/check.ts';
import { placesOf } from '../../src/check/places.ts';
import { checkedWorkbook } from '../../src/check/saved.ts';
import type { CheckedWorkbook, Finding } from '../../src/check/workbook.ts';
import { checkFile } from '../../src/cli/check/check-file.ts';
import { functionNames } from '../../src/engine/headless.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { readAddress } from '../../src/files/xlsx/address.ts';
import { utf8 } from '../../src/files/xlsx/bytes.ts';
import { editSheet } from '../../src/files/xlsx/edit-sheet.ts';
import { Chance } from '../hostile/chance.ts';
import { makeWorkbook } from '../files/xlsx/make.ts';
import { makeFaulty, makeJob, sheetsOf, type Fault, type Made } from './seeded-workbooks.ts';

/** The file of a made workbook, with what was not calculated again. */
export async function fileOf(made: Made): Promise<Uint8Array> {
  const file = await makeWorkbook(sheetsOf(made), made.names);
  const { stale, older } = made;
  const place = stale ?? older;
  if (!place) return file;
  const read = readWorkbook(file);
  const sheet = read.sheets.find((s) => s.name === place.sheet)!;
  const at = readAddress(place.cell)!;
  const value = sheet.cells.find((c) => c.row === at.row && c.column === at.column)?.value;
  const changed = stale ? Number(value) * 1.2 + 1 : String(value).replace(/\d{4}\.\d{2}\.\d{2}/, '2026.03.02');
  return read.archive.with(new Map([[sheet.part, utf8(editSheet(sheet, [{ ...at, value: changed }]))]]));
}

export interface Faulty {
  readonly seed: number;
  readonly name: string;
  readonly fault: Fault;
  readonly found: boolean;
  readonly findings: readonly string[];
}

interface Tried {
  readonly workbook: CheckedWorkbook;
  readonly findings: readonly Finding[];
}

/** Looks through a file; calculates it anew where that is asked for, which takes its time. */
async function tried(file: Uint8Array, again: boolean): Promise<Tried> {
  if (again) {
    const { workbook, check } = await checkFile(file);
    return { workbook, findings: check.findings };
  }
  const workbook = checkedWorkbook(readWorkbook(file), hostFunctions, new Set(functionNames));
  return { workbook, findings: findIn(workbook) };
}

const inWords = ({ workbook, findings }: Tried): readonly string[] =>
  findings.map((f) => `${placesOf(workbook, f.cells)} ${f.kind}: ${f.text}`);

/** Whether a fault is found at its cell, under its kind. What moved is known by a recalculation alone. */
export async function tryFaulty(seed: number): Promise<Faulty> {
  const { job, fault, name } = makeFaulty(seed);
  const it = await tried(await fileOf(job.made), fault.kind === 'moved');
  const at = readAddress(fault.cell)!;
  const found = it.findings.some(
    (f) =>
      f.kind === fault.kind &&
      f.cells.some(
        (c) => it.workbook.sheets[c.sheet]?.name === fault.sheet && c.row === at.row && c.column === at.column,
      ),
  );
  return { seed, name, fault, found, findings: inWords(it) };
}

/** What is found in a workbook without a fault. */
export const tryClean = async (seed: number, again = false): Promise<readonly string[]> =>
  inWords(await tried(await fileOf(makeJob(new Chance(seed)).made), again));
