import { isCellError, type Cell } from '../../catalogue/cell.ts';
import { callsOf, rangesToRead } from '../../check/differing-assumptions.ts';
import { LookedAt } from '../../check/looked-at.ts';
import type { CheckedCell, CheckedWorkbook, Place, Recalculated } from '../../check/workbook.ts';
import { areaName, readAddress, sheetPrefix, type Area } from '../../files/xlsx/address.ts';
import { areaOf } from '../../formula/reference-area.ts';
import { isKnown, readSelectedCell } from '../explain-cell.ts';
import { whatMoves } from '../moves/what-moves.ts';
import type { SheetPort } from '../port.ts';
import { showCell } from '../show-cell.ts';
import type { FormulaCell } from '../unknown-name.ts';

/** Rows and columns round the formulas that are read with them: what a range leaves out stands there. */
const ROUND = 3;
/** Cells of a sheet that are read at most; of a larger one, those nearest its first formula. */
const MOST_CELLS = 200_000;

/** The workbook behind the pane as the check takes it: all formulas, with what stands round them and what they read. */
export async function readForCheck(
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read'>,
): Promise<CheckedWorkbook> {
  const names = [...new Set(formulas.map((f) => f.sheet))];
  const onSheet = (name: string): readonly (CheckedCell & { readonly formula: string })[] =>
    formulas.flatMap((f) => {
      const at = f.sheet === name ? readAddress(f.address) : undefined;
      return at ? [{ ...at, value: f.value, formula: f.formula }] : [];
    });
  const first = new LookedAt({ sheets: names.map((name) => ({ name, cells: onSheet(name) })) });
  const known = new Map(names.map((name): [string, string] => [name.toLowerCase(), name]));
  const areas = new Map<string, Area>();
  const add = (sheet: string, area: Area): void => {
    const name = known.get(sheet.toLowerCase()) ?? sheet;
    known.set(name.toLowerCase(), name);
    const before = areas.get(name) ?? area;
    areas.set(name, {
      top: Math.min(before.top, area.top),
      left: Math.min(before.left, area.left),
      bottom: Math.max(before.bottom, area.bottom),
      right: Math.max(before.right, area.right),
    });
  };
  for (const f of first.formulas) {
    add(names[f.sheet] ?? '', { top: f.row, left: f.column, bottom: f.row, right: f.column });
    for (const { reference } of f.read.slots)
      if (reference && !reference.whole) add(reference.sheet ?? names[f.sheet] ?? '', reference.area);
  }
  const sheets = await Promise.all(
    [...areas].map(async ([name, area]) => {
      const cells = onSheet(name);
      const standing = new Set(cells.map((c) => `${c.row}|${c.column}`));
      return { name, cells: [...cells, ...(await valuesOf(port, name, widened(area), standing))] };
    }),
  );
  return { sheets, named: await namedAssumptions(formulas, port) };
}

/** What stands in the names that formulas have as their assumptions. */
async function namedAssumptions(
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read'>,
): Promise<ReadonlyMap<string, readonly (readonly Cell[])[]>> {
  const named = new Map<string, readonly (readonly Cell[])[]>();
  for (const { operand, cell } of rangesToRead(callsOf(formulas))) {
    if (operand?.kind !== 'reference' || areaOf(operand.text, cell.sheet)) continue;
    const rows = await port.read(operand.text, cell.sheet, cell.address).catch(() => undefined);
    if (rows) named.set(operand.text, rows);
  }
  return named;
}

function widened({ top, left, bottom, right }: Area): Area {
  const [first, last] = [Math.max(0, left - ROUND), right + ROUND];
  const rows = Math.max(1, Math.floor(MOST_CELLS / (last - first + 1)));
  // What heads a list stands above it, however far.
  return { top: 0, left: first, bottom: Math.min(bottom + ROUND, Math.max(0, top - ROUND) + rows - 1), right: last };
}

async function valuesOf(
  port: Pick<SheetPort, 'read'>,
  sheet: string,
  area: Area,
  standing: ReadonlySet<string>,
): Promise<readonly CheckedCell[]> {
  const name = areaName(area);
  // A sheet that is gone since is one that formulas cannot read either.
  const rows = await port.read(`${sheetPrefix(sheet)}${name}`, sheet, 'A1').catch((): Cell[][] => []);
  return rows.flatMap((row, r) =>
    row.flatMap((value, c) => {
      const [at, column] = [area.top + r, area.left + c];
      return value === null || standing.has(`${at}|${column}`) ? [] : [{ row: at, column, value }];
    }),
  );
}

/** Cells whose reasons are looked for one by one. */
const MOST_ERRORS = 200;

/** What came of calculating the cells of ours anew: the reasons of errors, and what would move. */
export async function recalculatedFor(
  { sheets }: CheckedWorkbook,
  formulas: readonly FormulaCell[],
  port: Pick<SheetPort, 'read'>,
  progress: (done: number, of: number) => void,
): Promise<readonly Recalculated[]> {
  const placeOf = ({ sheet, address }: Pick<FormulaCell, 'sheet' | 'address'>): Place => ({
    sheet: sheets.findIndex((s) => s.name === sheet),
    ...(readAddress(address) ?? { row: 0, column: 0 }),
  });
  const { moved } = await whatMoves(formulas, port, progress);
  const found = new Map<string, Recalculated>();
  for (const m of moved) {
    const at = placeOf(m);
    const error = isCellError(m.after) ? m.after.message || m.after.error : undefined;
    const text = error ?? `${showCell(m.before) || 'blank'} -> ${showCell(m.after) || 'blank'}`;
    found.set(`${m.sheet}!${m.address}`, { ...at, of: at, is: error === undefined ? 'moved' : 'error', text });
  }
  const failed = formulas.filter((f) => isCellError(f.value) && !found.has(`${f.sheet}!${f.address}`));
  for (const cell of failed.slice(0, MOST_ERRORS)) {
    const { calls } = await readSelectedCell(cell, port);
    const message = calls.flatMap((call) =>
      isKnown(call) ? (call.results ?? []).flat().flatMap((c) => (isCellError(c) ? [c.message] : [])) : [call.problem],
    )[0];
    if (message)
      found.set(`${cell.sheet}!${cell.address}`, { ...placeOf(cell), of: placeOf(cell), is: 'error', text: message });
  }
  return [...found.values()];
}
