import { isBlankCell, isCellError } from '../../catalogue/cell.ts';
import { HISTORY, keptVersions, versionAsOf, type Change } from '../../core/assumptions/history.ts';
import { CALCULATION_VERSION } from '../../core/version.ts';
import { versionIn } from '../../core/version-in.ts';
import type { Argument, Cell, HostFunction } from '../../sheet/host-function.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { addressOf } from '../../files/xlsx/address.ts';
import { readWorkbook } from '../../files/xlsx/read-workbook.ts';
import type { SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import { UnreadableFile } from '../../files/xlsx/unreadable.ts';
import { compare, type Compared } from './compare.ts';
import { planFormulas, type PlannedFormula } from './plan.ts';
import {
  functionsOf,
  isVersionOnly,
  placeName,
  reasons,
  savedVersions,
  VERSION_FUNCTION,
  type SavedVersion,
  type Why,
} from './reasons.ts';
import { run, type Ran, type Results } from './run.ts';
import { plainValue } from './show-value.ts';

export interface CheckedCell {
  readonly sheet: string;
  readonly cell: string;
  /** Our functions in its formula. */
  readonly functions: readonly string[];
  readonly status: Compared['status'];
  readonly before: Cell;
  readonly after: Cell;
  /** Of a moved cell. */
  readonly why?: Why;
  /** Of a broken or kept cell. */
  readonly message?: string;
}

export interface OtherCell {
  readonly place: string;
  readonly before: Cell;
  readonly after: Cell;
}

export interface Recheck {
  /** Cells with our functions and what they spill, in the order of the workbook. Cells of BURN.VERSION alone are told in `versions`. */
  readonly cells: readonly CheckedCell[];
  /** Formulas with our functions. */
  readonly formulas: number;
  readonly versions: readonly SavedVersion[];
  /** Cells of BURN.VERSION whose version is the same and whose assumptions are not, with what departs from the defaults now. */
  readonly otherAssumptions: readonly {
    readonly place: string;
    readonly before: string;
    readonly after: string;
    readonly departures: readonly string[];
  }[];
  /** Recalculated with the defaults of this version. */
  readonly version: string;
  /** What changed in the calculation itself since, and cannot be turned back. */
  readonly notTurnedBack: readonly string[];
  /** Cells of the sheet's own formulas that came out differently. */
  readonly others: readonly OtherCell[];
  /** Formulas of the sheet's own that keep their saved values, and why. */
  readonly kept: readonly { readonly place: string; readonly why: string }[];
  readonly macros: boolean;
  /** For writing. */
  readonly workbook: SavedWorkbook;
  readonly compared: readonly Compared[];
  readonly results: Results;
  readonly refusals: Ran['refusals'];
}

export interface RecheckOptions {
  /** A date or version whose defaults are used. */
  readonly asOf?: string | undefined;
  readonly history?: readonly Change[];
}

/** Recalculates a saved workbook and compares every cell of ours. Throws UnreadableFile. */
export async function recheck(file: Uint8Array, options: RecheckOptions = {}): Promise<Recheck> {
  const history = options.history ?? HISTORY;
  const version = chosenVersion(options.asOf, history);
  const workbook = readWorkbook(file);
  const handed = new Map<string, Argument>();
  const functions = functionsOf(version, history).map((f) => noting(f, handed));
  const { formulas, reader } = planFormulas(workbook, functions);
  const ours = formulas.filter((f) => f.ours);
  if (ours.length === 0) throw new UnreadableFile('there is no formula with a BURN function in it');
  const { results, refusals } = await run(workbook, formulas, reader, functions);
  const compared = compare(workbook, formulas, results);
  const versions = savedVersions(workbook, formulas);
  const checked = compared.filter((c) => c.formula.ours && !isVersionOnly(c.formula));
  const why = await reasons({
    workbook,
    formulas,
    reader,
    compared: compared.filter((c) => !isVersionOnly(c.formula)),
    versions,
    version,
    history,
  });
  return {
    cells: checked.map((c) => checkedCell(c, workbook, why.get(c))),
    formulas: ours.filter((f) => !isVersionOnly(f)).length,
    versions,
    version,
    otherAssumptions: compared.flatMap((c) => otherAssumptions(c, workbook, handed)),
    notTurnedBack: history
      .filter((c) => c.version > version)
      .flatMap((c) => c.calculation.map((what) => `${what} (${c.version})`)),
    others: compared
      .filter((c) => !c.formula.ours && c.status !== 'same')
      .map((c) => ({ place: placeName(workbook, c.sheet, c.row, c.column), before: c.before, after: c.after })),
    kept: formulas.flatMap((f: PlannedFormula) =>
      f.kept === undefined || f.ours
        ? []
        : [{ place: placeName(workbook, f.sheet, f.cell.row, f.cell.column), why: f.kept }],
    ),
    macros: workbook.macros,
    workbook,
    compared,
    results,
    refusals,
  };
}

/** BURN.VERSION, with a note of the assumptions that each of its results was given for. */
const noting = (f: HostFunction, handed: Map<string, Argument>): HostFunction =>
  f.name !== VERSION_FUNCTION
    ? f
    : {
        ...f,
        call: (args) => {
          const result = f.call(args);
          handed.set(plainValue(result[0]?.[0] ?? null), args[0]);
          return result;
        },
      };

/** What departs from the defaults now, where a cell of BURN.VERSION has the same version and another fingerprint than it was saved with. */
function otherAssumptions(
  { formula, before, after, status, sheet, row, column }: Compared,
  workbook: SavedWorkbook,
  handed: ReadonlyMap<string, Argument>,
): Recheck['otherAssumptions'] {
  if (status !== 'moved' || !isVersionOnly(formula) || typeof before !== 'string' || typeof after !== 'string')
    return [];
  const assume = [...handed].find(([result]) => after.includes(result));
  if (versionIn(before) !== versionIn(after) || !assume) return [];
  const [, ...rows] =
    hostFunctions.find((f) => f.name === 'BURN.ASSUME.DIFF')?.call([assume[1] ?? [[null, null]]]) ?? [];
  const departures = rows.flatMap(([name = null, value = null, , , unit = null, , standard = null]) =>
    isBlankCell(value)
      ? []
      : [
          `${plainValue(name)} ${[value, unit]
            .filter((part) => !isBlankCell(part))
            .map(plainValue)
            .join(' ')} (default ${plainValue(standard)})`,
        ],
  );
  return [{ place: placeName(workbook, sheet, row, column), before, after, departures }];
}

function chosenVersion(asOf: string | undefined, history: readonly Change[]): string {
  const newest = keptVersions(history).at(-1) ?? CALCULATION_VERSION;
  if (asOf === undefined) return newest;
  const version = versionAsOf(asOf, history);
  if (version !== undefined) return version;
  throw new UnreadableFile(
    /^\d{4}[.-]\d{2}[.-]\d{2}$/.test(asOf)
      ? `no version was in force at ${asOf}; the first that is kept is ${keptVersions(history)[0] ?? newest}`
      : `${asOf} is no date or version; give it as 2026-11-25 or 2026.11.25`,
  );
}

function checkedCell(c: Compared, workbook: SavedWorkbook, why: Why | undefined): CheckedCell {
  return {
    sheet: workbook.sheets[c.sheet]?.name ?? '',
    cell: addressOf(c.row, c.column),
    functions: [...new Set(c.formula.read.ours)],
    status: c.status,
    before: c.before,
    after: c.after,
    ...(why ? { why } : {}),
    ...(['broken', 'kept'].includes(c.status) && isCellError(c.after) ? { message: c.after.message } : {}),
  };
}
