/** What a fit to finished jobs changes in the assumptions of a job, cell by cell. */
import { toCol } from '@borgar/fx';
import { isBlankOrZero, type Cell } from '../catalogue/cell.ts';
import { correlatedNamed, namesOfCorrelation } from '../catalogue/correlation-rows.ts';
import { assumeColumns, readAssume, type AssumeColumns } from '../catalogue/read-assume.ts';
import { isChoice, unitIn } from '../core/assumptions/assumption.ts';
import { findAssumption } from '../core/assumptions/registry.ts';
import { fromSi, knownUnit, toSi } from '../core/units/parse-quantity.ts';
import type { WrittenCell } from './port.ts';
import type { Area } from '../formula/reference-area.ts';
import { showCell, showNumber, showWithUnit } from './show-cell.ts';

type Rows = readonly (readonly Cell[])[];

/** An assumption that the fit changes. */
export interface FitChange {
  readonly name: string;
  /** As it stands in the job's range; empty where it has no row there yet. */
  readonly before: string;
  readonly after: string;
  /** Its cells, those alone that change. */
  readonly cells: readonly WrittenCell[];
}

export interface FitChanges {
  readonly changes: readonly FitChange[];
  /** Assumptions for which the range has no row and no blank one. */
  readonly noRoom: readonly string[];
  /** Whether the range has no columns for low and high, so that they stay as they are. */
  readonly noRange: boolean;
}

const lower = (cell: Cell | undefined): string => (typeof cell === 'string' ? cell.trim().toLowerCase() : '');

/** The columns of a range as BURN functions read them, those alone that it has; low and high without a heading count as a pair. */
function columnsOf(range: Rows): AssumeColumns {
  const columns = assumeColumns(range[0] ?? []);
  if (columns.named) return columns;
  const width = Math.max(0, ...range.map((row) => row.length));
  const at = (place: number): number => (place < width ? place : -1);
  const { low, high, unit, kind } = columns;
  return { ...columns, low: at(high) < 0 ? -1 : low, high: at(high), unit: at(unit), kind: at(kind) };
}

/** The rows of assumptions at the head of a fit; those of the jobs stand below a row without a name. */
function fittedRows(fit: Rows): Rows {
  const rows = fit.slice(1);
  const end = rows.findIndex((row) => isBlankOrZero(row[0] ?? null));
  return end < 0 ? rows : rows.slice(0, end);
}

/** A row of the range that a fitted row goes to. */
interface Place {
  readonly row: readonly Cell[];
  /** Whether nothing stands in it yet. */
  readonly isNew: boolean;
  readonly addressOf: (column: number) => string;
}

/** Digits that a person can read; a fit has no more to say. */
const DIGITS = 6;

/**
 * What the rows of BURN.LOG.FIT change in a range of assumptions. A row keeps its unit; an assumption without a row gets the
 * next blank one. What the range has already is left alone.
 */
