import { PLOT } from './line-plot.ts';
import { numberText } from './number-text.ts';
import { fold } from './row-plot.ts';
import { scaleOf } from './scale.ts';
import type { Tick, Told } from './told.ts';

/** One thing with the values at its two ends, or one value. */
export interface Bar {
  readonly name: string;
  readonly low?: number | undefined;
  readonly high: number | undefined;
}

export interface BarPlot extends Told {
  /** What the bars measure, with its unit. */
  readonly label: string;
  readonly unit: string;
  /** What the two ends are called; one word where each has one value. */
  readonly ends: readonly [string, string] | readonly [string];
  /** Value the bars start from. */
  readonly base: number;
  readonly bars: readonly Bar[];
  /** What the first column of the table is headed. */
  readonly of: string;
}

export interface DrawnBar {
  readonly name: string;
  /** Its name in a line or two, as far as there is room for it. */
  readonly shown: readonly string[];
  readonly y: number;
  readonly ends: readonly {
    readonly end: 'low' | 'high';
    readonly x: number;
    readonly width: number;
    readonly text: string;
    readonly textX: number;
    readonly anchor: 'start' | 'end';
  }[];
}

export interface DrawnBars {
  readonly width: number;
  readonly height: number;
  readonly ticks: readonly Tick[];
  readonly base: number;
  /** Height of a row. */
  readonly row: number;
  readonly bars: readonly DrawnBar[];
  readonly description: string;
}

export const BARS = { left: 136, right: 18, top: 8, row: 19, folded: 27, bar: 11, foot: 38 } as const;
/** Room for a value beyond the end of its bar. */
const VALUE = 30;

/** Two ends on one side: the shorter lies in front of the longer, without its number, which the table has. */
function inFront(ends: DrawnBar['ends']): DrawnBar['ends'] {
  const [first, second] = ends;
  if (!first || !second || first.anchor !== second.anchor || first.width === 0 || second.width === 0) return ends;
  const [long, short] = first.width >= second.width ? [first, second] : [second, first];
  return [long, { ...short, text: '' }];
}

/** Where the bars stand, largest first as they are given, with the same in words. Pure. */
export function drawBars({ bars, base, label, unit, ends }: BarPlot): DrawnBars {
  const all = [base, ...bars.flatMap((b) => [b.low, b.high].filter((v) => v !== undefined))];
  const under = Math.min(...all) < base;
  const scale = scaleOf(all, {}, [BARS.left + (under ? VALUE : 0), PLOT.width - BARS.right - VALUE], 4);
  const start = scale.at(base);
  const shown = bars.map((b) => fold(b.name, BARS.left - 8));
  const row = shown.some((lines) => lines.length > 1) ? BARS.folded : BARS.row;
  const measured = (v: number): string => `${numberText(v)}${unit === '' ? '' : ` ${unit}`}`;
  const end = (which: 'low' | 'high', v: number | undefined): DrawnBar['ends'] => {
    if (v === undefined) return [];
    const x = scale.at(v);
    const left = x < start;
    return [
      {
        end: which,
        x: Math.min(x, start),
        width: Math.abs(x - start),
        text: numberText(v),
        textX: left ? x - 3 : x + 3,
        anchor: left ? 'end' : 'start',
      },
    ];
  };
  return {
    width: PLOT.width,
    height: BARS.top + bars.length * row + BARS.foot,
    ticks: scale.ticks.map((t) => ({ at: scale.at(t), text: numberText(t, 6) })),
    base: start,
    row,
    bars: bars.map((b, i) => ({
      name: b.name,
      shown: shown[i] ?? [],
      y: BARS.top + i * row,
      ends: inFront([...end('low', b.low), ...end('high', b.high)]),
    })),
    description: `${label}. ${bars
      .map(
        (b) =>
          `${b.name}: ${[
            [b.low, ends.length === 2 ? ends[0] : ''] as const,
            [b.high, ends.length === 2 ? ends[1] : ''] as const,
          ]
            .flatMap(([v, word]) => (v === undefined ? [] : [word === '' ? measured(v) : `${measured(v)} ${word}`]))
            .join(', ')}`,
      )
      .join('; ')}.`,
  };
}
