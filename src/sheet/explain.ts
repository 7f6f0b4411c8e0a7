/** How the items of a call are worked out, for those who show it. */
import {
  isRowsFunction,
  isTableFunction,
  type Declaration,
  type ItemOfRow,
  type TableFunction,
} from '../catalogue/declaration.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import type { Working } from '../core/model/working.ts';
import { writtenFromSi } from '../core/units/as-written.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import { attempt, givenItem, prepare, readItem, table, tableCells, toCellError, type GivenItem } from './call.ts';
import type { Argument, Calculated, ToldExplanation, WorkingLine } from './host-function.ts';
import type { SharedBases } from './shared-bases.ts';

/** How one item is worked out. */
export interface Explanation extends ToldExplanation {
  /** The value of a step in SI, of those that are not shown too; undefined where there is none, or it has no solution. */
  stepValue(symbol: string): number | string | undefined;
}

/** Explains an item, or one column of its row alone; throws CalcError. */
export function explainItem(d: Declaration, { values, basis }: GivenItem, column?: number): Explanation {
  if (!d.working) return unworked(d, { values, basis });
  const asked = isRowsFunction(d) && column !== undefined ? d.result.columns[column]?.step : undefined;
  const working = d.working(values as never, basis, asked);
  return explanationOf(working, d.result.kind === 'value' || working.result === asked);
}

function explanationOf(working: Working, isResult: boolean): Explanation {
  const { evaluation, result } = working;
  return {
    steps: working.steps(),
    result: isResult ? result : undefined,
    assumptions: working.assumptions(),
    stepValue: (symbol) => (evaluation.list.has(symbol) ? evaluation.found(symbol) : undefined),
  };
}

/** `explainItem` of an item of a call. */
export function explain(d: Declaration, args: readonly Argument[], item = 0, column?: number): Explanation {
  return explainItem(d, givenItem(d, args, item), column);
}

/** A calculation without a list of steps: nothing is shown, and the assumptions are those it asks for. */
function unworked(d: Declaration, { values, basis }: GivenItem): Explanation {
  const assumptions = new Set<string>();
  d.calculate(values as never, notingBasis(basis, assumptions));
  return { steps: [], result: undefined, assumptions, stepValue: () => undefined };
}

/** The cells of a table and how it is worked out, without working it out twice; the explanation is missing where it failed. */
export function tableExplained(
  d: TableFunction,
  args: readonly Argument[],
  defaults?: Assumptions,
  shared?: SharedBases,
): Calculated {
  try {
    const prepared = prepare(d, args, defaults, shared);
    const { basis, system } = prepared;
    const values = readItem(prepared, 0, 0);
    if (d.working) {
      const cells = table(d, prepared);
      const explained = attempt(() => explainItem(d, { values, basis }));
      if ('failed' in explained) return { cells };
      const { steps, result, assumptions } = explained.value;
      return { cells, explanation: { steps, result, assumptions } };
    }
    const assumptions = new Set<string>();
    const lines = d.calculate(values as never, notingBasis(basis, assumptions));
    return { cells: tableCells(d, lines, system), explanation: { steps: [], result: undefined, assumptions } };
  } catch (e) {
    return { cells: [[toCellError(e)]] };
  }
}

/** A basis of its own that notes the assumptions that are asked for. */
const notingBasis = ({ a }: Basis, asked: Set<string>): Basis => {
  const note = (name: string): void => void asked.add(name);
  return new Basis(a.noting(note, note));
};

/** The item of a row of a table, counted from 1 below the heading, and how it is worked out, or one column of it; undefined where it is about none. */
export function explainRow(
  d: TableFunction,
  { values, basis }: GivenItem,
  row: number,
  column?: number,
): { readonly item: ItemOfRow; readonly explanation: Explanation } | undefined {
  const item = d.row?.(values as never, basis, row);
  if (!item) return undefined;
  const asked = column === undefined ? undefined : d.result.columns[column]?.step;
  const working = item.working(asked);
  return { item, explanation: explanationOf(working, working.result === asked) };
}

/** The assumptions that an item had asked for when it failed. */
export function askedUntilFailed(d: Declaration, { values, basis }: GivenItem): ReadonlySet<string> {
  const asked = new Set<string>();
  try {
    d.calculate(values as never, notingBasis(basis, asked));
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
  }
  return asked;
}

/** Cards are slow by the thousand; a longer list has plain numbers. */
const MOST_CARDS = 50;

/** The working of each cell of a result, where the assumption `show working` asks for cards; undefined where it does not, or the result is no number. */
export function workingOf(
  d: Declaration,
  args: readonly Argument[],
  defaults?: Assumptions,
  shared?: SharedBases,
): ((row: number, column: number) => readonly WorkingLine[]) | undefined {
  if (isRowsFunction(d) || isTableFunction(d) || d.result.quantity === 'text') return undefined;
  try {
    const prepared = prepare(d, args, defaults, shared);
    const { rows: r, columns: c } = prepared.shape;
    if (prepared.basis.a.word('show working') !== 'card' || r * c > MOST_CARDS) return undefined;
    return (row, column) => {
      const { steps } = explainItem(d, { values: readItem(prepared, row, column), basis: prepared.basis });
      return steps.map((s): WorkingLine => {
        const { name, symbol, formula, kind, source } = s;
        const text = typeof s.value === 'string';
        return {
          name,
          symbol,
          value: text ? s.value : writtenFromSi(s.value, s.quantity, prepared.system),
          unit: text ? '' : plainUnit(s.quantity, prepared.system),
          formula,
          kind,
          source,
        };
      });
    };
  } catch {
    // What is wrong stands in the cell.
    return undefined;
  }
}
