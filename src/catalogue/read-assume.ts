import { isBlankCell, isBlankOrZero, isCellError, type Cell } from './cell.ts';
import { isChoice, type Assumption, type NumberAssumption, unitIn } from '../core/assumptions/assumption.ts';
import { Assumptions, type Correlation, type Override } from '../core/assumptions/assumptions.ts';
import { REGISTRY, findAssumption, type ChoiceName, type NumberName } from '../core/assumptions/registry.ts';
import { NO_REASON, type Reason } from '../core/assumptions/reason.ts';
import { CalcError } from '../core/errors.ts';
import { calendarDay } from '../core/job/clock.ts';
import * as messages from '../core/messages.ts';
import { canCorrelate, checkCorrelations } from '../core/operations/draw-item.ts';
import { coordinateOf } from '../core/spread/drawn-together.ts';
import { findSource } from '../core/sources/register.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { knownUnit, toSi } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { cellWithPoint } from './decimal-comma.ts';
import { correlatedNamed, namesOfCorrelation } from './correlation-rows.ts';
import { REMAINDER, readCell } from './read-cell.ts';
import type { Cells } from './read-table.ts';

export interface AssumeColumns {
  readonly name: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: number;
  readonly kind: number;
  /** What is said of a value; -1 where there is no such column. */
  readonly reason: { readonly [K in keyof Reason]: number };
  /** Whether a heading row names the columns, so that low and high are meant as such. */
  readonly named: boolean;
}

/** Only a heading tells them from notes. */
const NOT_SAID = { why: -1, by: -1, date: -1, source: -1 };
const POSITIONS: AssumeColumns = {
  name: 0,
  value: 1,
  low: 2,
  high: 3,
  unit: 4,
  kind: 5,
  reason: NOT_SAID,
  named: false,
};

/**
 * Reads the rows of `assume`: name, value, and where present low, high, unit, kind, as BURN.ASSUMED lists them; under a heading
 * row also why, by, date and source, which go along with the value.
 *
 * Low and high are the 10th and the 90th percentile; half of the cases lie below the value. With only one of them under a heading
 * the other keeps the default's distance from the value, in proportion; with neither both do. Equal to the value on both sides means
 * certain, on one side that half of the cases stand at it. A heading row is recognised and then names the columns. Blank names and blank values are passed over, so a
 * region with gaps works. A row `correlation of A with B` says how two go along with each other, between -1 and 1, as BURN.LOG.FIT
 * finds it; those without one are drawn each by itself. A plain number is in the unit of its unit column, else in the plain unit of the
 * system in force (`units`). Rows equal to the default change nothing. Throws a CalcError that names the row.
 * `defaults` are those of today or of an earlier version.
 */
export function readAssume(
  argument: Cell | Cells | undefined,
  defaults: Assumptions = Assumptions.defaults(),
): Assumptions {
  if (argument === undefined || argument === null) return defaults;
  const handed = Array.isArray(argument) ? (argument as Cells) : [[argument as Cell]];
  const rows = handed.some(saysComma)
    ? handed.map(([name = null, ...rest]) => [name, ...rest.map(cellWithPoint)])
    : handed;
  if (rows.every((row) => row.every(isBlankOrZero))) return defaults;
  if ((rows[0]?.length ?? 0) < 2) throw messages.assumeTooNarrow();
  const columns = assumeColumns(rows[0] ?? []);
  const system: UnitSystem = unitsOf(rows, columns);
  const seen = new Map<string, number>();
  const overrides: Override[] = [];
  const correlations: Correlation[] = [];
  rows.forEach((row, i) => {
    if (columns.named && i === 0) return;
    const at = i + 1;
    const nameCell = row[columns.name] ?? null;
    if (isCellError(nameCell)) throw messages.inAssume(at, 'name', `holds the error ${nameCell.error}`);
    if (isBlankOrZero(nameCell)) return;
    const name = text(nameCell);
    const once = (what: string, key: string): void => {
      const before = seen.get(key);
      if (before !== undefined) throw messages.inAssume(at, what, `is set in row ${before} already; keep one of them`);
    };
    const pair = pairOf(at, name);
    if (pair) {
      const cell = row[columns.value] ?? null;
      if (isBlankCell(cell)) return;
      const key = pair.map(coordinateOf).sort().join();
      once(name, key);
      seen.set(key, at);
      const value = naming(at, name, () => readCorrelation(pair, cell, defaults));
      correlations.push({ names: pair, value, kind: kindOf(row, columns) });
      return;
    }
    const entry = knownName(at, name);
    once(entry.name, entry.name);
    const standard = defaults.entry(entry.name) ?? entry;
    if (naming(at, entry.name, () => isNotGiven(standard, row[columns.value], row, columns, system))) return;
    seen.set(entry.name, at);
    const read = naming(at, entry.name, () => readRow(standard, row, columns, system));
    if (read) overrides.push(read);
  });
  const a = Assumptions.from(overrides, defaults).correlated(correlations);
  checkCorrelations(a);
  return a;
}

