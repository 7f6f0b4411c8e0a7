import { findIn } from '../../src/check/check.ts';
import { placesOf } from '../../src/check/places.ts';
import { checkedWorkbook } from '../../src/check/saved.ts';
import type { CheckedWorkbook, Finding } from '../../src/check/workbook.ts';
import { checkFile } from '../../src/cli/check/check-file.ts';
import { functionNames } from '../../src/engine/headless.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { readAddress } from '../../src/files/xlsx/address.ts';
import { Chance } from '../hostile/chance.ts';
import { fileOf } from './file-of.ts';
import { faultyTable, fileOfTables, tabledJob } from './seeded-tables.ts';
import { makeFaulty, makeJob, type Fault } from './seeded-workbooks.ts';

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
async function tryFile(seed: number, name: string, fault: Fault, file: Uint8Array): Promise<Faulty> {
  const it = await tried(file, fault.kind === 'moved');
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

export async function tryFaulty(seed: number): Promise<Faulty> {
  const { job, fault, name } = makeFaulty(seed);
  return tryFile(seed, name, fault, await fileOf(job.made));
}

export async function tryFaultyTable(seed: number): Promise<Faulty> {
  const { tabled, fault, name } = faultyTable(seed);
  return tryFile(seed, name, fault, await fileOfTables(tabled));
}

/** What is found in a workbook without a fault. */
export const tryClean = async (seed: number, again = false): Promise<readonly string[]> =>
  inWords(await tried(await fileOf(makeJob(new Chance(seed)).made), again));

export const tryCleanTable = async (seed: number, again = false): Promise<readonly string[]> =>
  inWords(await tried(await fileOfTables(tabledJob(seed)), again));
