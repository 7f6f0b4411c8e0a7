import { isCellError } from '../../catalogue/cell.ts';
import { Assumptions } from '../../core/assumptions/assumptions.ts';
import { changedDefaults } from '../../core/assumptions/changed-defaults.ts';
import { changesAfter, keptVersions, registryAsOf, versionAsOf, type Change } from '../../core/assumptions/history.ts';
import { versionIn } from '../../core/version-in.ts';
import type { Cell } from '../../sheet/host-function.ts';
import { hostFunctionsWith } from '../../sheet/host-functions.ts';
import { addressOf, sheetPrefix } from '../../files/xlsx/address.ts';
import type { SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import { compare, type Compared } from './compare.ts';
import type { PlannedFormula } from './plan.ts';
import { keyOf, Readers } from './readers.ts';
import { run } from './run.ts';
import { showChange } from './show-value.ts';
import type { FormulaReader } from '../../files/xlsx/stored-formula.ts';

/** Why a cell moved, as far as the workbook can tell. */
export interface Why {
  readonly kind: 'assumption' | 'version' | 'input' | 'unknown';
  readonly text: string;
}

/** Versions that a workbook says it was calculated with. */
export interface SavedVersion {
  readonly place: string;
  readonly version: string;
}

export const VERSION_FUNCTION = 'BURN.VERSION';
const MOST_TRIED = 4;
const MOST_NAMED = 3;

export const isVersionOnly = ({ read }: PlannedFormula): boolean =>
  read.ours.length > 0 && read.ours.every((name) => name === VERSION_FUNCTION);

/** The versions saved beside the results, by BURN.VERSION. */
export function savedVersions(workbook: SavedWorkbook, formulas: readonly PlannedFormula[]): readonly SavedVersion[] {
  return formulas.flatMap(({ read, cell, sheet }) => {
    if (!read.ours.includes(VERSION_FUNCTION) || typeof cell.value !== 'string') return [];
    const version = versionIn(cell.value);
    return version === undefined ? [] : [{ version, place: placeName(workbook, sheet, cell.row, cell.column) }];
  });
}

export function placeName(workbook: SavedWorkbook, sheet: number, row: number, column: number): string {
  return `${sheetPrefix(workbook.sheets[sheet]?.name ?? '')}${addressOf(row, column)}`;
}

/** The functions with the defaults of a version. */
export function functionsOf(version: string, history: readonly Change[]): ReturnType<typeof hostFunctionsWith> {
  return hostFunctionsWith(Assumptions.fromRegistry(registryAsOf(version, history), version));
}

interface Told {
  readonly workbook: SavedWorkbook;
  readonly formulas: readonly PlannedFormula[];
  readonly reader: FormulaReader;
  readonly compared: readonly Compared[];
  readonly versions: readonly SavedVersion[];
  /** The version recalculated with. */
  readonly version: string;
  readonly history: readonly Change[];
}

/**
 * Why each moved cell moved. What can be told: the workbook keeps the version it was calculated with where BURN.VERSION
 * stands in it. If the defaults of that version give the saved value, a default changed. If not, and a formula before
 * it moved, it follows that one. If not, and the calculation itself changed since, either that or an input is the cause.
 * With the same version only an input can be.
 */
export async function reasons(told: Told): Promise<ReadonlyMap<Compared, Why>> {
  const moved = told.compared.filter((c) => c.status === 'moved' && c.formula.ours);
  const found = new Map<Compared, Why>();
  if (moved.length === 0) return found;
  for (const version of triedVersions(told)) {
    const asThen = await valuesAsOf(version, told);
    const text = `defaults changed since ${version}: ${changedInWords(version, told.version, told.history)}`;
    for (const c of moved)
      if (!found.has(c) && asThen.has(keyOf(c.sheet, c.row, c.column))) found.set(c, { kind: 'assumption', text });
  }
  const before = followed(told);
  for (const c of moved) if (!found.has(c)) found.set(c, otherReason(c, before.get(c.formula), told));
  return found;
}

/** Versions whose defaults may explain a change: those the workbook names, or, where it names none, the latest kept ones. */
function triedVersions({ versions, version, history }: Told): readonly string[] {
  const named = versions.map((v) => versionAsOf(v.version, history)).filter((v) => v !== undefined);
  const tried = versions.length > 0 ? named : [...keptVersions(history)].reverse();
  return [...new Set(tried)].filter((v) => v !== version).slice(0, MOST_TRIED);
}

/** Cells that have their saved values with the defaults of a version. */
async function valuesAsOf(
  version: string,
  { workbook, formulas, reader, history }: Told,
): Promise<ReadonlySet<string>> {
  const { results } = await run(workbook, formulas, reader, functionsOf(version, history));
  return new Set(
    compare(workbook, formulas, results)
      .filter((c) => c.status === 'same')
      .map((c) => keyOf(c.sheet, c.row, c.column)),
  );
}

/** The first of the changed defaults, in a line. */
function changedInWords(from: string, to: string, history: readonly Change[]): string {
  const changed = changedDefaults(from, to, history).map(({ name, before, after }) => `${name} ${before} -> ${after}`);
  const more = changed.length - MOST_NAMED;
  return [...changed.slice(0, MOST_NAMED), ...(more > 0 ? [`${more} more`] : [])].join(', ');
}

interface Before {
  readonly place: string;
  readonly before: Cell;
  readonly after: Cell;
}

/** For each formula, a cell it reads that changed. */
function followed({ workbook, formulas, compared }: Told): ReadonlyMap<PlannedFormula, Before> {
  const readers = new Readers(formulas);
  const found = new Map<PlannedFormula, Before>();
  for (const { formula, sheet, row, column, before, after, status } of compared) {
    if (status === 'same') continue;
    for (const reading of readers.of(sheet, row, column)) {
      if (reading !== formula && !found.has(reading))
        found.set(reading, { place: placeName(workbook, sheet, row, column), before, after });
    }
  }
  return found;
}

/** Codes that a program without the add-in, or one still waiting for it, saves in place of a result. */
const NO_RESULT = ['#NAME?', '#BUSY!', '#CONNECT!', '#GETTING_DATA', '#BLOCKED!'];

function otherReason(
  { formula, before: saved }: Compared,
  before: Before | undefined,
  { versions, version, history }: Told,
): Why {
  if (isCellError(saved) && NO_RESULT.includes(saved.error))
    return {
      kind: 'unknown',
      text: 'it was saved where the add-in was not there, so there is no result to compare with',
    };
  if (before)
    return { kind: 'input', text: `${before.place} before it changed: ${showChange(before.before, before.after)}` };
  if (formula.read.volatile.length > 0)
    return { kind: 'input', text: `${formula.read.volatile.join(', ')} in it changes by itself` };
  const stale = 'a cell it reads, or the formula, was changed after it was last calculated';
  if (versions.length === 0)
    return {
      kind: 'unknown',
      text: 'version or input: no BURN.VERSION stands in the workbook to tell which version it was calculated with',
    };
  const others = versions.filter((v) => v.version !== version);
  if (others.length === 0) return { kind: 'input', text: stale };
  const oldest = others.map((v) => v.version).sort()[0] ?? version;
  if (versionAsOf(oldest, history) === undefined || oldest > version)
    return { kind: 'unknown', text: `version or input: version ${oldest} is not kept here` };
  const changes = changesAfter(oldest, history)
    .filter((c) => c.version <= version)
    .flatMap((c) => c.calculation.map((what) => `${what} (${c.version})`));
  if (changes.length > 0)
    return { kind: 'version', text: `since ${oldest} the calculation changed: ${changes.join(', ')}; or ${stale}` };
  return { kind: 'input', text: stale };
}
