/** What looks through a workbook: fetched once somebody asks for it, since few do. */
import { checkWorkbook } from '../../check/check.ts';
import type { Looked, SheetPort } from '../port.ts';
import { readForCheck, recalculatedFor } from './read-workbook.ts';

export async function lookThrough(
  port: Pick<SheetPort, 'read' | 'formulas'>,
  progress: (done: number, of: number) => void,
): Promise<Looked> {
  const formulas = (await port.formulas?.all()) ?? [];
  const workbook = await readForCheck(formulas, port);
  const again = await recalculatedFor(workbook, formulas, port, progress);
  return { workbook, check: checkWorkbook(workbook, again) };
}