/** The assumption of a name; throws where there is none. */
function knownName(at: number, name: string): Assumption {
  const entry = findAssumption(name);
  if (entry) return entry;
  const all = REGISTRY.map((a) => a.name);
  throw messages.unknownAssumption(at, name, nearestNames(name, all));
}

/** The assumptions that a row of correlation is about; undefined for other rows. */
function pairOf(at: number, name: string): Correlation['names'] | undefined {
  const [x, y] = namesOfCorrelation(name) ?? [];
  return x === undefined || y === undefined
    ? undefined
    : ([x, y].map((name) => correlatedNamed(name) ?? knownName(at, name).name) as [NumberName, NumberName]);
}

function readCorrelation(pair: Correlation['names'], cell: Cell, a: Assumptions): number {
  for (const name of pair) if (!canCorrelate(name, a)) throw messages.notDrawnForAll(name);
  if (coordinateOf(pair[0]) === coordinateOf(pair[1])) throw messages.drawnAsOne();
  const value = readCell(cell, 'value', { kind: 'quantity', quantity: 'ratio' }, 'US') as number;
  if (!(value > -1)) throw messages.notAbove('value', messages.shown(value), '-1');
  if (!(value < 1)) throw messages.mustBeLess('value', messages.shown(value), '1');
  return value;
}

/** The columns of a range of assumptions, by its first row, which may be a heading; -1 where there is no such heading. */
export function assumeColumns(heading: readonly Cell[]): AssumeColumns {
  const first = text(heading[0]).toLowerCase();
  if ((first !== 'name' && first !== 'assumption') || findAssumption(first)) return POSITIONS;
  const find = (...names: readonly string[]): number => heading.findIndex((c) => names.includes(text(c).toLowerCase()));
  const value = find('value');
  return {
    name: 0,
    value: value < 0 ? 1 : value,
    low: find('low'),
    high: find('high'),
    unit: find('unit'),
    kind: find('kind'),
    reason: {
      why: find('why', 'reason'),
      by: find('by', 'set by', 'who'),
      date: find('date', 'set on', 'when'),
      source: find('source'),
    },
    named: true,
  };
}

const text = (cell: Cell | undefined): string =>
  typeof cell === 'string' ? cell.trim() : typeof cell === 'number' ? String(cell) : '';

/** Whether a row makes a comma the decimal mark, in whichever column its value stands. */
const saysComma = ([name, ...rest]: readonly Cell[]): boolean =>
  text(name).toLowerCase() === 'decimal mark' && rest.some((cell) => text(cell).toLowerCase() === 'comma');

function unitsOf(rows: readonly (readonly Cell[])[], columns: AssumeColumns): UnitSystem {
  const at = rows.findIndex((row) => text(row[columns.name]).toLowerCase() === 'units');
  const cell = rows[at]?.[columns.value] ?? null;
  if (at < 0 || isBlankOrZero(cell)) return 'US';
  return naming(at + 1, 'units', () =>
    readCell(cell, 'value', { kind: 'choice', choices: ['US', 'SI'] }, 'US'),
  ) as UnitSystem;
}

/** Adds the row and the name to a message of what stands in it. */
function naming<T>(row: number, name: string, read: () => T): T {
  try {
    return read();
  } catch (e) {
    if (e instanceof CalcError) throw new CalcError(e.code, messages.inAssume(row, name, e.message).message);
    throw e;
  }
}

/** A blank cell, or a 0 that the assumption cannot be. */
function isNotGiven(
  entry: Assumption,
  cell: Cell | undefined,
  row: readonly Cell[],
  columns: AssumeColumns,
  system: UnitSystem,
): boolean {
  if (cell !== 0) return isBlankCell(cell ?? null);
  if (isChoice(entry)) return true;
  const si = (x: number, unit: string): number => toSi(x, entry.quantity, 'US', unit);
  const none = si(0, unitOfRow(entry, row, columns, system));
  return none < si(entry.min, entry.unit) || none > si(entry.max, entry.unit);
}

function readRow(
  entry: Assumption,
  row: readonly Cell[],
  columns: AssumeColumns,
  system: UnitSystem,
): Override | undefined {
  const read = overrideOf(entry, row, columns, system);
  if (isDefault(read, entry)) return undefined;
  const reason = reasonOf(entry, row, columns);
  return reason ? { ...read, reason } : read;
}

/** What a row says of its value. A listing's own source, left standing beside another value, is none for that value. */
function reasonOf(entry: Assumption, row: readonly Cell[], { reason: at }: AssumeColumns): Reason | undefined {
  const said = (column: number): string => {
    const cell = column < 0 ? null : (row[column] ?? null);
    return isBlankOrZero(cell) || isCellError(cell) ? '' : text(cell);
  };
  const of = (column: number, ...none: readonly string[]): string => (none.includes(said(column)) ? '' : said(column));
  const date = row[at.date] ?? null;
  const reason = {
    why: of(at.why, NO_REASON),
    by: said(at.by),
    date: typeof date === 'number' ? (calendarDay(date) ?? said(at.date)) : said(at.date),
    source: of(at.source, entry.source, findSource(entry.source)?.citation ?? '', 'your value', 'your log', NO_REASON),
  };
  return Object.values(reason).some((part) => part !== '') ? reason : undefined;
}

