import { isRowsFunction, isTableFunction, parameterLabel, type Declaration } from '../catalogue/declaration.ts';
import { isBlankCell, isCellError, type Cell } from '../catalogue/cell.ts';
import { CalcError } from '../core/errors.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { knownUnit, plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import type { FormulaCall } from '../formula/formula-calls.ts';
import { call, givenItem, itemShape, type Results } from '../sheet/call.ts';
import { explainItem } from '../sheet/explain.ts';
import { SharedBases } from '../sheet/shared-bases.ts';
import { converted, type ItemWorking, type ShownCell } from './item-working.ts';
import { TABLE_PARTS } from './job-tables.ts';
import { gridOf, type PlainOperand } from './operands.ts';

/** A call with all it gives and how. */
export interface ExplainedCall {
  readonly text: string;
  readonly system: UnitSystem;
  readonly results: Results;
  readonly items: readonly ItemWorking[];
  /** What a cell of the results comes from; undefined where it stands as it is. */
  shown(row: number, column: number): ShownCell | undefined;
}

export function explainedCall(d: Declaration, { text }: FormulaCall, operands: readonly PlainOperand[]): ExplainedCall {
  const args = operands.map(({ argument }) => argument);
  const shared = new SharedBases();
  const results = call(d, args, undefined, shared);
  const shape = isTableFunction(d) || failed(results) ? { rows: 1, columns: 1 } : itemShape(d, args);
  const parts = TABLE_PARTS.get(d.name);
  if (parts && !failed(results)) {
    const { values, basis } = givenItem(d, args, 0, shared);
    const { system } = basis.a;
    const made = parts(values, basis, operands, (steps) => linksOf(d, operands, values, steps, 0, 0, system));
    shared.tidy();
    return { text, system, results, ...made };
  }
  const items: ItemWorking[] = [];
  /** By the item's number in the call. */
  const placeOf = new Map<number, number>();
  let system: UnitSystem = 'US';
  for (let item = 0; item < shape.rows * shape.columns && !failed(results); item++) {
    const [row, column] = [Math.floor(item / shape.columns), item % shape.columns];
    if (d.result.kind === 'value' && !isNumber(results[row]?.[column] ?? null)) continue;
    try {
      const given = givenItem(d, args, item, shared);
      system = given.basis.a.system;
      if (!d.working) continue;
      const { steps } = explainItem(d, given);
      placeOf.set(item, items.length);
      items.push({
        title: shape.rows * shape.columns > 1 ? `item ${item + 1}` : '',
        steps,
        links: linksOf(d, operands, given.values, steps, row, column, system),
      });
    } catch (thrown) {
      // A blank row or a bad one: its cells say so.
      if (!(thrown instanceof CalcError)) throw thrown;
    }
  }
  shared.tidy();
  return { text, system, results, items, shown: shownSteps(d, shape.columns, placeOf, items, args, shared) };
}

const failed = (results: Results): boolean => results.length === 1 && isCellError(results[0]?.[0] ?? null);
const isNumber = (cell: Cell): cell is number => typeof cell === 'number';

function shownSteps(
  d: Declaration,
  width: number,
  placeOf: ReadonlyMap<number, number>,
  items: readonly ItemWorking[],
  args: readonly PlainOperand['argument'][],
  shared: SharedBases,
): ExplainedCall['shown'] {
  const has = (place: number, symbol: string): boolean =>
    items[place]?.steps.some((step) => step.symbol === symbol) ?? false;
  if (isRowsFunction(d))
    return (row, column) => {
      const { step, quantity } = d.result.columns[column] ?? {};
      const item = placeOf.get(row - 1);
      return item !== undefined && step !== undefined && quantity !== undefined && has(item, step)
        ? { item, symbol: step, quantity }
        : undefined;
    };
  if (isTableFunction(d) || d.result.quantity === 'text') return () => undefined;
  const { quantity } = d.result;
  const results = new Map<number, string | undefined>();
  return (row, column) => {
    const number = row * width + column;
    const item = placeOf.get(number);
    if (item === undefined) return undefined;
    if (!results.has(number)) results.set(number, explainItem(d, givenItem(d, args, number, shared)).result);
    const symbol = results.get(number);
    return symbol !== undefined && has(item, symbol) ? { item, symbol, quantity } : undefined;
  };
}

/** Where the values that were handed over stand: arguments by their name, assumptions in the range of `assume`. */
function linksOf(
  d: Declaration,
  operands: readonly PlainOperand[],
  values: Readonly<Record<string, unknown>>,
  steps: readonly WorkedStep[],
  row: number,
  column: number,
  system: UnitSystem,
): ReadonlyMap<string, string> {
  const links = new Map<string, string>();
  const names = Object.keys(d.parameters);
  const assume = d.assume ? operands[names.length] : undefined;
  for (const step of steps) {
    if (typeof step.value !== 'number') continue;
    const link =
      step.assumption !== undefined
        ? assume && assumedLink(assume, step, system)
        : step.kind === 'input' && step.expression === undefined
          ? inputLink(d, names, operands, values, step, row, column, system)
          : undefined;
    if (link !== undefined) links.set(step.symbol, link);
  }
  return links;
}

function inputLink(
  d: Declaration,
  names: readonly string[],
  operands: readonly PlainOperand[],
  values: Readonly<Record<string, unknown>>,
  step: WorkedStep,
  row: number,
  column: number,
  system: UnitSystem,
): string | undefined {
  const place = names.findIndex(
    (name) => values[name] === step.value && [name, parameterLabel(name)].includes(step.name),
  );
  const kind = d.parameters[names[place] ?? '']?.kind;
  const operand = operands[place];
  if (kind?.kind !== 'quantity' || !operand) return undefined;
  const grid = gridOf(operand) ?? [];
  const [r, c] = [grid.length === 1 ? 0 : row, grid[0]?.length === 1 ? 0 : column];
  return converted(operand, r, c, grid[r]?.[c] ?? null, kind.quantity, plainUnit(kind.quantity, system), step.value);
}

function assumedLink(operand: PlainOperand, step: WorkedStep, system: UnitSystem): string | undefined {
  const grid = gridOf(operand) ?? [];
  const row = grid.findIndex(([name]) => isText(name) && name.trim().toLowerCase() === step.assumption?.toLowerCase());
  const cells = grid[row];
  if (!cells) return undefined;
  const written = cells.slice(1).flatMap((cell) => (isText(cell) ? [knownUnit(cell.trim(), step.quantity)] : []));
  const units = [...written, plainUnit(step.quantity, system), plainUnit(step.quantity, 'US')];
  for (const unit of units)
    for (let column = 1; column < cells.length && unit !== undefined; column++) {
      const link = converted(operand, row, column, cells[column] ?? null, step.quantity, unit, step.value);
      if (link !== undefined) return link;
    }
  return undefined;
}

const isText = (cell: Cell | undefined): cell is string => typeof cell === 'string' && !isBlankCell(cell);
