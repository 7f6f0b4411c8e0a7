import type {
  Column,
  Declaration,
  ItemOfRow,
  Output,
  Parameter,
  RowsFunction,
  TableFunction,
  ValueFunction,
} from '../catalogue/declaration.ts';
import { UNITS_WRITTEN, isRowsFunction, isTableFunction, parameterLabel } from '../catalogue/declaration.ts';
import { isBlankCell, isCellError, type Cell, type CellError } from '../catalogue/cell.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import * as messages from '../core/messages.ts';
import type { Working } from '../core/model/working.ts';
import { asWritten, writtenFromSi } from '../core/units/as-written.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import {
  asGrid,
  broadcastShape,
  cellAt,
  heldArgument,
  shapeOf,
  shapeText,
  type Grid,
  type NamedGrid,
  type Shape,
} from './broadcast.ts';
import type { Argument, Calculated, ToldExplanation, WorkingLine } from './host-function.ts';
import { SharedBases } from './shared-bases.ts';
import { trimmed } from './trim.ts';
import { argumentWithPoints } from '../catalogue/decimal-comma.ts';
import { blankError, readCell, unitWritten } from '../catalogue/read-cell.ts';

export type Results = readonly (readonly Cell[])[];

/** The arguments of one call, read as far as they are the same for all items. */
interface Prepared {
  readonly basis: Basis;
  readonly system: UnitSystem;
  readonly slots: readonly Slot[];
  /** A row is blank where each of these is: the required arguments that change from row to row; with single cells, all required ones. */
  readonly deciding: readonly Slot[];
  readonly shape: Shape;
}

interface Slot {
  readonly name: string;
  readonly label: string;
  readonly parameter: Parameter;
  readonly grid: Grid | undefined;
  /** Whether it has more than one cell. */
  readonly varies: boolean;
  /** What a single cell holds, read once; an error waits for the item. */
  readonly once: Attempt | undefined;
  /** Of a list, texts and wrong numbers that were read before: what is wrong is explained once. */
  readonly read: Map<Cell, Attempt>;
}

/** What came of reading a cell or working out an item. */
type Attempt<T = unknown> = { readonly value: T } | { readonly failed: CalcError };

/** A calculation that pauses now and then; whoever runs it may do something else meanwhile, or give it up. */
export type Paused<T> = Generator<undefined, T>;

/**
 * Calls a declared function with cells and gives cells; any failure is a CellError in its own place. `defaults` are today's
 * unless others are given; `shared` is what it shares with other calls, nothing where it is left out.
 */
export function call(d: Declaration, args: readonly Argument[], defaults?: Assumptions, shared?: SharedBases): Results {
  const paused = callByItems(d, args, defaults, shared);
  for (;;) {
    const { done, value } = paused.next();
    if (done) return value;
  }
}

/** The same call, with a pause after each item. */
export function* callByItems(
  d: Declaration,
  args: readonly Argument[],
  defaults?: Assumptions,
  shared?: SharedBases,
): Paused<Results> {
  try {
    const prepared = prepare(d, args, defaults, shared);
    if (isTableFunction(d)) return table(d, prepared);
    if (isRowsFunction(d)) return yield* rows(d, prepared);
    return yield* values(d, prepared);
  } catch (e) {
    return [[toCellError(e)]];
  }
}

/** What one item of a call was given, in SI. */
export interface GivenItem {
  readonly values: Readonly<Record<string, unknown>>;
  readonly basis: Basis;
}

/** Reads one item of a call; throws CalcError. Items are counted from 0, row by row. */
export function givenItem(d: Declaration, args: readonly Argument[], item: number, shared?: SharedBases): GivenItem {
  const prepared = prepare(d, args, undefined, shared);
  const { rows: r, columns: c } = prepared.shape;
  const at = Math.min(Math.max(item, 0), r * c - 1);
  const values = d.result.kind === 'table' ? readItem(prepared, 0, 0) : readItem(prepared, Math.floor(at / c), at % c);
  return { values, basis: prepared.basis };
}

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

function prepare(
  d: Declaration,
  handed: readonly Argument[],
  defaults?: Assumptions,
  shared = new SharedBases(),
): Prepared {
  let args = argumentsOf(d, handed);
  const names = Object.keys(d.parameters);
  const most = names.length + (d.assume ? 1 : 0);
  if (args.length > most && args.slice(most).some((a) => a !== undefined))
    throw messages.tooManyArguments(args.length, most);
  if (d.assume === 'required' && args[names.length] === undefined) throw messages.isMissing('assume');
  const basis = shared.of(d.assume ? args[names.length] : undefined, defaults);
  const { system } = basis.a;
  if (basis.a.word('decimal mark') === 'comma') args = args.map(argumentWithPoints);
  const slots = names.map((name, i): Slot => slot(name, d.parameters[name] as Parameter, args[i], system));
  for (const s of slots) if (!s.grid && !s.parameter.optional) throw messages.isMissing(s.label);
  const each = itemGrids(d, args);
  if (d.result.kind === 'table') {
    for (const { name, grid } of each) {
      const shape = shapeOf(grid);
      if (shape.rows * shape.columns > 1) throw messages.oneItemOnly(name, shapeText(shape));
    }
  }
  const asked = slots.filter((s) => !s.parameter.optional && s.grid && s.parameter.kind.kind !== 'cells');
  const varying = asked.filter((s) => s.varies);
  return { basis, system, slots, deciding: varying.length > 0 ? varying : asked, shape: broadcastShape(each) };
}

