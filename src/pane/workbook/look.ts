/** What looks through a workbook: fetched once somebody asks for it, since few do. */
import { checkWorkbook, type Check } from '../../check/check.ts';
import type { CheckedWorkbook } from '../../check/workbook.ts';
import type { SheetPort } from '../port.ts';
import { readForCheck, recalculatedFor } from './read-workbook.ts';

export interface Looked {
  readonly workbook: CheckedWorkbook;
  readonly check: Check;
}

export async function lookThrough(
  port: Pick<SheetPort, 'read' | 'formulas'>,
  progress: (done: number, of: number) => void,
): Promise<Looked> {
  const formulas = (await port.formulas?.all()) ?? [];
  const workbook = await readForCheck(formulas, port);
  const again = await recalculatedFor(workbook, formulas, port, progress);
  return { workbook, check: checkWorkbook(workbook, again) };
}
