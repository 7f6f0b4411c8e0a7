/** Whether the cells of a workbook that read the same list go by the same assumptions. */
import { toCol } from '@borgar/fx';
import { findFunction } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { readAssume } from '../catalogue/read-assume.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { CalcError } from '../core/errors.ts';
import { sheetInFormula } from './assume-formula.ts';
import { findCalls, type FormulaCall, type Operand } from './formula-calls.ts';
import type { SheetPort } from './port.ts';
import { areaOf, movedDown, type Area } from './reference-area.ts';
import { resolveOperands } from './resolve-operands.ts';
import { showNumber, showWithUnit } from './show-cell.ts';
import type { FormulaCell } from './unknown-name.ts';
import { usedAssumptions } from './used-assumptions.ts';

/** Cells that go by one range of assumptions. */
export interface AssumeUse {
  /** As the formulas name it, with its sheet; empty where they have none. */
  readonly assume: string;
  readonly cells: readonly FormulaCell[];
}

/** Cells that read the same list and assume differently. */
export interface DifferingUses {
  readonly uses: readonly AssumeUse[];
  /** What is assumed differently, with its value for each of the uses. */
  readonly differ: readonly { readonly name: string; readonly values: readonly string[] }[];
}

/** A call of ours with what it reads of a list, if anything, and what it assumes. */
interface ListCall {
  readonly cell: FormulaCell;
  readonly areas: readonly Area[];
  readonly operand: Operand | undefined;
  /** Where its assumptions stand; undefined where they are no range of cells. */
  readonly assumeArea: Area | undefined;
  readonly assume: string;
}

/** Parameters that hold a list, or a part of one; others, such as prices, are shared by many jobs. */
const LISTS = ['list', 'sizes', 'items', 'operation', 'depths'];

const isOfAList = (d: Declaration, name: string): boolean => {
  const kind = d.parameters[name]?.kind;
  return kind?.kind === 'cells' ? LISTS.includes(name) : kind?.kind === 'quantity' && kind.quantity === 'length';
};

/** A range as a formula of another sheet would write it, without signs for what stays when it is copied. */
function rangeText({ sheet, top, left, bottom, right }: Area): string {
  const ends = Number.isFinite(bottom) && Number.isFinite(right) ? `:${toCol(right)}${bottom + 1}` : '';
  return `${sheetInFormula(sheet)}!${toCol(left)}${top + 1}${ends}`;
}

function assumeText(operand: Operand | undefined, area: Area | undefined, sheet: string): string {
  if (!operand || operand.kind === 'omitted') return '';
  if (area) return rangeText(area);
  return operand.kind === 'reference' || operand.kind === 'array' ? operand.text : `${sheet}: ${operand.text}`;
}

function listCall(cell: FormulaCell, { name, operands }: FormulaCall): readonly ListCall[] {
  const d = findFunction(name);
  if (!d?.assume) return [];
  const names = Object.keys(d.parameters);
  const areas = operands.flatMap((operand, i): readonly Area[] => {
    const parameter = names[i];
    if (parameter === undefined || operand.kind !== 'reference' || !isOfAList(d, parameter)) return [];
    const area = areaOf(operand.text, cell.sheet);
    return area ? [area] : [];
  });
  const operand = operands[names.length];
  const found = operand?.kind === 'reference' ? areaOf(operand.text, cell.sheet) : undefined;
  const assumeArea = found && Number.isFinite(found.bottom) && Number.isFinite(found.right) ? found : undefined;
  return [{ cell, areas, operand, assumeArea, assume: assumeText(operand, assumeArea, cell.sheet) }];
}

