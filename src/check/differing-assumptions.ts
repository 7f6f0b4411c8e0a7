/** Whether the cells of a workbook that read the same list go by the same assumptions. */
import { findFunction } from '../catalogue/catalogue.ts';
import { correlationName } from '../catalogue/correlation-rows.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { readAssume } from '../catalogue/read-assume.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { fingerprintOf } from '../core/assumptions/fingerprint.ts';
import { showAssumption } from '../core/assumptions/show-assumption.ts';
import { CalcError } from '../core/errors.ts';
import { shown } from '../core/messages.ts';
import { findCalls, type FormulaCall, type Operand } from '../formula/formula-calls.ts';
import { areaName, sheetPrefix } from '../files/xlsx/address.ts';
import { areaOf, movedDown, type Area } from '../formula/reference-area.ts';
import type { Argument } from '../sheet/host-function.ts';

/** A cell with a formula. */
interface InCell {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string;
}

/** Cells that go by one range of assumptions. */
export interface AssumeUse<C extends InCell> {
  /** As the formulas name it, with its sheet; empty where they have none. */
  readonly assume: string;
  readonly cells: readonly C[];
}

/** Cells that read the same list and assume differently. */
export interface DifferingUses<C extends InCell> {
  readonly uses: readonly AssumeUse<C>[];
  /** What is assumed differently, with its value for each of the uses. */
  readonly differ: readonly { readonly name: string; readonly values: readonly string[] }[];
}

/** A call of ours with what it reads of a list, if anything, and what it assumes. */
export interface ListCall<C extends InCell> {
  readonly cell: C;
  readonly areas: readonly Area[];
  readonly operand: Operand | undefined;
  /** Where its assumptions stand; undefined where they are no range of cells. */
  readonly assumeArea: Area | undefined;
  readonly assume: string;
}

/** Parameters that hold a list, or a part of one; others, such as prices, are shared by many jobs. */
const LISTS = ['list', 'sizes', 'items', 'operation', 'depths'];

/**
 * What a call reads of a list: cells, or what has a name. A name is taken for a place of its own, and so is a table, with its
 * rows told apart where a formula reads its own row of it.
 */
