import { itemsOfCall, itemsOfRow } from '../catalogue/items-of-call.ts';
import { CalcError } from '../core/errors.ts';
import { cautionsOf } from '../core/safety/cautions.ts';
import { isOperation } from '../core/operations/all.ts';
import { slipQuestion } from '../core/operations/unit-slip.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { UNITS_WRITTEN, type Parameter, type Values } from '../catalogue/declaration.ts';
import type { GivenItem } from '../sheet/call.ts';
import { argumentWithPoints } from '../catalogue/decimal-comma.ts';
import { readAssume } from '../catalogue/read-assume.ts';
import { cellNote } from './cell-note.ts';
import { explainArguments } from './explain-arguments.ts';
import type { Explained } from './explained.ts';
import { outcomeOf, selectedPlace } from './outcome.ts';
import type { SelectedCell } from './port.ts';
import type { ReadCall } from './read-call.ts';
import type { ReadOperand } from './resolve-operands.ts';
import { runItem, type Run } from './run-item.ts';
import * as texts from './texts.ts';
import { usedAssumptions } from './used-assumptions.ts';

/** Explains one item of a call; items are counted from 0, row by row. */
export function explainItem(read: ReadCall, item: number, cell: SelectedCell): Explained {
  const { declaration: d, operands, shape } = read;
  const run: Run = read.results ? runItem(read, item, selectedPlace(read, cell)) : {};
  const system = run.given?.basis.a.system ?? systemOf(read);
  const outcome = outcomeOf(read, run, item, cell, system);
  const blank = outcome.kind === 'blank';
  return {
    cell,
    declaration: d,
    family: run.row?.operation ?? d.family,
    text: read.text,
    system,
    item,
    items: shape.rows * shape.columns,
    arguments: explainArguments(
      d,
      run.given?.basis.a.word('decimal mark') === 'comma' ? operands.map(withPoints) : operands,
      Math.floor(item / shape.columns),
      item % shape.columns,
      system,
    ),
    outcome,
    table: d.result.kind === 'value' ? [] : (read.results ?? []),
    note: [cellNote(read, cell), piecesNote(run)].filter((n) => n !== undefined).join(' ') || undefined,
    question:
      !blank && run.given && isOperation(d.family)
        ? slipQuestion(d.family, sizesOf(run.given.values), system, writtenOf(run.given))
        : '',
    steps: (!blank && run.steps) || [],
    result: blank ? undefined : run.result,
    stepValue: (symbol) => (blank ? undefined : run.stepValue?.(symbol)),
    assumptions:
      run.given && run.assumptions && !blank ? usedAssumptions(run.assumptions, (run.row ?? run.given).basis.a) : [],
    cautions: cautionsOf(run.row && run.given ? itemsOfRow(d, run.row, run.given) : itemsOfCall(d, run.given)),
    values: run.given?.values,
    basis: (run.row ?? run.given)?.basis,
  };
}

const piecesNote = ({ row }: Run): string | undefined =>
  row && row.pieces > 1 ? texts.workingOfOne(row.pieces) : undefined;
const writtenOf = ({ values }: GivenItem): ReadonlySet<string> | undefined =>
  (values as Values<Record<string, Parameter>>)[UNITS_WRITTEN];
const sizesOf = (values: Readonly<Record<string, unknown>>): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(values).filter((entry): entry is [string, number] => typeof entry[1] === 'number'));

const withPoints = (operand: ReadOperand): ReadOperand => ({
  ...operand,
  argument: argumentWithPoints(operand.argument),
});

function systemOf({ declaration, operands }: ReadCall): UnitSystem {
  if (!declaration.assume) return 'US';
  try {
    return readAssume(operands[Object.keys(declaration.parameters).length]?.argument).system;
  } catch (e) {
    if (e instanceof CalcError) return 'US';
    throw e;
  }
}
