import { isCellError } from '../catalogue/cell.ts';
import { correlatedNamed, namesOfCorrelation } from '../catalogue/correlation-rows.ts';
import { findAssumption } from '../core/assumptions/registry.ts';
import { columnOfHeading } from '../catalogue/read-list.ts';
import type { Cell } from '../sheet/host-function.ts';
import { addressOf, areaName, columnName, LAST_ROW, type Area } from '../files/xlsx/address.ts';
import type { Group } from './groups.ts';
import { argumentsOf, type FormulaAt, type KnownArgument, type LookedAt } from './looked-at.ts';
import { isSameKind, isSizeLike, isTotalRow, itemRows, rowKey } from './sizes.ts';
import type { Finding, Kind } from './workbook.ts';

/** Functions of the sheet's own that take a column as a whole. */
const OF_COLUMNS = new Set(
  'SUM SUMPRODUCT SUMIF SUMIFS AVERAGE AVERAGEIF AVERAGEIFS MAX MIN COUNT COUNTA COUNTIF COUNTIFS SUBTOTAL AGGREGATE'.split(
    ' ',
  ),
);

/** Arguments that hold a table or a list, in which a row left out is missed. */
const LISTS = new Set(['list', 'log', 'prices', 'items', 'things', 'levels', 'hours', 'depths', 'stock']);

/** Columns that a list reads the same without. */
const REMARKS = new Set(['mark', 'note']);

/** Rows of a list that are looked through for a heading or a blank. */
const MOST_ROWS = 20_000;
const MOST_COLUMNS = 60;

/** A range of rows as a formula reads it. */
interface Read {
  readonly f: FormulaAt;
  readonly sheet: number;
  readonly area: Area;
}

/** What is looked for on either side of a range. */
type Goes = (from: number, to: number) => boolean;

/** Ranges that leave out a row of what they are about. */
export function cutRanges(
  look: LookedAt,
  groups: readonly Group[],
  isTied: (f: FormulaAt) => boolean,
): readonly Finding[] {
  return new Ranges(look, groups, isTied).findings();
}

class Ranges {
  private readonly groupOf = new Map<FormulaAt, Group>();
  private readonly items: ReadonlySet<string>;
  /** First and last rows of all ranges that are read, by sheet and columns. */
  private readonly starts = new Set<string>();
  private readonly ends = new Set<string>();
  private readonly gaps = new Map<string, boolean>();
  private readonly found: Finding[] = [];

  constructor(
    private readonly look: LookedAt,
    private readonly groups: readonly Group[],
    private readonly isTied: (f: FormulaAt) => boolean,
  ) {
    for (const group of groups) for (const cell of group.cells) this.groupOf.set(cell, group);
    this.items = itemRows(look);
    for (const f of look.formulas)
      for (const { reference } of f.read.slots) {
        const sheet = reference && look.sheetOf(reference, f);
        if (!reference || sheet === undefined || reference.area.top === reference.area.bottom) continue;
        this.starts.add(this.edge(sheet, reference.area, reference.area.top));
        this.ends.add(this.edge(sheet, reference.area, reference.area.bottom));
      }
  }

  findings(): readonly Finding[] {
    for (const { cells } of this.groups)
      for (const f of cells) {
        if (f.ours) this.ofCalls(f);
        if (this.isTied(f)) this.ofSums(f);
      }
    return this.found;
  }

  private edge = (sheet: number, { left, right }: Area, row: number): string => `${sheet}|${left}:${right}|${row}`;

  private ofCalls(f: FormulaAt): void {
    for (const call of f.read.calls) {
      const known = argumentsOf(call, f.read);
      this.ofSizes(f, known);
      for (const each of known) {
        const range = this.rangeOf(f, each.slot?.reference);
        if (!range) continue;
        if (each.isAssume) this.ofAssumptions(range);
        else if (each.parameter?.kind.kind === 'cells' && LISTS.has(each.name)) this.ofList(range, each.name);
      }
    }
  }

  private rangeOf(f: FormulaAt, reference: NonNullable<FormulaAt['read']['slots'][number]['reference']> | undefined) {
    const sheet = reference && this.look.sheetOf(reference, f);
    return reference && !reference.whole && sheet !== undefined && reference.area.bottom > reference.area.top
      ? { f, sheet, area: reference.area }
      : undefined;
  }

