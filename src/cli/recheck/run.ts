import { isCellError } from '../../catalogue/cell.ts';
import type { Cell, HostFunction } from '../../sheet/host-function.ts';
import type { SavedWorkbook } from '../../files/xlsx/saved-workbook.ts';
import type { PlannedFormula } from './plan.ts';
import { Readers } from './readers.ts';
import { recalculate, resultOf } from './recalculate.ts';
import type { FormulaReader } from '../../files/xlsx/stored-formula.ts';

export type Grid = readonly (readonly Cell[])[];
export type Results = ReadonlyMap<PlannedFormula, Grid>;

export interface Ran {
  readonly results: Results;
  /** Texts of the errors that functions of ours gave; any other error is the engine's. */
  readonly refusals: ReadonlySet<string>;
}

const MOST_ROUNDS = 4;

/**
 * Calculates the workbook, and again with the saved values of those formulas of the sheet's own that this engine
 * cannot do as the host does: functions it lacks, values of a range taken by place. Their saved values were
 * calculated by the host and stay good; the formulas of ours that read them can then be recalculated.
 */
export async function run(
  workbook: SavedWorkbook,
  formulas: readonly PlannedFormula[],
  reader: FormulaReader,
  functions: readonly HostFunction[],
): Promise<Ran> {
  const readers = new Readers(formulas);
  const refusals = new Set<string>();
  const noting = functions.map((f) => notingErrors(f, refusals));
  for (let round = 1; ; round++) {
    const calculated = await recalculate(workbook, formulas, reader, noting);
    const results: Results = new Map(
      formulas.flatMap((f): [PlannedFormula, Grid][] => (f.kept === undefined ? [[f, resultOf(calculated, f)]] : [])),
    );
    if (!keepMore(formulas, results, readers, round === MOST_ROUNDS) || round > MOST_ROUNDS)
      return { results, refusals };
  }
}

function notingErrors(f: HostFunction, refusals: Set<string>): HostFunction {
  return {
    ...f,
    call: (args) => {
      const result = f.call(args);
      for (const cell of result.flat()) if (isCellError(cell)) refusals.add(cell.message);
      return result;
    },
  };
}

/** Marks formulas to be kept; whether there were any. */
function keepMore(formulas: readonly PlannedFormula[], results: Results, readers: Readers, all: boolean): boolean {
  const becauseOfOurs = readingErrors(
    formulas.filter((f) => f.ours),
    results,
    readers,
  );
  const failing = formulas.filter(
    (f) => !f.ours && f.kept === undefined && !becauseOfOurs.has(f) && whyNotDone(f, results.get(f)) !== undefined,
  );
  // What fails only because it reads another that fails may be right once that one is kept.
  const following = all ? new Set<PlannedFormula>() : readingErrors(failing, results, readers);
  const roots = failing.filter((f) => !following.has(f));
  for (const f of roots.length > 0 ? roots : failing) f.kept = whyNotDone(f, results.get(f));
  return failing.length > 0;
}

function whyNotDone({ cell }: PlannedFormula, result: Grid | undefined): string | undefined {
  const first = result?.[0]?.[0] ?? null;
  if (
    cell.formula?.kind === 'plain' &&
    ((result?.length ?? 0) > 1 || (result?.[0]?.length ?? 0) > 1 || (isCellError(first) && first.error === '#SPILL!'))
  ) {
    return 'it takes one value of a range by its place';
  }
  return isCellError(first) && !isCellError(cell.value) ? first.message || first.error : undefined;
}

/** Formulas that read an error of one of these, at any remove. */
function readingErrors(
  from: readonly PlannedFormula[],
  results: Results,
  readers: Readers,
): ReadonlySet<PlannedFormula> {
  const found = new Set<PlannedFormula>();
  const open = from.filter((f) => results.get(f)?.some((row) => row.some(isCellError)));
  for (let f = open.pop(); f; f = open.pop()) {
    const { sheet, cell } = f;
    results.get(f)?.forEach((row, r) =>
      row.forEach((value, c) => {
        if (!isCellError(value)) return;
        for (const reading of readers.of(sheet, cell.row + r, cell.column + c)) {
          if (reading === f || found.has(reading)) continue;
          found.add(reading);
          open.push(reading);
        }
      }),
    );
  }
  return found;
}