/** The arguments without their blank ends, and with such cells only as a sheet can hold. */
function argumentsOf(d: Declaration, handed: readonly Argument[]): readonly Argument[] {
  const assume = Object.keys(d.parameters).length;
  return trimmed<Cell, Argument>(handed, (i) => ({ alone: i === assume, isBlank: isBlankCell })).map(heldArgument);
}

/** The arguments that the items are taken from. */
function itemGrids(d: Declaration, args: readonly Argument[]): readonly NamedGrid[] {
  return Object.entries(d.parameters).flatMap(([name, { kind }], i) => {
    const grid = kind.kind === 'cells' ? undefined : asGrid(args[i]);
    return grid ? [{ name: parameterLabel(name), grid }] : [];
  });
}

/** How the items of a call lie; throws where its ranges do not fit. */
export function itemShape(d: Declaration, handed: readonly Argument[]): Shape {
  return broadcastShape(itemGrids(d, argumentsOf(d, handed)));
}

/** How many items a call has, of which a table is one; throws where its ranges do not fit. */
export function itemCount(d: Declaration, args: readonly Argument[]): number {
  const { rows: r, columns: c } = itemShape(d, args);
  return isTableFunction(d) ? 1 : r * c;
}

function slot(name: string, parameter: Parameter, argument: Argument, system: UnitSystem): Slot {
  const grid = asGrid(argument);
  const label = parameterLabel(name);
  const common = { name, label, parameter, grid, read: new Map<Cell, Attempt>() };
  if (!grid || parameter.kind.kind === 'cells') return { ...common, varies: false, once: { value: grid } };
  const shape = shapeOf(grid);
  if (shape.rows * shape.columns > 1) return { ...common, varies: true, once: undefined };
  return { ...common, varies: false, once: attempt(() => readOne(cellAt(grid, 0, 0), label, parameter, system)) };
}

function attempt<T>(make: () => T): Attempt<T> {
  try {
    return { value: make() };
  } catch (e) {
    if (e instanceof CalcError) return { failed: e };
    throw e;
  }
}

function valueOf<T>(attempted: Attempt<T>): T {
  if ('failed' in attempted) throw attempted.failed;
  return attempted.value;
}

function readOne(cell: Cell, label: string, parameter: Parameter, system: UnitSystem): unknown {
  const value = readCell(cell, label, parameter.kind, system);
  if (value === undefined && !parameter.optional) throw blankError(label, parameter.kind);
  return value;
}

const isLength = ({ parameter: { kind } }: Slot): boolean => kind.kind === 'quantity' && kind.quantity === 'length';

function readItem({ slots, system }: Prepared, r: number, c: number): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  const written: string[] = [];
  for (const s of slots) {
    values[s.name] = s.once ? valueOf(s.once) : readListed(s, cellAt(s.grid ?? [], r, c), system);
    if (isLength(s) && unitWritten(cellAt(s.grid ?? [], r, c))) written.push(s.name);
  }
  return written.length === 0 ? values : Object.assign(values, { [UNITS_WRITTEN]: new Set(written) });
}

function readListed({ label, parameter, read }: Slot, cell: Cell, system: UnitSystem): unknown {
  const known = read.size > 0 ? read.get(cell) : undefined;
  if (known) return valueOf(known);
  const attempted = attempt(() => readOne(cell, label, parameter, system));
  if (typeof cell === 'string' || 'failed' in attempted) read.set(cell, attempted);
  return valueOf(attempted);
}

/** Works out the items of one call; those whose cells are alike, once. */
function eachOnce<T>(p: Prepared, work: (values: Record<string, unknown>) => T): (r: number, c: number) => T {
  const listed = p.slots.filter((s) => s.varies);
  const known = new Map<string, Attempt<T>>();
  return (r, c) => {
    const values = readItem(p, r, c);
    let key = '';
    for (const { grid } of listed) key += keyOf(cellAt(grid ?? [], r, c));
    let made = known.get(key);
    if (!made) {
      made = attempt(() => work(values));
      known.set(key, made);
    }
    return valueOf(made);
  };
}

/** A cell as part of a key; texts stand with their length, so that none can look like two cells. */
function keyOf(cell: Cell): string {
  if (typeof cell === 'string') return `"${cell.length}:${cell}`;
  return isCellError(cell) ? `!${cell.error}` : `|${cell}`;
}

function isBlankItem({ deciding }: Prepared, r: number, c: number): boolean {
  return deciding.length > 0 && deciding.every((s) => isBlankCell(cellAt(s.grid ?? [], r, c)));
}

