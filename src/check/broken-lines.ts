import { isCellError } from '../catalogue/cell.ts';
import { OPERATION_IDS } from '../core/operations/all.ts';
import { addressOf, areaName } from '../files/xlsx/address.ts';
import { along, blocksOf, type Block, type Direction, type Line } from './lines.ts';
import type { FormulaAt, LookedAt } from './looked-at.ts';
import { isSizeLike, isTotalRow, sizeReferences } from './sizes.ts';
import { keyOf, type Finding, type Place } from './workbook.ts';

/** How far apart two cells of a line may stand and still be neighbours: a blank line between them. */
const NEAR = 2;
/** Cells of a gap that are looked at, and of those past an end. */
const MOST_BESIDE = 200;
const LONG_LINE = 8;
/** Cells that say the same before the next one is held to them. */
const LEAST_ALIKE = 2;

/** Cells that break a filled line: a value or another formula in place of its own, or nothing where a row has its sizes. */
export function brokenLines(look: LookedAt, lines: readonly Line[], isTied: (f: FormulaAt) => boolean): Finding[] {
  const longest = shapesOf(lines);
  const filledDown = cellsFilledDown(lines);
  return lines
    .filter(({ cells }) => isTied(cells[0]!))
    .flatMap((line) => [
      // A cell that is as those above and below it owes nothing to those beside it.
      ...oddCells(line).filter(
        ({ cells }) => line.direction === 'down' || !cells.some((c) => filledDown.has(keyOf(c))),
      ),
      ...besideLine(look, line, longest),
    ]);
}

function cellsFilledDown(lines: readonly Line[]): ReadonlySet<string> {
  return new Set(
    lines.flatMap((line) =>
      line.direction === 'across'
        ? []
        : blocksOf(line).flatMap(({ cells }) => (cells.length > 2 ? cells.map(keyOf) : [])),
    ),
  );
}

/** How many cells of a shape stand in the line of a cell. */
function shapesOf(lines: readonly Line[]): (f: FormulaAt) => number {
  const counts = new Map(lines.flatMap(({ cells }) => cells.map((c): [FormulaAt, number] => [c, cells.length])));
  return (f) => counts.get(f) ?? 1;
}

/** Cells whose formula has the line's shape and says something else. */
function oddCells(line: Line): readonly Finding[] {
  return stretchesOf(line).flatMap((stretch) => oddIn(stretch));
}

/** Parts of a line that stand apart, as lists below one another do, each a line of its own. */
function stretchesOf(line: Line): readonly Line[] {
  const starts = line.cells.flatMap((cell, k) => {
    const before = line.cells[k - 1];
    return !before || along(line.direction, cell) - along(line.direction, before) > NEAR ? [k] : [];
  });
  return starts.map((from, i) => ({
    ...line,
    cells: line.cells.slice(from, starts[i + 1]),
    says: line.says.slice(from, starts[i + 1]),
    exact: line.exact.slice(from, starts[i + 1]),
  }));
}

function oddIn(line: Line): readonly Finding[] {
  if (line.cells.length < 3) return [];
  const blocks = blocksOf(line);
  const most = line.cells.length >= LONG_LINE ? 2 : 1;
  const distance = (x: Block | undefined, y: Block | undefined): number =>
    x && y ? along(line.direction, y.cells[0]!) - along(line.direction, x.cells.at(-1)!) : Infinity;
  return blocks.flatMap((block, i) => {
    if (block.cells.length > most) return [];
    const [before, after] = [blocks[i - 1], blocks[i + 1]];
    const near = [distance(before, block), distance(block, after)];
    const neighbours = before?.says === after?.says ? [before, after] : [];
    const between =
      neighbours.length > 0 &&
      near.every((d) => d <= NEAR) &&
      neighbours.reduce((n, b) => n + (b?.cells.length ?? 0), 0) >= Math.max(2, 2 * block.cells.length);
    const only = before && after ? undefined : (before ?? after);
    // Below a list another formula may close it; in a row of sums each is of its column.
    const atEnd =
      (block.cells[0]!.ours || line.direction === 'across') &&
      only !== undefined &&
      block.cells.length === 1 &&
      only.cells.length >= LEAST_ALIKE &&
      Math.min(...near) === 1;
    const model = between ? before : atEnd ? only : undefined;
    return model
      ? block.cells.map((cell) => ({
          kind: 'differs from its neighbours' as const,
          cells: [cell],
          text: `${cell.told} ${difference(line, cell, nearest(line.direction, model.cells, cell))}`,
        }))
      : [];
  });
}

