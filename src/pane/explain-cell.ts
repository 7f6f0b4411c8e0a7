import { findFunction, CATALOGUE } from '../catalogue/catalogue.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { findCalls, type FormulaCall } from '../formula/formula-calls.ts';
import type { SelectedCell, SheetPort } from './port.ts';
import { isUnread, readCall, type ReadCall } from './read-call.ts';
import { resolveOperands, type ReadReference } from './resolve-operands.ts';
import * as texts from './texts.ts';

/** A call that names no function of ours. */
export interface UnknownCall {
  readonly text: string;
  readonly problem: string;
}

/** The selected cell with the calls in its formula, or in the formula it was spilled from. */
export interface ReadCell {
  readonly cell: SelectedCell;
  readonly formula: string;
  readonly calls: readonly (ReadCall | UnknownCall)[];
}

export const isKnown = (call: ReadCall | UnknownCall): call is ReadCall => 'declaration' in call;

/**
 * Reads the cells that the calls in a cell's formula refer to, and calculates them. A call that stands in `before`
 * with the same arguments is taken from there, so that moving through a long list calculates it once.
 */
export async function readSelectedCell(
  cell: SelectedCell,
  port: Pick<SheetPort, 'read' | 'calculateCall'>,
  before?: ReadCell,
): Promise<ReadCell> {
  const formula = cell.spill?.formula ?? cell.formula;
  const address = cell.spill?.from ?? cell.address;
  const read = (reference: string): ReturnType<SheetPort['read']> => port.read(reference, cell.sheet, address);
  const calls = await Promise.all(
    findCalls(formula).map((c) => readOne(c, read, before?.calls ?? [], port.calculateCall)),
  );
  return { cell, formula, calls };
}

async function readOne(
  found: FormulaCall,
  read: ReadReference,
  before: ReadCell['calls'],
  calculate: SheetPort['calculateCall'],
): Promise<ReadCall | UnknownCall> {
  const d = findFunction(found.name);
  if (!d)
    return {
      text: found.text,
      problem: texts.noSuchFunction(
        found.name,
        nearestNames(
          found.name,
          CATALOGUE.map((each) => each.name),
        ),
      ),
    };
  const operands = await resolveOperands(found.operands, read);
  const same = before.find(
    (b) =>
      isKnown(b) &&
      b.text === found.text &&
      b.whole === found.whole &&
      JSON.stringify(b.operands) === JSON.stringify(operands),
  );
  if (same) return same;
  const args = operands.map((o) => o.argument);
  const calculated = isUnread(operands) ? undefined : await calculate?.(d.name, args);
  return readCall(d, found.text, found.whole, operands, calculated);
}