  /** Columns of sizes, which go on where all of them do. */
  private ofSizes(f: FormulaAt, known: readonly KnownArgument[]): void {
    const ranges = known.flatMap((each) => {
      const range = this.rangeOf(f, each.slot?.reference);
      const sized = each.parameter?.kind.kind === 'quantity' && range && range.area.left === range.area.right;
      return sized ? [{ ...range, name: each.name, optional: each.parameter.optional }] : [];
    });
    const needed = ranges.filter((r) => !r.optional);
    const [first] = needed;
    if (!first) return;
    const odd = ranges.find(
      (r) =>
        r.sheet === first.sheet &&
        r.area.top !== first.area.top &&
        r.area.top <= first.area.bottom &&
        r.area.bottom >= first.area.top,
    );
    if (odd)
      this.add(
        'rows do not match',
        f,
        `${f.told} reads ${first.name} from ${areaName(first.area)} and ${odd.name} from ${areaName(odd.area)}: they begin in different rows`,
      );
    if (needed.some((r) => r.sheet !== first.sheet || r.area.top !== first.area.top)) return;
    const goes: Goes = (from, to) =>
      needed.every(({ sheet, area }) => {
        const [here, there] = [this.look.value(sheet, from, area.left), this.look.value(sheet, to, area.left)];
        return isSizeLike(here) && isSizeLike(there);
      });
    this.bothEnds(first, goes, `${first.name} from ${areaName(first.area)}`);
  }

  private ofList(range: Read, name: string): void {
    const { sheet, area, f } = range;
    const columns = Array.from({ length: Math.min(area.right - area.left + 1, MOST_COLUMNS) }, (_, i) => area.left + i);
    const value = (row: number, column: number): Cell => this.look.value(sheet, row, column);
    const goes: Goes = (from, to) => {
      const filled = columns.filter((c) => isSizeLike(value(from, c)));
      const like = filled.filter((c) => isSizeLike(value(to, c)));
      // Columns that must be there are filled in every row; a bore or a remark is not.
      return like.length >= Math.min(2, columns.length) && like.length >= filled.length - 1;
    };
    const labelled: Goes = (from, to) =>
      typeof value(from, area.left) === 'string' &&
      typeof value(to, area.left) === 'string' &&
      columns.slice(1).some((c) => typeof value(from, c) === 'number' && typeof value(to, c) === 'number');
    this.bothEnds(range, name === 'prices' ? labelled : goes, `its ${name} from ${areaName(area)}`);
    if (name !== 'list') return;
    const headings = (row: number, of: readonly number[]): number =>
      of.filter((c) => columnOfHeading(value(row, c))?.of === 'sizes').length;
    const limit = Math.min(area.bottom, area.top + MOST_ROWS);
    let heading = area.top;
    while (heading <= limit && headings(heading, columns) < 1) heading++;
    const above = area.top - 1;
    if (heading > limit && above >= 0 && headings(above, columns) > 0)
      this.add(
        'range starts late',
        f,
        `${f.told} reads its list from ${areaName(area)}, below its headings in row ${above + 1}`,
      );
    if (heading > limit) return;
    for (const column of [area.left - 1, area.right + 1]) {
      if (column < 0) continue;
      const text = value(heading, column);
      const beside = columnOfHeading(text);
      const filled = value(heading + 1, column) !== null || value(heading + 2, column) !== null;
      if (beside && !REMARKS.has(beside.name) && filled && !this.look.formula(sheet, heading + 1, column))
        this.add(
          'range stops short',
          f,
          `${f.told} reads its list from ${areaName(area)}, without the column ${columnName(column)} beside it, headed ${typeof text === 'string' ? text : ''}`,
        );
    }
  }

  private ofAssumptions(range: Read): void {
    const { sheet, area, f } = range;
    const isRow = (row: number): boolean => {
      const name = row < 0 ? null : this.look.value(sheet, row, area.left);
      return (
        typeof name === 'string' &&
        (namesOfCorrelation(name)?.every(correlatedNamed) ?? findAssumption(name) !== undefined) &&
        this.look.value(sheet, row, area.left + 1) !== null
      );
    };
    const what = `its assumptions from ${areaName(area)}`;
    if (isRow(area.bottom) && isRow(area.bottom + 1)) this.short(f, what, area.bottom + 1);
    if (isRow(area.top) && isRow(area.top - 1)) this.late(f, what, area.top - 1);
  }

  private ofSums(f: FormulaAt): void {
    for (const { reference, within } of f.read.slots) {
      if (!within || !OF_COLUMNS.has(within.name)) continue;
      const range = this.rangeOf(f, reference);
      // A running sum ends at its own row.
      if (!range || !reference || reference.fixed.top !== reference.fixed.bottom) continue;
      const { sheet, area } = range;
      if (area.left !== area.right) continue;
      this.bothEnds(
        range,
        (from, to) => this.goesOn(sheet, area.left, from, to) && !(f.sheet === sheet && f.row === to),
        `${within.name} over ${areaName(area)}`,
      );
    }
  }