/**
 * What one cell sets an assumption to, such as that of a column headed by its name; a plain number is in `unit`, or in the plain
 * unit of the system where that is ''. Undefined where the cell is blank, or a 0 that the assumption cannot be.
 */
export function readOverride(entry: Assumption, cell: Cell, unit: string, system: UnitSystem): Override | undefined {
  const row = [entry.name, cell, null, null, unit];
  const columns = { ...POSITIONS, named: true };
  return isNotGiven(entry, cell, row, columns, system) ? undefined : overrideOf(entry, row, columns, system);
}

function overrideOf(entry: Assumption, row: readonly Cell[], columns: AssumeColumns, system: UnitSystem): Override {
  const cell = row[columns.value] ?? null;
  if (isChoice(entry))
    return {
      name: entry.name as ChoiceName,
      word: readCell(cell, 'value', { kind: 'choice', choices: entry.choices }, system) as string,
    };
  const unit = unitOfRow(entry, row, columns, system);
  const number = (c: Cell, what: string): number => readNumber(entry, c, what, unit);
  const value = number(cell, 'value');
  const range = (at: number, what: string): number | undefined => {
    const c = row[at] ?? null;
    if (isNotGiven(entry, c, row, columns, system) || (!columns.named && typeof c !== 'number')) return undefined;
    return number(c, what);
  };
  const [low, high] = [range(columns.low, 'low'), range(columns.high, 'high')];
  // Under a heading the other one keeps its distance from the value, as of the default; without one a number might be a note.
  if (!columns.named && (low === undefined) !== (high === undefined))
    throw low === undefined ? messages.halfRange('high', 'low') : messages.halfRange('low', 'high');
  if (low !== undefined && low > value)
    throw messages.tooHigh('low', `${text(row[columns.low])} ${unit}`.trim(), `the value ${text(cell)}`);
  if (high !== undefined && high < value)
    throw messages.tooLow('high', `${text(row[columns.high])} ${unit}`.trim(), `the value ${text(cell)}`);
  return {
    name: entry.name as NumberName,
    value,
    kind: kindOf(row, columns),
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
  };
}

/** Only what a log told says so of itself. */
const kindOf = (row: readonly Cell[], { kind }: AssumeColumns): 'your value' | 'your log' =>
  text(row[kind]).toLowerCase() === 'your log' ? 'your log' : 'your value';

/** Whether a row says what holds anyway. */
function isDefault(read: Override, entry: Assumption): boolean {
  if (isChoice(entry) || 'word' in read) return 'word' in read && read.word === entry.value;
  const si = (x: number): number => toSi(x, entry.quantity, 'US', entry.unit);
  const same = (x: number | undefined, standard: number): boolean =>
    x === undefined || Math.abs(x - si(standard)) <= 1e-9 * Math.abs(si(standard));
  return same(read.value, entry.value) && same(read.low, entry.low) && same(read.high, entry.high);
}

/** The unit column where it names a unit of the quantity; without a heading another text there is a note. */
function unitOfRow(
  entry: NumberAssumption,
  row: readonly Cell[],
  { unit: at, named }: AssumeColumns,
  system: UnitSystem,
): string {
  const cell = row[at] ?? null;
  const written = isBlankOrZero(cell) ? '' : text(cell);
  const standard = unitIn(entry, system);
  if (written === '') return standard;
  const unit = knownUnit(written, entry.quantity);
  if (unit === undefined && named) throw messages.unknownChoice('unit', written, [standard]);
  return unit ?? standard;
}

function readNumber(entry: NumberAssumption, cell: Cell, what: string, unit: string): number {
  const si = (x: number): number => toSi(x, entry.quantity, 'US', entry.unit);
  const plain = typeof cell === 'number' && Number.isFinite(cell) ? toSi(cell, entry.quantity, 'US', unit) : undefined;
  const limits = { kind: 'quantity', quantity: entry.quantity } as const;
  const read =
    plain ??
    (readCell(
      typeof cell === 'string' && Number.isFinite(Number(cell)) ? `${cell} ${unit}` : cell,
      what,
      limits,
      'US',
    ) as number);
  // Written only where they are shown: a listing has hundreds of rows.
  const shownIn = (x: number): string => `${messages.shown(x)}${entry.unit === '' ? '' : ` ${entry.unit}`}`;
  const came = (): string =>
    typeof cell === 'number' ? `${messages.shown(cell)}${unit === '' ? '' : ` ${unit}`}` : text(cell);
  // Left over from a subtraction in the sheet: 0 was meant.
  const value = Math.abs(read) <= REMAINDER * Math.abs(si(entry.max)) ? 0 : read;
  // Of a number too large for a unit nothing finite is left, and no slack either.
  const slack = Number.isFinite(value) ? 1e-12 * Math.abs(value) : 0;
  if (value < si(entry.min) - slack) throw messages.tooLow(what, came(), shownIn(entry.min));
  if (value > si(entry.max) + slack) throw messages.tooHigh(what, came(), shownIn(entry.max));
  if (entry.quantity === 'count' && !Number.isInteger(value)) throw messages.notWhole(what, came());
  return value;
}
