import { checkWorkbook, type Check } from '../../check/check.ts';
import { readFormula } from '../../formula/read-formula.ts';
import { checkedWorkbook } from '../../check/saved.ts';
import type { CheckedWorkbook, Recalculated } from '../../check/workbook.ts';
import { isCellError } from '../../catalogue/cell.ts';
import { functionNames } from '../../engine/headless.ts';
import { readWorkbook } from '../../files/xlsx/read-workbook.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { isVersionOnly, placeName as namedPlace } from '../recheck/reasons.ts';
import { recheck } from '../recheck/recheck.ts';
import { showChange } from '../recheck/show-value.ts';

export interface CheckedFile {
  readonly workbook: CheckedWorkbook;
  readonly check: Check;
  /** Formulas of ours that are not calculated here as in the host, so that nothing is said of their values. */
  readonly kept: number;
  readonly macros: boolean;
}

/** Reads a workbook, calculates it anew and looks through it. Throws UnreadableFile. */
export async function checkFile(file: Uint8Array): Promise<CheckedFile> {
  const saved = readWorkbook(file);
  const workbook = checkedWorkbook(saved, hostFunctions, new Set(functionNames));
  const { macros } = saved;
  // A recalculation refuses a workbook with nothing of ours in it.
  const isOurs = workbook.sheets.some(({ cells }) =>
    cells.some(
      ({ formula }) => formula !== undefined && /BURN/i.test(formula) && readFormula(formula).calls.length > 0,
    ),
  );
  if (!isOurs) return { workbook, check: { formulas: [], findings: [], cautions: [] }, kept: 0, macros };
  const { cells, compared, otherAssumptions } = await recheck(file);
  const checked = compared.filter((c) => c.formula.ours && !isVersionOnly(c.formula));
  const recalculated = checked.flatMap(({ formula, sheet, row, column, before, after, status }, i): Recalculated[] => {
    const of = { sheet: formula.sheet, row: formula.cell.row, column: formula.cell.column };
    const at = { sheet, row, column, of };
    if (status === 'kept') return [];
    if (isCellError(after)) return [{ ...at, is: 'error', text: after.message || after.error }];
    if (status !== 'moved') return [];
    const why = cells[i]?.why;
    return [
      { ...at, is: 'moved', text: `${showChange(before, after)}  ${why?.kind ?? 'unknown'}: ${why?.text ?? ''}` },
    ];
  });
  const others = otherAssumptions.flatMap(({ place, departures }): Recalculated[] => {
    const c = compared.find((each) => namedPlace(saved, each.sheet, each.row, each.column) === place);
    const at = c && { sheet: c.sheet, row: c.row, column: c.column };
    const now = departures.length === 0 ? 'none departs from the defaults now' : departures.join(', ');
    return at ? [{ ...at, of: at, is: 'other assumptions', text: `same version, other assumptions: ${now}` }] : [];
  });
  return {
    workbook,
    check: checkWorkbook(workbook, [...recalculated, ...others]),
    kept: checked.filter((c) => c.status === 'kept').length,
    macros,
  };
}