/** References whose row moves when a formula is filled down. */
const MOVING = /(^|[^$\w.])(\$?[A-Z]{1,3})(\d+)(?![\w(])/gi;

const rowOf = ({ address }: FormulaCell): number => Number(/\d+$/.exec(address)?.[0] ?? 0);

/** The calls of all formulas. Of those that were filled down one is taken apart; the others are it, rows further on. */
function callsOf(formulas: readonly FormulaCell[]): readonly ListCall[] {
  const known = new Map<string, { readonly row: number; readonly calls: readonly ListCall[] }>();
  return formulas.flatMap((cell): readonly ListCall[] => {
    const row = rowOf(cell);
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

function fartherDown({ areas, operand, assumeArea, assume }: ListCall, cell: FormulaCell, by: number): ListCall {
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

interface Stretch {
  readonly top: number;
  readonly bottom: number;
  readonly call: ListCall;
}

/** Stretches of cells by sheet and column, so that only those that may meet are compared. */
function byColumn(calls: readonly ListCall[]): readonly Stretch[][] {
  const columns = new Map<string, Stretch[]>();
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
function clashing(calls: readonly ListCall[]): readonly (readonly ListCall[])[] {
  const found = new Set<ListCall>();
  const group = new Map<string, string>();
  const top = (name: string): string => {
    const above = group.get(name);
    return above === undefined || above === name ? name : top(above);
  };
  const node = ({ assume, areas: [area] }: ListCall): string => `${area?.sheet ?? ''}|${assume}`;
  for (const column of byColumn(calls)) {
    const open = new Map<string, Stretch>();
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
  const groups = new Map<string, ListCall[]>();
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

/**
 * Cells of a workbook that read the same list, or a part of it, and assume differently: their figures do not go together. Ranges
 * that hold the same assumptions are no difference. Looks at the formulas alone, and reads a dozen ranges at most.
 */
export async function differingUses(
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read'>,
): Promise<readonly DifferingUses[]> {
  const calls = callsOf(formulas).filter(({ areas }) => areas.length > 0);
  const texts = new Set(
    clashing(calls)
      .flat()
      .map((call) => call.assume),
  );
  if (texts.size === 0 || texts.size > MOST_READ) return [];
  const read = new Map<string, Assumptions | undefined>();
  for (const call of calls)
    if (texts.has(call.assume) && !read.has(call.assume)) read.set(call.assume, await assumptionsOf(call, port));
  // Ranges with the same in them are one.
  const alike = new Map<string, string>();
  for (const [text, a] of read) {
    const same = a && [...alike.values()].find((other) => isSame(a, read.get(other)));
    alike.set(text, same ?? text);
  }
  const merged = calls.map((call) => ({ ...call, assume: alike.get(call.assume) ?? call.assume }));
  return clashing(merged).map((group) => {
    const names = [...new Set(group.map((call) => call.assume))];
    const uses = names.map((assume) => ({
      assume,
      cells: [...new Set(group.filter((call) => call.assume === assume).map((call) => call.cell))],
    }));
    return { uses, differ: differences(names.map((name) => read.get(name))) };
  });
}

async function assumptionsOf(
  { cell, operand }: ListCall,
  port: Pick<SheetPort, 'read'>,
): Promise<Assumptions | undefined> {
  const [argument] = operand
    ? await resolveOperands([operand], (reference) => port.read(reference, cell.sheet, cell.address))
    : [];
  if (argument?.problem !== undefined) return undefined;
  try {
    return readAssume(argument?.argument);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

/** Each departure as it is in force. */
const departures = (a: Assumptions): ReadonlyMap<string, string> =>
  new Map(
    usedAssumptions(new Set(a.departures()), a).map(({ name, value, low, high }) => [
      name,
      JSON.stringify([value, low, high]),
    ]),
  );

function isSame(a: Assumptions, b: Assumptions | undefined): boolean {
  if (!b) return false;
  const [one, other] = [departures(a), departures(b)];
  return one.size === other.size && [...one].every(([name, held]) => other.get(name) === held);
}

function differences(all: readonly (Assumptions | undefined)[]): DifferingUses['differ'] {
  const names = new Set(all.flatMap((a) => a?.departures() ?? []));
  return [...names].flatMap((name) => {
    const values = all.map((a) => {
      const [used] = a ? usedAssumptions(new Set([name]), a) : [];
      if (!used) return 'cannot be read';
      const range =
        used.low === undefined || used.high === undefined
          ? ''
          : ` (${showNumber(used.low)} to ${showNumber(used.high)})`;
      return `${showWithUnit(used.value, used.unit)}${range}`;
    });
    return new Set(values).size > 1 ? [{ name, values }] : [];
  });
}

/** A range that formulas have as their assumptions. */
export interface AssumeRange {
  /** With its sheet. */
  readonly text: string;
  readonly formulas: number;
}

/** The ranges of cells that formulas of the workbook have as `assume`, the most used first. */
export function assumeRanges(formulas: readonly FormulaCell[]): readonly AssumeRange[] {
  const counts = new Map<string, number>();
  for (const { assumeArea, assume } of callsOf(formulas))
    if (assumeArea) counts.set(assume, (counts.get(assume) ?? 0) + 1);
  return [...counts].sort(([, x], [, y]) => y - x).map(([text, count]) => ({ text, formulas: count }));
}