const nearest = (direction: Direction, cells: readonly FormulaAt[], to: FormulaAt): FormulaAt =>
  cells.reduce((best, c) =>
    Math.abs(along(direction, c) - along(direction, to)) < Math.abs(along(direction, best) - along(direction, to))
      ? c
      : best,
  );

/** What a cell says otherwise than its neighbour. */
function difference({ direction, runs }: Line, cell: FormulaAt, model: FormulaAt): string {
  const by = along(direction, cell) - along(direction, model);
  for (const [i, slot] of cell.read.slots.entries()) {
    const other = model.read.slots[i];
    const run = runs[i];
    if (!other || !run) continue;
    const expected = other.reference ? shifted(other.reference.area, run, by, direction) : other.text;
    const found = slot.reference ? areaName(slot.reference.area) : slot.text;
    const sheets = (slot.reference?.sheet ?? '').toLowerCase() !== (other.reference?.sheet ?? '').toLowerCase();
    if (expected !== found || sheets)
      return `has ${sheets ? slot.text : found} where its neighbours have ${sheets ? other.text : expected}`;
  }
  return `is not as its neighbours are: ${model.told}`;
}

function shifted(
  area: FormulaAt['area'],
  { start, end }: Line['runs'][number],
  by: number,
  direction: Direction,
): string {
  const [first, last] = [start === 'moves' ? by : 0, end === 'moves' ? by : 0];
  return areaName(
    direction === 'down'
      ? { ...area, top: area.top + first, bottom: area.bottom + last }
      : { ...area, left: area.left + first, right: area.right + last },
  );
}

/** What stands in the gaps of a line and past its ends, where the sizes that its formula would read are there. */
function besideLine(look: LookedAt, line: Line, longest: (f: FormulaAt) => number): readonly Finding[] {
  const { cells, says, direction } = line;
  const findings: Finding[] = [];
  const at = (cell: FormulaAt): number => along(direction, cell);
  const placeAt = (model: FormulaAt, position: number): Place =>
    direction === 'down'
      ? { sheet: model.sheet, row: position, column: model.column }
      : { sheet: model.sheet, row: model.row, column: position };
  const valueAt = (model: FormulaAt, position: number): ReturnType<LookedAt['value']> => {
    const { sheet, row, column } = placeAt(model, position);
    return look.value(sheet, row, column);
  };
  const lookAt = (model: FormulaAt, position: number): boolean => {
    const place = placeAt(model, position);
    if (position < 0 || !hasInputs(look, line, model, position - at(model))) return false;
    const found = foundAt(look, model, place, longest);
    if (found) findings.push(found);
    return true;
  };
  cells.slice(1).forEach((next, k) => {
    const cell = cells[k]!;
    if (says[k] !== says[k + 1] || at(next) - at(cell) > MOST_BESIDE) return;
    for (let position = at(cell) + 1; position < at(next); position++) lookAt(cell, position);
  });
  for (const { cells: part, says: told } of stretchesOf(line)) {
    if (part.length < LEAST_ALIKE) continue;
    const [first, last] = [part[0]!, part.at(-1)!];
    // What stands above the first may be its heading.
    if (told[0] === told[1] && typeof valueAt(first, at(first) - 1) !== 'string') lookAt(first, at(first) - 1);
    if (told.at(-1) !== told.at(-2)) continue;
    for (let position = at(last) + 1; position <= at(last) + MOST_BESIDE; position++)
      if (cells.some((c) => at(c) === position) || !lookAt(last, position)) break;
  }
  return joined(findings);
}