  /** Whether a column goes on from one row to another: by the same formula, the same spill, or figures beside items. */
  private goesOn(sheet: number, column: number, from: number, to: number): boolean {
    const [here, there] = [this.look.formula(sheet, from, column), this.look.formula(sheet, to, column)];
    const [x, y] = [this.look.value(sheet, from, column), this.look.value(sheet, to, column)];
    if (here || there)
      return (
        here !== undefined &&
        there !== undefined &&
        this.groupOf.get(here) === this.groupOf.get(there) &&
        // A heading may be shown by the same formula as what stands below it.
        [x, y].every((value) => typeof value === 'number' || isCellError(value))
      );
    if (typeof x !== 'number' || typeof y !== 'number') return false;
    const spill = this.look.filledBy(sheet, from, column);
    if (spill) return spill === this.look.filledBy(sheet, to, column);
    return this.items.has(rowKey(sheet, from)) && this.items.has(rowKey(sheet, to)) && isSameKind(x, y);
  }

  private bothEnds(range: Read, goes: Goes, what: string): void {
    const { f, sheet, area } = range;
    const isBlank = (row: number): boolean => this.look.isBlank(sheet, row, area.left);
    const gaps = this.hasGaps(sheet, area);
    const step = (edge: number, by: 1 | -1): number | undefined => {
      // Free rows of a list belong to it: only one that is full to its end can stop short.
      const next = edge + by;
      if (next < 0 || next > LAST_ROW) return undefined;
      if (!isBlank(edge)) return isBlank(next) && gaps ? next + by : next;
      return gaps && !isBlank(edge - by) ? next : undefined;
    };
    const from = (edge: number, by: 1 | -1): number => (isBlank(edge) ? edge - by : edge);
    const below = step(area.bottom, 1);
    if (
      below !== undefined &&
      below >= 0 &&
      goes(from(area.bottom, 1), below) &&
      !isTotalRow(this.look, sheet, below) &&
      !this.starts.has(this.edge(sheet, area, area.bottom + 1)) &&
      !this.starts.has(this.edge(sheet, area, below))
    )
      this.short(f, what, below);
    const above = step(area.top, -1);
    if (
      above !== undefined &&
      above >= 0 &&
      goes(from(area.top, -1), above) &&
      !this.ends.has(this.edge(sheet, area, area.top - 1)) &&
      !this.ends.has(this.edge(sheet, area, above))
    )
      this.late(f, what, above);
  }

  /** Whether blank rows lie inside a range, so that what stands after one still belongs to it. */
  private hasGaps(sheet: number, { top, left, bottom }: Area): boolean {
    const key = `${sheet}|${left}|${top}:${bottom}`;
    const known = this.gaps.get(key);
    if (known !== undefined) return known;
    let last = -1;
    let found = false;
    for (let row = top; row <= Math.min(bottom, top + MOST_ROWS) && !found; row++) {
      if (this.look.isBlank(sheet, row, left)) continue;
      found = last >= 0 && row === last + 2;
      last = row;
    }
    this.gaps.set(key, found);
    return found;
  }

  private short(f: FormulaAt, what: string, row: number): void {
    this.add('range stops short', f, `${f.told} reads ${what}; the list goes on in row ${row + 1}`);
  }

  private late(f: FormulaAt, what: string, row: number): void {
    this.add('range starts late', f, `${f.told} reads ${what}; the list begins in row ${row + 1} or before`);
  }

  private add(kind: Kind, f: FormulaAt, text: string): void {
    this.found.push({ kind, cells: [f], text });
  }
}

/** Ranges of ours that slide as they were filled down, where each cell should read the same. */
export function slidingRanges(groups: readonly Group[]): readonly Finding[] {
  return groups.flatMap(({ cells }) => {
    const [first, ...others] = cells;
    if (!first?.ours || others.length === 0) return [];
    return first.read.calls.flatMap((call) =>
      argumentsOf(call, first.read).flatMap(({ name, parameter, isAssume, argument, slot }): readonly Finding[] => {
        const area = slot?.reference?.area;
        if (argument.kind !== 'slot' || !area || area.top === area.bottom) return [];
        if (!isAssume && !(parameter?.kind.kind === 'cells' && LISTS.has(name))) return [];
        const moved = others.filter((f) => {
          const other = f.read.slots[argument.slot]?.reference?.area;
          return other && areaName(other) !== areaName(area);
        });
        if (moved.length === 0) return [];
        const last = moved.at(-1)!;
        const there = last.read.slots[argument.slot]?.reference?.area ?? area;
        return [
          {
            kind: 'range slides',
            cells: [first, ...moved],
            text: `the ${isAssume ? 'assumptions' : name} are read from ${areaName(area)} in ${addressOf(first.row, first.column)} and from ${areaName(there)} in ${addressOf(last.row, last.column)}: a $ is missing`,
          },
        ];
      }),
    );
  });
}
