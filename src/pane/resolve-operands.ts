import { isBlankCell, type Cell } from '../catalogue/cell.ts';
import { findFunction } from '../catalogue/catalogue.ts';
import { call } from '../sheet/call.ts';
import type { Argument } from '../sheet/host-function.ts';
import { evaluateArithmetic } from '../formula/arithmetic.ts';
import type { Operand } from '../formula/formula-calls.ts';
import * as texts from './texts.ts';

/** Values of a reference. */
export type ReadReference = (reference: string) => Promise<readonly (readonly Cell[])[]>;

/** One argument as the function gets it. */
export interface ReadOperand {
  readonly operand: Operand;
  readonly argument: Argument;
  /** Why it could not be read. */
  readonly problem?: string;
}

/** Reads what stands in the arguments of a call: constants, references, calls of our functions on those, plain arithmetic. */
export function resolveOperands(operands: readonly Operand[], read: ReadReference): Promise<readonly ReadOperand[]> {
  return Promise.all(
    operands.map(async (operand) => {
      try {
        return { operand, argument: await stepValue(operand, read) };
      } catch (e) {
        return { operand, argument: undefined, problem: e instanceof Error ? e.message : String(e) };
      }
    }),
  );
}

async function stepValue(operand: Operand, read: ReadReference): Promise<Argument> {
  switch (operand.kind) {
    case 'omitted':
      return undefined;
    case 'value':
      return operand.value;
    case 'array':
      return operand.rows;
    case 'reference':
      return readOne(operand.text, read);
    case 'arithmetic': {
      const number = await evaluateArithmetic(operand.of, (reference) => numberIn(reference, read));
      if (number === undefined) throw new Error(texts.noNumber(operand.text));
      return number;
    }
    case 'call': {
      const d = findFunction(operand.call.name);
      if (!d) throw new Error(texts.ownCell(operand.text));
      const inner = await resolveOperands(operand.call.operands, read);
      const problem = inner.find((each) => each.problem !== undefined)?.problem;
      if (problem !== undefined) throw new Error(texts.unreadInside(d.name, problem));
      return call(
        d,
        inner.map((each) => each.argument),
      );
    }
    case 'formula':
      throw new Error(texts.ownCell(operand.text));
  }
}

async function readOne(reference: string, read: ReadReference): Promise<readonly (readonly Cell[])[]> {
  try {
    return await read(reference);
  } catch (e) {
    throw new Error(texts.notRead(reference, e instanceof Error ? e.message : String(e)), { cause: e });
  }
}

/** A blank cell counts as 0 in the sheet's arithmetic. */
async function numberIn(reference: string, read: ReadReference): Promise<number> {
  const rows = await readOne(reference, read);
  const cell = rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? null) : undefined;
  if (cell !== undefined && isBlankCell(cell)) return 0;
  if (typeof cell !== 'number') throw new Error(texts.notOneNumber(reference));
  return cell;
}