export function fitChanges(fit: Rows, range: Rows, area: Area): FitChanges {
  const columns = columnsOf(range);
  const { system } = readAssume(range);
  const changes: FitChange[] = [];
  const noRoom: string[] = [];
  const pairs = range.map((row) => correlationIn(showCell(row[0] ?? null)));
  const last = range.findLastIndex((row) => !row.every(isBlankOrZero));
  let blank = last + 1;
  const placeAt = (at: number): Place | undefined => {
    const row = range[at];
    return row && { row, isNew: at > last, addressOf: (column) => `${toCol(area.left + column)}${area.top + at + 1}` };
  };
  /** The row that a name has, or else the next blank one. */
  const placeFor = (own: number): Place | undefined => placeAt(own >= 0 ? own : blank++);
  for (const [nameCell, value, low, high, unit, kind, source] of fittedRows(fit)) {
    const shownName = showCell(nameCell ?? null);
    const pair = correlationIn(shownName);
    if (pair !== undefined && columns.named && typeof value === 'number') {
      const place = placeFor(pairs.indexOf(pair));
      const change = place && correlationChange(shownName, value, place, columns);
      if (change) changes.push(change);
      if (!place && !noRoom.includes('correlations')) noRoom.push('correlations');
      continue;
    }
    const entry = findAssumption(shownName);
    // A row that the fit took over from the assumptions it began with is not of the log.
    if (!entry || isChoice(entry) || lower(kind) !== 'your log') continue;
    const place = placeFor(
      range.findIndex((row, i) => (i > 0 || !columns.named) && findAssumption(showCell(row[0] ?? null)) === entry),
    );
    if (!place) {
      noRoom.push(entry.name);
      continue;
    }
    const { row, isNew, addressOf } = place;
    const standard = unitIn(entry, system);
    const written = knownUnit(showCell(row[columns.unit] ?? null), entry.quantity);
    const to = written ?? standard;
    const inUnit = (x: Cell | undefined): number | undefined =>
      typeof x === 'number'
        ? Number(
            fromSi(toSi(x, entry.quantity, 'US', showCell(unit ?? null)), entry.quantity, 'US', to).toPrecision(DIGITS),
          )
        : undefined;
    const wanted: readonly (readonly [column: number, now: number | string | undefined])[] = [
      ...(isNew ? [[0, entry.name] as const, [columns.unit, to] as const] : []),
      [columns.value, inUnit(value)],
      [columns.low, inUnit(low)],
      [columns.high, inUnit(high)],
      [columns.kind, 'your log'],
      [columns.reason.source, showCell(source ?? null)],
    ];
    const cells = wanted.flatMap(([column, now]): readonly WrittenCell[] =>
      column < 0 || now === undefined || now === '' || isAlike(row[column] ?? null, now)
        ? []
        : [{ address: addressOf(column), value: now }],
    );
    const figures = [columns.value, columns.low, columns.high];
    const moves = wanted.some(
      ([column, now]) =>
        column >= 0 && figures.includes(column) && now !== undefined && !isAlike(row[column] ?? null, now),
    );
    // What somebody said of the value that stood here is not said of the new one.
    const { why, by, date } = columns.reason;
    const said = [why, by, date].flatMap((column): readonly WrittenCell[] =>
      column < 0 || isBlankOrZero(row[column] ?? null) ? [] : [{ address: addressOf(column), value: '' }],
    );
    if (moves)
      changes.push({
        name: entry.name,
        before: isNew ? '' : inWords(row[columns.value], row[columns.low], row[columns.high], to),
        after: inWords(
          inUnit(value),
          columns.low < 0 ? undefined : inUnit(low),
          columns.high < 0 ? undefined : inUnit(high),
          to,
        ),
        cells: [...cells, ...said],
      });
  }
  // Correlations of an earlier fit that this one does not find any more.
  const found = new Set(fittedRows(fit).map((row) => correlationIn(showCell(row[0] ?? null))));
  range.forEach((row, i) => {
    const name = showCell(row[0] ?? null);
    const pair = pairs[i];
    const value = row[columns.value] ?? null;
    if (pair === undefined || found.has(pair) || isBlankOrZero(value) || lower(row[columns.kind]) !== 'your log')
      return;
    const { addressOf } = placeAt(i)!;
    const cells = [{ address: addressOf(columns.value), value: '' }];
    changes.push({ name, before: showCell(value), after: '', cells });
  });
  return { changes, noRoom, noRange: columns.low < 0 || columns.high < 0 };
}

/** What a fitted correlation changes in its row; undefined where that says so already. */
function correlationChange(
  name: string,
  value: number,
  { row, isNew, addressOf }: Place,
  columns: AssumeColumns,
): FitChange | undefined {
  const before = row[columns.value] ?? null;
  const now = Number(value.toPrecision(DIGITS));
  if (!isNew && isAlike(before, now)) return undefined;
  const figure = { address: addressOf(columns.value), value: now };
  const kind = columns.kind < 0 ? [] : [{ address: addressOf(columns.kind), value: 'your log' }];
  return {
    name,
    before: isNew ? '' : showCell(before),
    after: showNumber(now),
    cells: isNew ? [{ address: addressOf(0), value: name }, figure, ...kind] : [figure],
  };
}

/** The two of a row of correlation in one order; undefined for other rows. */
const correlationIn = (name: string): string | undefined =>
  namesOfCorrelation(name)
    ?.map((each) => correlatedNamed(each) ?? each)
    .sort()
    .join();

const isAlike = (before: Cell, now: number | string): boolean =>
  typeof before === 'number' && typeof now === 'number'
    ? Math.abs(before - now) <= 1e-5 * Math.abs(now)
    : before === now;

function inWords(value: Cell | undefined, low: Cell | undefined, high: Cell | undefined, unit: string): string {
  const shown = typeof value === 'number' ? showWithUnit(value, unit) : showCell(value ?? null);
  return typeof low === 'number' && typeof high === 'number'
    ? `${shown} (${showNumber(low)} to ${showNumber(high)})`
    : shown;
}
