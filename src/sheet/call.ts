import type {
  Column,
  Declaration,
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
import { asWritten, fromSiWritten, writtenFromSi } from '../core/units/as-written.ts';
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
import type { Argument } from './host-function.ts';
import { LONG_LISTS } from './long-lists.ts';
import { SharedBases } from './shared-bases.ts';
import { trimmed } from './trim.ts';
import { argumentWithPoints } from '../catalogue/decimal-comma.ts';
import { blankError, readCell, unitWritten } from '../catalogue/read-cell.ts';

export type Results = readonly (readonly Cell[])[];

/** The arguments of one call, read as far as they are the same for all items. */
export interface Prepared {
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

export function prepare(
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

export function attempt<T>(make: () => T): Attempt<T> {
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

export function readItem({ slots, system }: Prepared, r: number, c: number): Record<string, unknown> {
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
    const key = keyAt(listed, r, c);
    let made = known.get(key);
    if (!made) {
      made = attempt(() => work(values));
      known.set(key, made);
    }
    return valueOf(made);
  };
}

/** All that an item of a list is given as, of the arguments that change. */
function keyAt(listed: readonly Slot[], r: number, c: number): string {
  let key = '';
  for (const { grid } of listed) key += keyOf(cellAt(grid ?? [], r, c));
  return key;
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

/** Different items of a list that are kept to be found again. */
const MOST_KEPT = 30_000;

/** An item that was worked out: its place, that among the good ones, and whether the list numbers it; or what is wrong with it. */
type KnownItem =
  { readonly at: number; readonly among: number; readonly numbered: boolean } | { readonly failed: unknown };

function* rows(d: RowsFunction, p: Prepared): Paused<Results> {
  const { rows: high, columns: wide } = p.shape;
  const lines = new Lines(d, p);
  for (let at = 0; at < high * wide; at++) {
    yield;
    lines.add(at, isBlankItem(p, Math.floor(at / wide), at % wide));
  }
  yield* lines.together();
  lines.finished.unshift([...headings(d.result.columns, p.system)]);
  return lines.finished;
}

/**
 * Calls of one item each, given as one list: of each its place and the rows that it gives by itself. Of one that fails there is
 * nothing: its own call says why.
 */
export function* callsInList(
  d: RowsFunction,
  list: readonly Argument[],
  defaults?: Assumptions,
  shared?: SharedBases,
): Generator<readonly [at: number, rows: Results] | undefined, void> {
  const p = prepare(d, list, defaults, shared);
  const lines = new Lines(d, p, true);
  const heading = headings(d.result.columns, p.system);
  for (let at = 0; at < p.shape.rows; at++) {
    lines.add(at, false);
    const row = lines.finished[at]!;
    yield row.some(isCellError) ? undefined : [at, [heading, row]];
  }
}

/** The rows of a call, made one after the other; where they are `apart`, each as in a call of its own. */
class Lines {
  readonly finished: Cell[][] = [];
  private readonly columns: readonly Column[];
  private readonly shown: readonly ((output: Output) => Cell)[];
  private readonly item: (at: number) => readonly Output[];
  private readonly key: (at: number) => string;
  /** Places of the good rows, and what is decided together is decided from. */
  private readonly good: number[] = [];
  private readonly from: readonly number[];
  private readonly kept: Output[][];
  private readonly known = new Map<string, KnownItem>();
  private again = 0;

  constructor(
    private readonly d: RowsFunction,
    private readonly p: Prepared,
    private readonly apart = false,
  ) {
    const { rows: high, columns: wide } = p.shape;
    const slots = p.slots.filter((s) => s.varies);
    const key = (at: number): string => keyAt(slots, Math.floor(at / wide), at % wide);
    const values = (at: number): Record<string, unknown> => readItem(p, Math.floor(at / wide), at % wide);
    const varying = slots.map((s) => s.name);
    const listed = d.plan && LONG_LISTS.work?.(d, { count: high * wide, varying, basis: p.basis, key, values });
    this.item = listed ?? ((at) => d.calculate(values(at) as never, p.basis));
    this.key = key;
    this.columns = d.result.columns;
    this.shown = this.columns.map((column) => outputIn(column, p.system));
    this.from = d.together?.from ?? [];
    this.kept = this.from.map((): Output[] => []);
  }

  add(at: number, blank: boolean): void {
    this.finished.push(blank ? this.columns.map(() => null) : this.row(at));
  }

  private row(at: number): Cell[] {
    const { known, apart } = this;
    // A list that hardly ever repeats itself is not looked up for ever.
    const key = known.size < MOST_KEPT || this.again > known.size ? this.key(at) : undefined;
    const alike = key === undefined ? undefined : known.get(key);
    if (alike && 'at' in alike) return this.repeated(at, alike);
    let made: KnownItem;
    let row: Cell[];
    try {
      if (alike) throw alike.failed;
      const line = this.item(at);
      row = this.shownLine(line);
      const numbered = line[0] === null;
      if (numbered) row[0] = apart ? 1 : at + 1;
      for (let k = 0; k < this.from.length; k++) {
        const output = line[this.from[k]!] ?? null;
        if (apart) this.kept[k] = [output];
        else this.kept[k]!.push(output);
      }
      if (apart) this.fill(row, this.decided()?.(0));
      made = { at, among: this.good.push(at) - 1, numbered };
    } catch (failed) {
      made = { failed };
      row = this.shownLine(failedLine(this.columns, at + 1, failed));
    }
    if (key !== undefined && known.size < MOST_KEPT) known.set(key, made);
    return row;
  }

  private repeated(at: number, { at: before, among, numbered }: Exclude<KnownItem, { failed: unknown }>): Cell[] {
    const row = [...this.finished[before]!];
    this.again++;
    if (this.apart) return row;
    if (numbered) row[0] = at + 1;
    this.good.push(at);
    for (const each of this.kept) each.push(each[among]!);
    return row;
  }

  private shownLine(line: readonly Output[]): Cell[] {
    const { shown } = this;
    const row = new Array<Cell>(shown.length);
    for (let k = 0; k < row.length; k++) row[k] = shown[k]!(line[k] ?? null);
    return row;
  }

  /** Fills in what the good rows decide together. */
  *together(): Paused<void> {
    this.known.clear();
    const together = this.decided();
    if (!together) return;
    for (let i = 0; i < this.good.length; i++) {
      yield;
      this.fill(this.finished[this.good[i]!]!, together(i));
    }
  }

  private decided() {
    return this.d.together?.of(this.kept, this.p.basis);
  }

  private fill(row: Cell[], outputs: readonly (readonly [place: number, output: Output])[] = []): void {
    for (const [place, output] of outputs) row[place] = this.shown[place]!(output);
  }
}

/** The item's number stands first, the reason last, the error itself in every column of numbers. */
function failedLine(columns: readonly Column[], item: number, e: unknown): Output[] {
  const failed = toCalcError(e);
  return columns.map((column, i) =>
    i === 0 ? item : i === columns.length - 1 ? failed.message : column.quantity === undefined ? null : failed,
  );
}

export function table(d: TableFunction, p: Prepared): Results {
  return tableCells(d, d.calculate(readItem(p, 0, 0) as never, p.basis), p.system);
}

export function tableCells(
  { result: { columns, headless } }: TableFunction,
  lines: readonly (readonly Output[])[],
  system: UnitSystem,
): Results {
  const shown = columns.map((column) => outputIn(column, system));
  return [
    ...(headless ? [] : [headings(columns, system)]),
    ...lines.map((line) => shown.map((show, i) => show(line[i] ?? null))),
  ];
}

function headings(columns: readonly Column[], system: UnitSystem): readonly Cell[] {
  return columns.map(({ heading, quantity }) => {
    const unit = quantity === undefined ? '' : plainUnit(quantity, system);
    return unit === '' ? heading : `${heading}, ${unit}`;
  });
}

/** How what comes out in a column is shown. */
function outputIn({ quantity }: Column, system: UnitSystem): (output: Output) => Cell {
  const written = quantity === undefined ? asWritten : fromSiWritten(quantity, system);
  return (output) => {
    if (output instanceof CalcError) return toCellError(output);
    if (typeof output !== 'number') return output;
    // A sheet has no -0.
    const shown = written(output) + 0;
    return Number.isFinite(shown) ? shown : toCellError(messages.notFinite());
  };
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
