/**
 * What the cells of a job's plan and of its price come from: the workings of the rows of the list, and that of the price. What is
 * drawn, counted down the list or laid out in a schedule is no formula of anything and stands still.
 */
import { isBlankCell, type Cell } from '../catalogue/cell.ts';
import { costOf, firstListed, JOB_PLAN_COLUMNS } from '../catalogue/job-functions.ts';
import { jobOf, listHeadings } from '../catalogue/read-list.ts';
import { readPrices } from '../catalogue/read-prices.ts';
import { parameterLabel } from '../catalogue/declaration.ts';
import type { Basis } from '../core/basis.ts';
import type { CostLine } from '../core/job/job-cost.ts';
import { nameOf, type ListItem } from '../core/job/job-list.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { sheetNumber } from '../core/model/sheet-formula.ts';
import { supplyOf } from '../core/operations/item-supply.ts';
import { knownUnit, plainUnit } from '../core/units/parse-quantity.ts';
import { converted, type ItemWorking, type ShownCell } from './item-working.ts';
import { gridOf, type PlainOperand } from './operands.ts';

export interface TableParts {
  readonly items: readonly ItemWorking[];
  shown(row: number, column: number): ShownCell | undefined;
}

type Given = Readonly<Record<string, unknown>>;
type Links = (steps: readonly WorkedStep[]) => ReadonlyMap<string, string>;
type Parts = (given: Given, basis: Basis, operands: readonly PlainOperand[], assumed: Links) => TableParts;

/** By the name of the function. */
export const TABLE_PARTS: ReadonlyMap<string, Parts> = new Map<string, Parts>([
  ['BURN.JOB.PLAN', planParts],
  ['BURN.JOB.COST', costParts],
]);

/** Columns that are summed in the row of the total. */
const SUMMED: ReadonlySet<string> = new Set(['quantity', 'rods', 'oxygen', 'burning', 'crew', 'removed']);
/** Columns that hold all pieces of a row together. */
const OF_ALL_PIECES: ReadonlySet<string> = new Set(['rods', 'oxygen', 'burning', 'crew', 'removed']);

function planParts(_given: Given, basis: Basis, [list]: readonly PlainOperand[], assumed: Links): TableParts {
  const grid = (list && gridOf(list)) ?? [];
  const job = jobOf(grid, basis);
  const first = firstListed(job.list);
  const items = job.items.map((item): ItemWorking => {
    const steps = item.sized.allSteps(supplyOf(item.sized, item.basis)).steps();
    const own = list ? sizeLinks(item, grid, list, steps) : new Map<string, string>();
    // Where the row sets assumptions of its own, a link to the job's would be wrong as soon as that is changed.
    const links = item.basis === basis ? new Map([...assumed(steps), ...own]) : own;
    return { title: nameOf(item), steps, links };
  });
  const rowOf = (item: ListItem): number => item.row - first;
  const placeOf = new Map(job.items.map((item, i) => [rowOf(item), i]));
  const total = job.list.rows.findLastIndex((row) => row.kind !== 'blank') - first + 2;
  return {
    items,
    shown: (row, column) => {
      const { heading, ...more } = JOB_PLAN_COLUMNS[column] ?? { heading: '' };
      if (row === total && SUMMED.has(heading)) return { sum: [...placeOf.keys()] };
      const place = placeOf.get(row);
      const item = place === undefined ? undefined : job.items[place];
      if (place === undefined || !item || !list) return undefined;
      const pieces = quantityLink(item, grid, list);
      if (heading === 'quantity') return pieces === undefined ? undefined : { formula: pieces, value: item.quantity };
      if (!('step' in more) || !items[place]?.steps.some(({ symbol }) => symbol === more.step)) return undefined;
      const times = OF_ALL_PIECES.has(heading)
        ? { value: item.quantity, formula: pieces ?? String(item.quantity) }
        : undefined;
      return { item: place, symbol: more.step, quantity: more.quantity, ...(times ? { times } : {}) };
    },
  };
}

/** The columns of the heading that a row of the list stands under; those of bare sizes where there is none. */
function headingsOver(item: ListItem, grid: readonly (readonly Cell[])[]): ReturnType<typeof listHeadings> {
  for (let row = item.row - 2; row >= 0; row--) {
    const found = listHeadings(grid[row] ?? []);
    if (found.filter((heading) => heading !== undefined).length > 1) return found;
  }
  return ['diameter', 'length'].map((column) => ({ column, unit: '' }));
}

