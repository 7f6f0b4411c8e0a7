import type { Cell } from '../catalogue/cell.ts';
import { showNumber } from './show-cell.ts';
import { tableColumns } from './table-columns.ts';

/** The chances of one line of a load to fall short, as bars. */
export interface StockBar {
  readonly name: string;
  /** Percent, as the sheet shows them. */
  readonly load: number;
  readonly sum: number;
  readonly y: number;
  readonly loadWidth: number;
  readonly sumWidth: number;
}

export interface StockChart {
  readonly width: number;
  readonly height: number;
  readonly bars: readonly StockBar[];
  /** Where the percentages of the scale stand. */
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  readonly title: string;
  readonly description: string;
  readonly caption: string;
}

export const STOCK_CHART = { width: 340, left: 104, right: 34, row: 30, bar: 9, top: 6, foot: 20 } as const;

const percent = (x: number): string => `${showNumber(Number(x.toPrecision(2)))}%`;
/** End of the scale: the next of 10, 20, 50 or 100 percent. */
const scaleFor = (most: number): number => [10, 20, 50].find((s) => most <= s) ?? 100;

/** How often each line of a load would fall short, loaded as advised and as the plans add up; undefined where the table has no such lines. */
export function stockChart(table: readonly (readonly Cell[])[]): StockChart | undefined {
  const { rows, text, number } = tableColumns(table);
  const lines = rows.flatMap((row) => {
    const [name, load, sum] = [text(row, 'load'), number(row, 'load falls short'), number(row, 'sum falls short')];
    // Oxygen comes in the cylinders, which have a line of their own.
    return name === 'oxygen' || load === undefined || sum === undefined ? [] : [{ name, load, sum }];
  });
  const all = lines.find((l) => l.name === 'all together');
  if (!all) return undefined;
  const { width, left, right, row, top, foot } = STOCK_CHART;
  const scale = scaleFor(Math.max(...lines.flatMap((l) => [l.load, l.sum])));
  const length = (p: number): number => (p / scale) * (width - left - right);
  const caption = `Loaded as advised, something runs short on ${percent(all.load)} of such jobs; loaded as the plans add up, on ${percent(all.sum)}.`;
  return {
    width,
    height: top + lines.length * row + foot,
    bars: lines.map((l, i) => ({ ...l, y: top + i * row, loadWidth: length(l.load), sumWidth: length(l.sum) })),
    ticks: [0, scale / 2, scale].map((p) => ({ x: left + length(p), text: percent(p) })),
    title: 'How often a load falls short',
    description: `${lines.map((l) => `${l.name}: ${percent(l.load)} as advised, ${percent(l.sum)} as the plans add up`).join('; ')}. ${caption}`,
    caption,
  };
}

export const showPercent = percent;
