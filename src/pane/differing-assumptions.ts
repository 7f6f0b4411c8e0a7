import type { Assumptions } from '../core/assumptions/assumptions.ts';
import {
  assumptionsIn,
  callsOf,
  differingUses,
  rangesToRead,
  type DifferingUses,
} from '../check/differing-assumptions.ts';
import type { SheetPort } from './port.ts';
import { resolveOperands } from './resolve-operands.ts';
import type { FormulaCell } from './unknown-name.ts';

/** Cells of the workbook behind the pane that read the same list and assume differently; reads a dozen ranges at most. */
export async function differingInSheets(
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read'>,
): Promise<readonly DifferingUses<FormulaCell>[]> {
  const calls = callsOf(formulas);
  const held = new Map<string, Assumptions | undefined>();
  for (const { assume, operand, cell } of rangesToRead(calls)) {
    const [read] = operand
      ? await resolveOperands([operand], (reference) => port.read(reference, cell.sheet, cell.address))
      : [];
    held.set(assume, read?.problem === undefined ? assumptionsIn(read?.argument) : undefined);
  }
  return differingUses(calls, held);
}