function* values(d: ValueFunction, p: Prepared): Paused<Results> {
  const { quantity } = d.result;
  const results: Cell[][] = [];
  const item = eachOnce(p, (values) => d.calculate(values as never, p.basis));
  for (let r = 0; r < p.shape.rows; r++) {
    const row: Cell[] = [];
    for (let c = 0; c < p.shape.columns; c++) {
      row.push(
        isBlankItem(p, r, c)
          ? null
          : guarded(() => {
              const value = item(r, c);
              return typeof value === 'string' || quantity === 'text' ? value : shownNumber(value, quantity, p.system);
            }),
      );
      yield;
    }
    results.push(row);
  }
  return results;
}

function* rows(d: RowsFunction, p: Prepared): Paused<Results> {
  const { columns } = d.result;
  const good: (readonly Output[])[] = [];
  const lines: (readonly Output[] | undefined)[] = [];
  const item = eachOnce(p, (values) => d.calculate(values as never, p.basis));
  for (let r = 0; r < p.shape.rows; r++) {
    for (let c = 0; c < p.shape.columns; c++) {
      yield;
      if (isBlankItem(p, r, c)) {
        lines.push(undefined);
        continue;
      }
      let line: readonly Output[];
      try {
        line = item(r, c);
        good.push(line);
      } catch (e) {
        line = failedLine(columns, lines.length + 1, e);
      }
      lines.push(line);
    }
  }
  return [headings(columns, p.system), ...(yield* finishedLines(d, p, lines, good))];
}

/** The cells of all rows, with what the good ones decide together. */
function* finishedLines(
  d: RowsFunction,
  p: Prepared,
  lines: readonly (readonly Output[] | undefined)[],
  good: readonly (readonly Output[])[],
): Paused<Cell[][]> {
  const { columns } = d.result;
  const decided = [...(d.together?.(good, p.basis) ?? [])];
  const blank: readonly Cell[] = columns.map(() => null);
  // Items of the same sizes have one line among them.
  const made = new Map<readonly Output[], readonly Cell[]>();
  const finished: Cell[][] = [];
  let at = 0;
  for (const line of lines) {
    yield;
    if (!line) {
      finished.push([...blank]);
      continue;
    }
    let cells = made.get(line);
    if (!cells) {
      cells = columns.map((column, k) => outputCell(line[k] ?? null, column, p.system));
      made.set(line, cells);
    }
    const own = [...cells];
    if (line[0] === null) own[0] = finished.length + 1;
    if (line === good[at]) {
      for (const [place, outputs] of decided) own[place] = outputCell(outputs[at] ?? null, columns[place]!, p.system);
      at++;
    }
    finished.push(own);
  }
  return finished;
}

/** The item's number stands first, the reason last, the error itself in every column of numbers. */
function failedLine(columns: readonly Column[], item: number, e: unknown): Output[] {
  const failed = toCalcError(e);
  return columns.map((column, i) =>
    i === 0 ? item : i === columns.length - 1 ? failed.message : column.quantity === undefined ? null : failed,
  );
}

function table(d: TableFunction, p: Prepared): Results {
  return tableCells(d, d.calculate(readItem(p, 0, 0) as never, p.basis), p.system);
}

function tableCells(
  { result: { columns, headless } }: TableFunction,
  lines: readonly (readonly Output[])[],
  system: UnitSystem,
): Results {
  return [
    ...(headless ? [] : [headings(columns, system)]),
    ...lines.map((line) => columns.map((column, i) => outputCell(line[i] ?? null, column, system))),
  ];
}

function headings(columns: readonly Column[], system: UnitSystem): readonly Cell[] {
  return columns.map(({ heading, quantity }) => {
    const unit = quantity === undefined ? '' : plainUnit(quantity, system);
    return unit === '' ? heading : `${heading}, ${unit}`;
  });
}

function outputCell(output: Output, { quantity }: Column, system: UnitSystem): Cell {
  if (output instanceof CalcError) return toCellError(output);
  if (typeof output !== 'number') return output;
  // A sheet has no -0.
  const shown = (quantity === undefined ? asWritten(output) : writtenFromSi(output, quantity, system)) + 0;
  return Number.isFinite(shown) ? shown : toCellError(messages.notFinite());
}

function shownNumber(si: number, quantity: QuantityName, system: UnitSystem): number {
  return finite(writtenFromSi(si, quantity, system));
}

/** The last guard against a number the sheet cannot hold; reaching it is a fault of ours. */
function finite(x: number): number {
  if (!Number.isFinite(x)) throw messages.notFinite();
  return x + 0;
}

function guarded(make: () => Cell): Cell {
  try {
    return make();
  } catch (e) {
    return toCellError(e);
  }
}

function toCalcError(e: unknown): CalcError {
  return e instanceof CalcError ? e : messages.fault(e instanceof Error ? e.message : String(e));
}

export function toCellError(e: unknown): CellError {
  const { code, message } = toCalcError(e);
  return { error: code, message };
}
