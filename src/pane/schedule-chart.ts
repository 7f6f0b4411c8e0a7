import type { Cell } from '../catalogue/cell.ts';
import { showNumber } from './show-cell.ts';
import { tableColumns } from './table-columns.ts';

export interface ScheduleBlock {
  readonly kind: 'before' | 'hot' | 'push' | 'watch';
  readonly item: string;
  readonly x: number;
  readonly width: number;
}

/** One crew in one shift, or the fire watch of a shift. */
export interface ScheduleLane {
  readonly name: string;
  readonly y: number;
  readonly blocks: readonly ScheduleBlock[];
}

export interface ScheduleChart {
  readonly width: number;
  readonly height: number;
  readonly lanes: readonly ScheduleLane[];
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  readonly title: string;
  readonly description: string;
  readonly caption: string;
}

export const SCHEDULE_CHART = { width: 340, left: 86, right: 8, row: 20, bar: 14, top: 4, foot: 20 } as const;

interface Span {
  readonly lane: string;
  readonly kind: ScheduleBlock['kind'];
  readonly item: string;
  readonly from: number;
  readonly to: number;
}

const KIND: Readonly<Record<ScheduleBlock['kind'], string>> = {
  before: 'sets up',
  hot: 'burns',
  push: 'presses out',
  watch: 'fire watch',
};
const hours = (x: number): string => showNumber(Number(x.toFixed(1)));
/** Hours between the marks of the scale: about six of them. */
const stepFor = (most: number): number => [0.5, 1, 2, 4].find((s) => most / s <= 7) ?? 6;

/** The spans of a schedule table, lane by lane: crews of a shift in order, then its fire watch. */
function spansOf(table: readonly (readonly Cell[])[]): readonly Span[] {
  const { rows, text, number } = tableColumns(table);
  return rows.flatMap((row): readonly Span[] => {
    const [item, shift, crew] = [text(row, 'item'), number(row, 'shift'), number(row, 'crew')];
    const [start, hotFrom, hotTo, done] = [
      number(row, 'start'),
      number(row, 'burn from'),
      number(row, 'burn to'),
      number(row, 'done'),
    ];
    if (item === 'fire watch' && shift !== undefined && hotTo !== undefined && done !== undefined)
      return [{ lane: `shift ${shift} watch`, kind: 'watch', item: '', from: hotTo, to: done }];
    const [pushShift, pushFrom] = [number(row, 'push shift'), number(row, 'push from')];
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
      { lane: lane(shift), kind: 'before', item, from: start, to: hotFrom },
      { lane: lane(shift), kind: 'hot', item, from: hotFrom, to: hotTo },
      { lane: lane(pushShift), kind: 'push', item, from: pushFrom, to: done },
    ];
  });
}

/** Bars of a schedule from its table: what each crew does in each shift, and how long the place is watched. Undefined where nothing is scheduled. */
export function scheduleChart(table: readonly (readonly Cell[])[]): ScheduleChart | undefined {
  const spans = spansOf(table);
  if (spans.length === 0) return undefined;
  const { width, left, right, row, top, foot } = SCHEDULE_CHART;
  const most = Math.max(...spans.map((s) => s.to));
  const step = stepFor(most);
  const end = Math.ceil(most / step - 1e-9) * step;
  const x = (h: number): number => left + (h / end) * (width - left - right);
  // Shift by shift, crews before the watch: `crew` comes before `watch` in the alphabet.
  const names = [...new Set(spans.map((s) => s.lane))].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const lanes = names.map((name, i): ScheduleLane => ({
    name,
    y: top + i * row,
    blocks: spans
      .filter((s) => s.lane === name)
      .map(({ kind, item, from, to }) => ({ kind, item, x: x(from), width: x(to) - x(from) })),
  }));
  const told = names.map((name) => {
    const parts = spans.filter((s) => s.lane === name && s.kind !== 'before').sort((a, b) => a.from - b.from);
    return `${name}: ${parts.map((s) => `${s.kind === 'watch' ? '' : `${KIND[s.kind]} ${s.item} `}${hours(s.from)} to ${hours(s.to)} h`).join(', ')}`;
  });
  const shifts = new Set(names.map((name) => name.split(' ')[1])).size;
  return {
    width,
    height: top + lanes.length * row + foot,
    lanes,
    ticks: Array.from({ length: Math.round(end / step) + 1 }, (_, i) => ({
      x: x(i * step),
      text: `${hours(i * step)} h`,
    })),
    title: 'Shifts of the job, hour by hour',
    description: `${told.join('. ')}.`,
    caption: `${shifts} ${shifts === 1 ? 'shift' : 'shifts'}; hours from the start of each.`,
  };
}
