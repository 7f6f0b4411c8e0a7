import { counted } from '../core/units/counted.ts';
import { scaleLinear } from 'd3-scale';
import { clockText } from './charts/clock-text.ts';
import type { Told } from './charts/told.ts';
import type { Cell } from '../catalogue/cell.ts';
import { tableColumns } from './table-columns.ts';

export interface ScheduleBlock {
  readonly kind: 'before' | 'hot' | 'push' | 'watch';
  readonly item: string;
  /** What is written in it: its mark, or its number in the order where some mark has no room; nothing where that has none. */
  readonly label: string;
  readonly x: number;
  readonly width: number;
}

/** One crew in one shift, or the fire watch of a shift. */
export interface ScheduleLane {
  readonly name: string;
  readonly y: number;
  readonly blocks: readonly ScheduleBlock[];
}

export interface ScheduleChart extends Told {
  readonly width: number;
  readonly height: number;
  readonly lanes: readonly ScheduleLane[];
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  readonly description: string;
  /** Who does what from when to when. */
  readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[];
}

export const SCHEDULE_CHART = {
  width: 340,
  left: 86,
  right: 18,
  row: 20,
  bar: 14,
  top: 4,
  foot: 20,
  letter: 7,
} as const;

interface Span {
  readonly lane: string;
  readonly kind: ScheduleBlock['kind'];
  readonly item: string;
  readonly order: string;
  readonly from: number;
  readonly to: number;
}

const KIND: Readonly<Record<ScheduleBlock['kind'], string>> = {
  before: 'sets up',
  hot: 'burns',
  push: 'presses out',
  watch: 'fire watch',
};
/** Hours between the marks of the scale: about six of them. */
const stepFor = (most: number): number => [0.5, 1, 2, 4].find((s) => most / s <= 7) ?? 6;

/** Hours after midnight of the day a shift starts: `07:30`, or `01:10 (+1)` past midnight. */
function hoursOf(clock: string): number | undefined {
  const [, hour, minute, days = '0'] = /^(\d\d):(\d\d)(?: \(\+(\d+)\))?$/.exec(clock) ?? [];
  return hour === undefined ? undefined : 24 * Number(days) + Number(hour) + Number(minute) / 60;
}
/** The spans of a schedule table, lane by lane: crews of a shift in order, then its fire watch. */
function spansOf(table: readonly (readonly Cell[])[]): readonly Span[] {
  const { rows, text, number } = tableColumns(table);
  return rows.flatMap((row): readonly Span[] => {
    const [item, shift, crew] = [text(row, 'mark'), number(row, 'shift'), number(row, 'crew')];
    const order = String(number(row, 'order') ?? '');
    const clock = (heading: string): number | undefined => hoursOf(text(row, heading));
    const [start, hotFrom, hotTo, done] = [clock('start'), clock('burn from'), clock('burn to'), clock('done')];
    if (item === 'fire watch' && shift !== undefined && hotTo !== undefined && done !== undefined)
      return [{ lane: `shift ${shift} watch`, kind: 'watch', item: '', order, from: hotTo, to: done }];
    const [pushShift, pushFrom] = [number(row, 'push shift'), clock('push from')];
    if (
      shift === undefined ||
      crew === undefined ||
      start === undefined ||
      hotFrom === undefined ||
      hotTo === undefined ||
      pushShift === undefined ||
      pushFrom === undefined ||
      done === undefined
    )
      return [];
    const lane = (n: number): string => `shift ${n} crew ${crew}`;
    return [
      { lane: lane(shift), kind: 'before', item, order, from: start, to: hotFrom },
      { lane: lane(shift), kind: 'hot', item, order, from: hotFrom, to: hotTo },
      { lane: lane(pushShift), kind: 'push', item, order, from: pushFrom, to: done },
    ];
  });
}

/** Bars of a schedule from its table: what each crew does in each shift, and how long the place is watched. Undefined where nothing is scheduled. */
export function scheduleChart(table: readonly (readonly Cell[])[]): ScheduleChart | undefined {
  const spans = spansOf(table);
  if (spans.length === 0) return undefined;
  const { width, left, right, row, top, foot, letter } = SCHEDULE_CHART;
  const first = Math.min(...spans.map((s) => s.from));
  const most = Math.max(...spans.map((s) => s.to));
  const step = stepFor(most - first);
  const begin = Math.floor(first / step + 1e-9) * step;
  const end = Math.ceil(most / step - 1e-9) * step;
  const x = scaleLinear([begin, end], [left, width - right]);
  // Shift by shift, crews before the watch: `crew` comes before `watch` in the alphabet.
  const names = [...new Set(spans.map((s) => s.lane))].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const hasRoom = (words: string, { from, to }: Span): boolean => words.length * letter <= x(to) - x(from) - 2;
  const hot = spans.filter((s) => s.kind === 'hot');
  const byMark = hot.every((s) => hasRoom(s.item, s));
  const labelOf = (s: Span): string => {
    const words = s.kind !== 'hot' ? '' : byMark ? s.item : s.order;
    return hasRoom(words, s) ? words : '';
  };
  const lanes = names.map((name, i): ScheduleLane => ({
    name,
    y: top + i * row,
    blocks: spans
      .filter((s) => s.lane === name)
      .map((s) => ({ kind: s.kind, item: s.item, label: labelOf(s), x: x(s.from), width: x(s.to) - x(s.from) })),
  }));
  const told = names.map((name) => {
    const parts = spans.filter((s) => s.lane === name && s.kind !== 'before').sort((a, b) => a.from - b.from);
    return `${name}: ${parts.map((s) => `${s.kind === 'watch' ? '' : `${KIND[s.kind]} ${s.item} `}${clockText(s.from)} to ${clockText(s.to)}`).join(', ')}`;
  });
  const rows = names.flatMap((name) =>
    spans
      .filter((s) => s.lane === name)
      .sort((a, b) => a.from - b.from)
      .map((s) => ({ name, cells: [`${KIND[s.kind]} ${s.item}`.trim(), clockText(s.from), clockText(s.to)] })),
  );
  const shifts = new Set(names.map((name) => name.split(' ')[1])).size;
  return {
    width,
    height: top + lanes.length * row + foot,
    lanes,
    rows,
    ticks: Array.from({ length: Math.round((end - begin) / step) + 1 }, (_, i) => ({
      x: x(begin + i * step),
      text: clockText(begin + i * step),
    })),
    name: 'rs-shifts',
    title: 'Shifts of the job, hour by hour',
    description: `${told.join('. ')}.`,
    caption: `${counted(shifts, 'shift')}; times of day.${byMark ? '' : ` In order: ${hot.map((s) => `${s.order} ${s.item}`).join('; ')}.`}`,
  };
}