function listArea(reference: string, { sheet, address }: InCell): Area | undefined {
  const area = areaOf(reference, sheet);
  const [, name = ''] = /^([\p{L}\p{N}_.\\!]+)(\[.*)?$/u.exec(reference) ?? [];
  if (area || name === '') return area;
  const own = /\[(@|#This Row)/i.test(reference);
  const [top, bottom] = own ? [rowOf(address), rowOf(address)] : [0, Infinity];
  return { sheet: name, top, bottom, left: 0, right: 0, stays: [!own, !own] };
}

const isOfAList = (d: Declaration, name: string): boolean => {
  const kind = d.parameters[name]?.kind;
  return kind?.kind === 'cells' ? LISTS.includes(name) : kind?.kind === 'quantity' && kind.quantity === 'length';
};

/** A range as a formula of another sheet would write it, without signs for what stays when it is copied. */
const rangeText = (area: Area): string => `${sheetPrefix(area.sheet)}${areaName(area)}`;

function assumeText(operand: Operand | undefined, area: Area | undefined, sheet: string): string {
  if (!operand || operand.kind === 'omitted') return '';
  if (area) return rangeText(area);
  return operand.kind === 'reference' || operand.kind === 'array' ? operand.text : `${sheet}: ${operand.text}`;
}

function listCall<C extends InCell>(cell: C, { name, operands }: FormulaCall): readonly ListCall<C>[] {
  const d = findFunction(name);
  if (!d?.assume) return [];
  const names = Object.keys(d.parameters);
  const areas = operands.flatMap((operand, i): readonly Area[] => {
    const parameter = names[i];
    if (parameter === undefined || operand.kind !== 'reference' || !isOfAList(d, parameter)) return [];
    const area = listArea(operand.text, cell);
    return area ? [area] : [];
  });
  const operand = operands[names.length];
  const found = operand?.kind === 'reference' ? areaOf(operand.text, cell.sheet) : undefined;
  const assumeArea = found && Number.isFinite(found.bottom) && Number.isFinite(found.right) ? found : undefined;
  return [{ cell, areas, operand, assumeArea, assume: assumeText(operand, assumeArea, cell.sheet) }];
}

/** References whose row moves when a formula is filled down. */
const MOVING = /(^|[^$\w.])(\$?[A-Z]{1,3})(\d+)(?![\w(])/gi;

const rowOf = (address: string): number => Number(/\d+$/.exec(address)?.[0] ?? 0);

/** The calls of all formulas that may have assumptions. Of those that were filled down one is taken apart; the others are it, rows further on. */
export function callsOf<C extends InCell>(formulas: readonly C[]): readonly ListCall<C>[] {
  const known = new Map<string, { readonly row: number; readonly calls: readonly ListCall<C>[] }>();
  return formulas.flatMap((cell): readonly ListCall<C>[] => {
    const row = rowOf(cell.address);
    const moving = cell.formula.replace(
      MOVING,
      (_, before: string, column: string, at: string) => `${before}${column}[${Number(at) - row}]`,
    );
    const key = `${cell.sheet}|${moving}`;
    const first = known.get(key) ?? { row, calls: findCalls(cell.formula).flatMap((call) => listCall(cell, call)) };
    known.set(key, first);
    const by = row - first.row;
    return by === 0 ? first.calls : first.calls.map((call) => fartherDown(call, cell, by));
  });
}

function fartherDown<C extends InCell>(
  { areas, operand, assumeArea, assume }: ListCall<C>,
  cell: C,
  by: number,
): ListCall<C> {
  const moved = assumeArea && movedDown(assumeArea, by);
  return {
    cell,
    areas: areas.map((area) => movedDown(area, by)),
    operand: moved && operand ? { kind: 'reference', text: rangeText(moved) } : operand,
    assumeArea: moved,
    assume: moved ? rangeText(moved) : assume,
  };
}

/** More columns of one range than these are not looked at: no list has them. */
const MOST_COLUMNS = 60;

interface Stretch<C extends InCell> {
  readonly top: number;
  readonly bottom: number;
  readonly call: ListCall<C>;
}

/** Stretches of cells by sheet and column, so that only those that may meet are compared. */
function byColumn<C extends InCell>(calls: readonly ListCall<C>[]): readonly Stretch<C>[][] {
  const columns = new Map<string, Stretch<C>[]>();
  for (const call of calls) {
    for (const { sheet, top, bottom, left, right } of call.areas) {
      for (let column = left; column <= Math.min(right, left + MOST_COLUMNS); column++) {
        const key = `${sheet.toLowerCase()}|${column}`;
        const stretches = columns.get(key) ?? [];
        stretches.push({ top, bottom, call });
        columns.set(key, stretches);
      }
    }
  }
  return [...columns.values()];
}

/** Calls that share cells of a list with one that assumes otherwise, in groups that hang together. */
function clashing<C extends InCell>(calls: readonly ListCall<C>[]): readonly (readonly ListCall<C>[])[] {
  const found = new Set<ListCall<C>>();
  const group = new Map<string, string>();
  const top = (name: string): string => {
    const above = group.get(name);
    return above === undefined || above === name ? name : top(above);
  };
  const node = ({ assume, areas: [area] }: ListCall<C>): string => `${area?.sheet ?? ''}|${assume}`;
  for (const column of byColumn(calls)) {
    const open = new Map<string, Stretch<C>>();
    for (const stretch of column.sort((x, y) => x.top - y.top)) {
      for (const [assume, other] of open) {
        if (assume === stretch.call.assume || other.bottom < stretch.top) continue;
        found.add(stretch.call).add(other.call);
        group.set(top(node(stretch.call)), top(node(other.call)));
      }
      const longest = open.get(stretch.call.assume);
      if (!longest || longest.bottom < stretch.bottom) open.set(stretch.call.assume, stretch);
    }
  }
  const groups = new Map<string, ListCall<C>[]>();
  // Whoever goes by the same assumptions on the same list belongs to the group, also where another of them met the clash.
  const clash = new Set([...found].map(node));
  for (const call of calls) {
    if (!clash.has(node(call))) continue;
    const name = top(node(call));
    const all = groups.get(name) ?? [];
    all.push(call);
    groups.set(name, all);
  }
  return [...groups.values()];
}

/** More ways to assume than these are not read. */
const MOST_READ = 12;

const isCalculated = ({ operand }: ListCall<InCell>): boolean =>
  operand?.kind === 'call' || operand?.kind === 'formula' || operand?.kind === 'arithmetic';

/** What the rest needs to know of each range that cells assume differently by: a call that has it as its assumptions. */
export function rangesToRead<C extends InCell>(calls: readonly ListCall<C>[]): readonly ListCall<C>[] {
  const texts = new Map(
    clashing(compared(calls))
      .flat()
      .map((call) => [call.assume, call]),
  );
  return texts.size > MOST_READ ? [] : [...texts.values()];
}

/** Of assumptions that a formula works out nothing is known here. */
const compared = <C extends InCell>(calls: readonly ListCall<C>[]): readonly ListCall<C>[] =>
  calls.filter((call) => call.areas.length > 0 && !isCalculated(call));

/**
 * Cells of a workbook that read the same list, or a part of it, and assume differently: their figures do not go together. Ranges
 * that hold the same assumptions are no difference. `held` is what stands in the ranges of `rangesToRead`, undefined where that is
 * no assumptions; calls whose range is not in it are left out.
 */
export function differingUses<C extends InCell>(
  calls: readonly ListCall<C>[],
  held: ReadonlyMap<string, Assumptions | undefined>,
): readonly DifferingUses<C>[] {
  // Ranges with the same in them are one.
  const alike = new Map<string, string>();
  for (const [text, a] of held) {
    const same = a && [...alike.values()].find((other) => isSame(a, held.get(other)));
    alike.set(text, same ?? text);
  }
  const merged = compared(calls).flatMap((call) => {
    const assume = alike.get(call.assume);
    return assume === undefined ? [] : [{ ...call, assume }];
  });
  return clashing(merged).map((group) => {
    const names = [...new Set(group.map((call) => call.assume))];
    const uses = names.map((assume) => ({
      assume,
      cells: [...new Set(group.filter((call) => call.assume === assume).map((call) => call.cell))],
    }));
    return { uses, differ: [differences, correlationsOf].flatMap((of) => of(names.map((name) => held.get(name)))) };
  });
}

/** The assumptions that stand in an argument; undefined where they cannot be read. */
export function assumptionsIn(argument: Argument): Assumptions | undefined {
  try {
    return readAssume(argument);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

const isSame = (a: Assumptions, b: Assumptions | undefined): boolean =>
  b !== undefined && fingerprintOf(a) === fingerprintOf(b);

function differences(all: readonly (Assumptions | undefined)[]): DifferingUses<InCell>['differ'] {
  const names = new Set(all.flatMap((a) => a?.departures() ?? []));
  return [...names].flatMap((name) => {
    const values = all.map((a) => (a ? showAssumption(name, a) : 'cannot be read'));
    return new Set(values).size > 1 ? [{ name, values }] : [];
  });
}

/** How each has its correlations, by their names. */
const correlationsOf = (all: readonly (Assumptions | undefined)[]): DifferingUses<InCell>['differ'] => {
  const each = all.map((a) => new Map(a?.correlations.map(({ names, value }) => [correlationName(names), value])));
  return [...new Set(each.flatMap((one) => [...one.keys()]))].flatMap((name) => {
    const values = each.map((one, i) => (all[i] ? shown(one.get(name) ?? 0) : 'cannot be read'));
    return new Set(values).size > 1 ? [{ name, values }] : [];
  });
};

/** A range that formulas have as their assumptions. */
export interface AssumeRange {
  /** With its sheet. */
  readonly text: string;
  readonly formulas: number;
}

/** The ranges of cells that formulas of the workbook have as `assume`, the most used first. */
export function assumeRanges(formulas: readonly InCell[]): readonly AssumeRange[] {
  const counts = new Map<string, number>();
  for (const { assumeArea, assume } of callsOf(formulas))
    if (assumeArea) counts.set(assume, (counts.get(assume) ?? 0) + 1);
  return [...counts].sort(([, x], [, y]) => y - x).map(([text, count]) => ({ text, formulas: count }));
}