function sizeLinks(
  item: ListItem,
  grid: readonly (readonly Cell[])[],
  list: PlainOperand,
  steps: readonly WorkedStep[],
): ReadonlyMap<string, string> {
  const headings = headingsOver(item, grid);
  const { system } = item.basis.a;
  const links = new Map<string, string>();
  for (const { kind, expression, name, symbol, quantity, value } of steps) {
    if (kind !== 'input' || expression !== undefined) continue;
    const column = headings.findIndex((h) => h !== undefined && [h.column, parameterLabel(h.column)].includes(name));
    const unit = knownUnit(headings[column]?.unit ?? '', quantity) ?? plainUnit(quantity, system);
    const row = item.row - 1;
    const link =
      column < 0 ? undefined : converted(list, row, column, grid[row]?.[column] ?? null, quantity, unit, value);
    if (link !== undefined) links.set(symbol, link);
  }
  return links;
}

/** Where the pieces of a row stand, if they do as a number. */
function quantityLink(item: ListItem, grid: readonly (readonly Cell[])[], list: PlainOperand): string | undefined {
  const column = headingsOver(item, grid).findIndex((h) => h?.column === 'quantity');
  const cell = grid[item.row - 1]?.[column];
  return cell === item.quantity ? list.link(item.row - 1, column) : undefined;
}

/** Columns of the price, and the step of a line that each shows. */
const COST_STEPS = [undefined, 'quantity', undefined, 'price', 'amount'] as const;

function costParts(given: Given, basis: Basis, operands: readonly PlainOperand[], assumed: Links): TableParts {
  const { lines, working } = costOf(given as never, basis);
  const steps = working.steps();
  const links = new Map(assumed(steps));
  const prices = operands[1];
  for (const line of lines) {
    const { price: symbol } = line.symbols;
    const link = symbol === undefined || !prices ? undefined : priceLink(line, prices, basis);
    if (symbol !== undefined && link !== undefined) links.set(symbol, link);
  }
  return {
    items: [{ title: '', steps, links }],
    shown: (row, column) => {
      const line = lines[row - 1];
      const what = COST_STEPS[column];
      const symbol = what && line?.symbols[what];
      const quantity = steps.find((step) => step.symbol === symbol)?.quantity;
      if (!line || symbol === undefined || quantity === undefined) return undefined;
      const percent = what === 'price' && line.measure === 'share';
      const times = percent ? { value: 100, formula: '100' } : undefined;
      return { item: 0, symbol, quantity, ...(times ? { times } : {}) };
    },
  };
}

/** What a line's price may be called among the prices. */
function pricedBy(line: CostLine): readonly string[] {
  const [, rod] = /^rod (.+)$/.exec(line.name) ?? [];
  if (rod !== undefined) return [rod, rod.split(' x ')[0] ?? '', ''].map((name) => `rod ${name}`);
  if (line.name === 'crew work') return ['crew'];
  if (line.name === 'crew days') return ['crew day'];
  return line.name === 'standby' ? ['standby', 'crew'] : [line.name];
}

/** The cell that holds a line's price, turned into what its step is. */
function priceLink(line: CostLine, prices: PlainOperand, { a }: Basis): string | undefined {
  const grid = gridOf(prices) ?? [];
  const rows = grid.map((cells) => {
    const { lines, rods, others, shares } = readPrices([cells], a.system);
    return new Map<string, number>([
      ...lines,
      ...shares,
      ...[...rods].map(([name, price]) => [`rod ${name}`, price] as const),
      ...others.map(({ name, amount }) => [name, amount] as const),
    ]);
  });
  for (const name of pricedBy(line)) {
    const row = rows.findIndex((found) => found.has(name));
    const price = rows[row]?.get(name);
    if (price === undefined) continue;
    const cell = grid[row]?.[1];
    if (price !== line.price || typeof cell !== 'number' || isBlankCell(cell) || cell === 0) return undefined;
    const link = prices.link(row, 1);
    const factor = price / cell;
    return link === undefined || factor === 1 ? link : `${link}*${sheetNumber(factor)}`;
  }
  return undefined;
}
