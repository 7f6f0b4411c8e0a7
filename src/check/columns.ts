import { findFunction } from '../catalogue/catalogue.ts';
import { columnOfHeading, type HeadedColumn } from '../catalogue/read-list.ts';
import { addressOf, columnName } from '../files/xlsx/address.ts';
import type { Group } from './groups.ts';
import { argumentsOf, type FormulaAt, type KnownArgument, type LookedAt } from './looked-at.ts';
import { isSizeLike } from './sizes.ts';
import type { Finding } from './workbook.ts';

/** Rows above a cell that are looked through for what heads it. */
const MOST_ROWS = 5_000;
/** Columns beside a heading in which another of its row is looked for. */
const MOST_COLUMNS = 60;

/** A size with the word that stands over it, or beside it. */
interface Headed {
  readonly column: HeadedColumn;
  readonly text: string;
  /** Row of the headings; undefined for a word beside the cell. */
  readonly row: number | undefined;
}

/** Sizes that are read from under another heading than their own. */
export function wrongColumns(look: LookedAt, groups: readonly Group[]): readonly Finding[] {
  return groups.flatMap(({ cells }) => {
    const [first] = cells;
    if (!first?.ours) return [];
    const wrong = first.read.calls.flatMap((call) => {
      const known = argumentsOf(call, first.read);
      return known.flatMap((each) => whyWrong(look, first, call.name, each, known) ?? []);
    });
    return wrong.length > 0
      ? [{ kind: 'wrong column' as const, cells, text: `${first.told} reads ${wrong.join(', and ')}` }]
      : [];
  });
}

function whyWrong(
  look: LookedAt,
  f: FormulaAt,
  callName: string,
  { name, parameter, slot }: KnownArgument,
  known: readonly KnownArgument[],
): string | undefined {
  const reference = slot?.reference;
  const sheet = reference && look.sheetOf(reference, f);
  if (!reference || sheet === undefined || reference.whole || parameter?.kind.kind !== 'quantity') return undefined;
  const { top, left, right } = reference.area;
  if (left !== right) return undefined;
  const where = columnName(left);
  const result = resultAt(look, sheet, top, left);
  if (result && result.quantity !== parameter.kind.quantity && parameter.kind.quantity === 'length')
    return `${name} from column ${where}, where ${result.name} stands`;
  const label = name === 'pin diameter' ? 'diameter' : name;
  const headed = headingOf(look, sheet, top, left);
  if (!headed || headed.column.name === label) return undefined;
  const { column, text, row } = headed;
  // Pieces and cuts are counted under either word.
  if (label === 'count' && column.name === 'quantity') return undefined;
  if (!['length', 'count'].includes(parameter.kind.quantity)) return undefined;
  const others = new Set(known.map((k) => (k.name === 'pin diameter' ? 'diameter' : k.name)));
  const declared = findFunction(callName)?.parameters ?? {};
  const wrong =
    column.of !== 'sizes' ||
    others.has(column.name) ||
    column.name in declared ||
    (row !== undefined && headedSo(look, sheet, row, left, label));
  return wrong
    ? `${name} from ${row === undefined ? `${addressOf(top, left)} beside` : `column ${where} under`} "${text}"`
    : undefined;
}

/** The function of ours whose result a cell is, with what it is a quantity of. */
function resultAt(look: LookedAt, sheet: number, row: number, column: number) {
  const formula = look.formula(sheet, row, column);
  const [call] = formula?.read.calls ?? [];
  if (!formula || !call || !formula.read.shape.startsWith(`${call.name}(`)) return undefined;
  const d = findFunction(call.name);
  return d?.result.kind === 'value' ? { name: d.name, quantity: d.result.quantity } : undefined;
}

/** What stands over a cell, the nearest text that is no size; or the word beside it. */
function headingOf(look: LookedAt, sheet: number, row: number, column: number): Headed | undefined {
  for (let above = row - 1; above >= Math.max(0, row - MOST_ROWS); above--) {
    const cell = look.value(sheet, above, column);
    if (typeof cell !== 'string' || cell.trim() === '' || isSizeLike(cell) || look.formula(sheet, above, column))
      continue;
    const found = columnOfHeading(cell);
    if (found && found.of !== 'assumption') return { column: found, text: cell, row: above };
    break;
  }
  const beside = column > 0 ? look.value(sheet, row, column - 1) : null;
  if (typeof beside !== 'string') return undefined;
  const found = columnOfHeading(beside);
  return found?.of === 'sizes' ? { column: found, text: beside, row: undefined } : undefined;
}

/** Whether a heading of a row, other than that of one column, is a name. */
function headedSo(look: LookedAt, sheet: number, row: number, but: number, name: string): boolean {
  for (let column = 0; column < but + MOST_COLUMNS; column++)
    if (column !== but && columnOfHeading(look.value(sheet, row, column))?.name === name) return true;
  return false;
}