/** Missing formulas one after the other are one finding. */
function joined(findings: readonly Finding[]): Finding[] {
  const missing = findings.filter((f) => f.kind === 'formula missing');
  if (missing.length < 2) return [...findings];
  return [
    ...findings.filter((f) => f.kind !== 'formula missing'),
    { ...missing[0]!, cells: missing.flatMap((f) => f.cells) },
  ];
}

/** Whether the cells that a line's formula would read at another place of the line hold what it needs. */
function hasInputs(look: LookedAt, line: Line, model: FormulaAt, by: number): boolean {
  const { direction, runs } = line;
  const valueAt = (sheet: number, row: number, column: number): ReturnType<LookedAt['value']> =>
    direction === 'down' ? look.value(sheet, row + by, column) : look.value(sheet, row, column + by);
  if (model.ours) {
    const needed = sizeReferences(look, model).filter(({ reference: { area }, slot }) => {
      const run = runs[slot];
      return area.top === area.bottom && area.left === area.right && run?.start === 'moves';
    });
    if (needed.length === 0) return false;
    const rows = needed.map((n) => n.reference.area.top + (direction === 'down' ? by : 0));
    return (
      needed.every(({ sheet, reference: { area } }) => isSizeLike(valueAt(sheet, area.top, area.left))) &&
      !(direction === 'down' && needed.some((n, i) => isTotalRow(look, n.sheet, rows[i]!)))
    );
  }
  const moving = model.read.slots.flatMap((slot, i) => {
    const sheet = slot.reference && look.sheetOf(slot.reference, model);
    const run = runs[i];
    return slot.reference && sheet !== undefined && run?.start === 'moves' && run.end === 'moves'
      ? [{ sheet, area: slot.reference.area }]
      : [];
  });
  if (direction === 'down' && isTotalRow(look, model.sheet, model.row + by)) return false;
  return (
    moving.length > 0 &&
    moving.every(({ sheet, area }) => {
      // The first and last cells of a range stand for all of it.
      const ends = [valueAt(sheet, area.top, area.left), valueAt(sheet, area.bottom, area.right)];
      return ends.every((v) => typeof v === 'number');
    })
  );
}

function foundAt(
  look: LookedAt,
  model: FormulaAt,
  place: Place,
  longest: (f: FormulaAt) => number,
): Finding | undefined {
  const { sheet, row, column } = place;
  if (look.filledBy(sheet, row, column)) return undefined;
  const like = `${addressOf(model.row, model.column)} has ${model.told}`;
  const formula = look.formula(sheet, row, column);
  if (formula)
    return longest(formula) > 2 || formula.read.shape === model.read.shape || isAnotherOperation(formula, model)
      ? undefined
      : {
          kind: 'differs from its neighbours',
          cells: [place],
          text: `${formula.told} is another formula than its neighbours have; ${like}`,
        };
  const value = look.value(sheet, row, column);
  if (look.isBlank(sheet, row, column))
    return model.ours
      ? { kind: 'formula missing', cells: [place], text: `the sizes are there, the formula is not; ${like}` }
      : undefined;
  if (!model.ours && typeof value !== 'number') return undefined;
  return {
    kind: 'typed over',
    cells: [place],
    text: `${told(value)} is typed where its neighbours have a formula; ${like}`,
  };
}

const told = (value: ReturnType<LookedAt['value']>): string =>
  isCellError(value) ? value.error : typeof value === 'string' ? `"${value.slice(0, 40)}"` : String(value);

/** A list may hold pins, holes and cuts one below the other, each with its own function. */
function isAnotherOperation(x: FormulaAt, y: FormulaAt): boolean {
  const [one, other] = [operationOf(x), operationOf(y)];
  return one !== undefined && other !== undefined && one !== other;
}

function operationOf({ read }: FormulaAt): string | undefined {
  const words = read.calls.map(({ name }) => name.split('.')[1] ?? '');
  return words.find((word) => (OPERATION_IDS as readonly string[]).includes(word));
}
