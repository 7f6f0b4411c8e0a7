import { scaleBand } from 'd3-scale';
import { numberText } from './number-text.ts';
import { scaleOf } from './scale.ts';
import type { Tick, Told } from './told.ts';

/** One thing with what is known of it: a value, its low and high, and values of several series. */
export interface PlotRow {
  readonly name: string;
  readonly value?: number | undefined;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  /** One for each series of the plot. */
  readonly dots?: readonly (number | undefined)[];
}

export interface RowPlot extends Told {
  /** What is measured, with its unit. */
  readonly label: string;
  readonly unit: string;
  /** What the first column of the table is headed. */
  readonly of: string;
  readonly rows: readonly PlotRow[];
  /** Whether values are bars from 0; else they are marks on their own. */
  readonly bars: boolean;
  /** What low and high are called in the table, where they are not those of the value. */
  readonly range?: readonly [low: string, high: string];
  /** Names of the dots of a row; their shapes tell them apart. */
  readonly series?: readonly string[];
  /** A value that all are compared with. */
  readonly mark?: { readonly at: number; readonly name: string };
}

export interface DrawnRow {
  readonly name: string;
  /** Its name in a line or two, as far as there is room for it. */
  readonly shown: readonly string[];
  readonly y: number;
  readonly height: number;
  readonly bar: { readonly x: number; readonly width: number } | undefined;
  readonly range: { readonly from: number; readonly to: number } | undefined;
  readonly value: number | undefined;
  readonly dots: readonly { readonly series: number; readonly x: number }[];
}

export interface DrawnRows {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly foot: number;
  readonly ticks: readonly Tick[];
  readonly mark: { readonly at: number; readonly anchor: 'start' | 'middle' | 'end' } | undefined;
  readonly rows: readonly DrawnRow[];
  readonly description: string;
}

const ROWS = { width: 340, right: 20, top: 16, row: 20, folded: 27, foot: 36, most: 133, letter: 7 } as const;

/** A name as far as its room goes; the table has it whole. */
const cut = (name: string, room: number): string => {
  const letters = Math.floor(room / ROWS.letter);
  return name.length <= letters ? name : `${name.slice(0, Math.max(1, letters - 1)).trimEnd()}…`;
};
/** A name in one line where it has the room, else folded between two words, the second line as far as its room goes. */
export function fold(name: string, room: number): readonly string[] {
  const letters = Math.floor(room / ROWS.letter);
  const at = name.length <= letters ? -1 : name.lastIndexOf(' ', letters);
  return at <= 0 ? [cut(name, room)] : [name.slice(0, at), cut(name.slice(at + 1), room)];
}
/** Room that the longest of some names takes, up to a limit. */
export const roomFor = (names: readonly string[], most: number): number =>
  Math.min(most, Math.max(0, ...names.map((n) => n.length)) * ROWS.letter) + 8;

/** Where the rows stand, in the order that they are given, with the same in words. Pure. */
export function drawRows({ rows, bars, label, unit, series = [], mark }: RowPlot): DrawnRows {
  const values = rows.flatMap((r) => [r.value, r.low, r.high, ...(r.dots ?? [])].filter((v) => v !== undefined));
  const all = [...values, ...(bars ? [0] : []), ...(mark ? [mark.at] : [])];
  const left = roomFor(
    rows.map((r) => r.name),
    ROWS.most,
  );
  const span = Math.max(...all) > Math.min(...all) ? {} : { low: Math.min(0, ...all), high: Math.max(1, ...all) };
  const scale = scaleOf(all, span, [left, ROWS.width - ROWS.right], 4);
  const shown = rows.map((r) => fold(r.name, left - 8));
  const foot = ROWS.top + rows.length * (shown.some((lines) => lines.length > 1) ? ROWS.folded : ROWS.row);
  const bands = scaleBand<number>(
    rows.map((_, i) => i),
    [ROWS.top, foot],
  )
    .paddingInner(0.4)
    .paddingOuter(0.2);
  const place = (v: number): number => Number(scale.at(v).toFixed(1));
  return {
    width: ROWS.width,
    height: foot + ROWS.foot,
    left,
    foot,
    ticks: scale.ticks.map((t) => ({ at: place(t), text: numberText(t, 6) })),
    mark: mark && { at: place(mark.at), anchor: anchorOf(place(mark.at), mark.name) },
    rows: rows.map(({ name, value, low, high, dots = [] }, i) => ({
      name,
      shown: shown[i] ?? [],
      y: Number((bands(i) ?? 0).toFixed(1)),
      height: Number(bands.bandwidth().toFixed(1)),
      bar:
        bars && value !== undefined
          ? { x: place(Math.min(0, value)), width: Number(Math.abs(scale.at(value) - scale.at(0)).toFixed(1)) }
          : undefined,
      range: low !== undefined && high !== undefined ? { from: place(low), to: place(high) } : undefined,
      value: value === undefined ? undefined : place(value),
      dots: dots.flatMap((x, k) => (x === undefined ? [] : [{ series: k, x: place(x) }])),
    })),
    description: `${unit === '' ? label : `${label}, ${unit}`}. ${rows.map((r) => told(r, series)).join('; ')}.`,
  };
}

/** A name over its line, to the side where the middle of it would leave the picture. */
function anchorOf(at: number, name: string): 'start' | 'middle' | 'end' {
  const half = (name.length * ROWS.letter) / 2;
  return at + half > ROWS.width ? 'end' : at - half < 0 ? 'start' : 'middle';
}

function told({ name, value, low, high, dots = [] }: PlotRow, series: readonly string[]): string {
  const range = low !== undefined && high !== undefined ? `${numberText(low)} to ${numberText(high)}` : '';
  const own = value === undefined ? '' : numberText(value);
  const each = dots.flatMap((x, i) => (x === undefined ? [] : [`${series[i] ?? ''} ${numberText(x)}`]));
  const parts = [own !== '' && range !== '' ? `${own} (${range})` : own || range, ...each].filter((t) => t !== '');
  return `${name}: ${parts.length === 0 ? 'nothing' : parts.join(', ')}`;
}
