import { area, line } from 'd3-shape';
import { clockText } from './clock-text.ts';
import { numberText } from './number-text.ts';
import { scaleOf, type Scale } from './scale.ts';
import type { Tick, Told } from './told.ts';

/** A quantity along an axis, in words, with its unit. */
export interface Axis {
  readonly label: string;
  readonly unit: string;
  /** Ends of the axis; the next round value beyond the data where left out. */
  readonly low?: number;
  readonly high?: number;
  /** Hours after midnight, told as a clock shows them. */
  readonly clock?: true;
}

export interface Point {
  readonly x: number;
  /** Undefined where there is no solution: the line breaks. */
  readonly y: number | undefined;
  /** Ends of the band about the line. */
  readonly low?: number;
  readonly high?: number;
}

export interface Series {
  /** Short: it stands at the end of the line. */
  readonly name: string;
  readonly points: readonly Point[];
  /** What the ends of its band are called in the table. */
  readonly band?: readonly [string, string];
}

/** A range of the x axis that is shaded, with a value in it. */
export interface Shade {
  readonly name: string;
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

export interface LinePlot extends Told {
  readonly x: Axis;
  readonly y: Axis;
  readonly series: readonly Series[];
  readonly shade?: Shade;
}

export interface DrawnLine {
  readonly name: string;
  readonly path: string;
  /** Outline of the band; empty where there is none. */
  readonly band: string;
  /** Where its name stands. */
  readonly label: { readonly x: number; readonly y: number; readonly anchor: 'start' | 'middle' };
}

export interface DrawnPlot {
  readonly width: number;
  readonly height: number;
  readonly frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  readonly lines: readonly DrawnLine[];
  readonly shade:
    { readonly name: string; readonly from: number; readonly at: number; readonly to: number } | undefined;
  readonly description: string;
}

/** `head` is the line of the y axis's name, `under` what stands below the frame, `tall` the frame itself. */
export const PLOT = { width: 360, head: 24, name: 15, tall: 170, under: 40, left: 46, most: 5 } as const;
/** Width of a letter of the labels, on the wide side. */
const LETTER = 6.8;
/** A percent sign is as wide as two letters. */
const widthOf = (name: string): number => name.replaceAll('%', '%%').length * LETTER;
/** Names at the ends of lines stand at least this far apart. */
const APART = 13;

const places = (x: number): string => String(Number(x.toFixed(2)));
const isPair = (p: Point): p is Point & { readonly low: number; readonly high: number } =>
  p.low !== undefined && p.high !== undefined;
const hasValue = (p: Point): p is Point & { readonly y: number } => p.y !== undefined;
/** A value of an axis, without its unit. */
export const axisText = (v: number, { clock }: Axis, digits?: number): string =>
  clock ? clockText(v) : numberText(v, digits);
export const withUnit = ({ label, unit }: Axis): string => (unit === '' ? label : `${label}, ${unit}`);

/** Where everything of a plot stands, with the same in words. Pure: the same plot gives the same text. */
export function drawPlot(plot: LinePlot): DrawnPlot {
  const { series, x: across, y: up, shade } = plot;
  const right = PLOT.width - Math.ceil(Math.max(...series.map((s) => widthOf(s.name)))) - 6;
  const top = PLOT.head + (shade ? PLOT.name : 0);
  const bottom = top + PLOT.tall;
  const xs = series.flatMap((s) => s.points.map((p) => p.x));
  const ys = series.flatMap((s) => s.points.flatMap((p) => [p.y, p.low, p.high].filter((v) => v !== undefined)));
  const x = scaleOf(
    xs,
    { low: across.low ?? Math.min(...xs), high: across.high ?? Math.max(...xs) },
    [PLOT.left, right],
    PLOT.most,
  );
  const y = scaleOf(ys, { low: up.low, high: up.high }, [bottom, top], PLOT.most);
  checkInside(xs, x, plot.title);
  checkInside(ys, y, plot.title);
  return {
    width: PLOT.width,
    height: bottom + PLOT.under,
    frame: { left: PLOT.left, right, top, bottom },
    xTicks: ticksOf(x, across),
    yTicks: ticksOf(y, up),
    lines: placed(
      series.map((s) => drawLine(s, x, y)),
      bottom,
    ),
    shade: shade && {
      name: shade.name,
      from: x.at(Math.max(shade.low, x.low)),
      at: x.at(shade.value),
      to: x.at(Math.min(shade.high, x.high)),
    },
    description: inWords(plot),
  };
}

/** A line that ran out of its frame would mislead. */
function checkInside(values: readonly number[], { low, high }: Scale, title: string): void {
  const slack = 1e-6 * (high - low);
  const out = values.find((v) => !(v >= low - slack && v <= high + slack));
  if (out !== undefined) throw new Error(`${title}: ${out} lies outside ${low} to ${high}`);
}

const ticksOf = (scale: Scale, axis: Axis): readonly Tick[] =>
  scale.ticks.map((t) => ({ at: Number(scale.at(t).toFixed(2)), text: axisText(t, axis, 6) }));

function drawLine({ name, points }: Series, x: Scale, y: Scale): DrawnLine {
  const path =
    line<Point>(
      (p) => x.at(p.x),
      (p) => y.at(p.y ?? 0),
    )
      .defined(hasValue)
      .digits(2)([...points]) ?? '';
  const pairs = points.filter(isPair);
  const band =
    pairs.length < 2
      ? ''
      : (area<(typeof pairs)[number]>(
          (p) => x.at(p.x),
          (p) => y.at(p.low),
          (p) => y.at(p.high),
        ).digits(2)(pairs) ?? '');
  const last = points.filter(hasValue).at(-1);
  if (!last) throw new Error(`the line ${name} has no points`);
  const [endX, endY] = [Number(places(x.at(last.x))), y.at(last.y)];
  // A line that ends inside the frame has its name under its end, where it hides no other.
  return {
    name,
    path,
    band,
    label:
      last.x < x.high - 1e-9
        ? { x: endX, y: endY + APART + 1, anchor: 'middle' }
        : { x: endX + 4, y: endY, anchor: 'start' },
  };
}

/** Moves names that would overlap downward until they stand apart, and the lowest up where they would leave the frame. */
function placed(lines: readonly DrawnLine[], bottom: number): readonly DrawnLine[] {
  const order = [...lines].sort((p, q) => p.label.y - q.label.y);
  const left = ({ name, label }: DrawnLine): number => label.x - (label.anchor === 'middle' ? widthOf(name) / 2 : 0);
  const beside = (p: DrawnLine, q: DrawnLine): boolean =>
    left(p) < left(q) + widthOf(q.name) && left(q) < left(p) + widthOf(p.name);
  const heights = new Map<DrawnLine, number>();
  const sweep = (
    through: readonly DrawnLine[],
    start: (line: DrawnLine) => number,
    move: (at: number, neighbour: number) => number,
  ): void => {
    through.forEach((line, i) => {
      const met = through
        .slice(0, i)
        .filter((other) => beside(line, other))
        .map((other) => heights.get(other) ?? 0);
      heights.set(line, met.reduce(move, start(line)));
    });
  };
  sweep(
    order,
    (line) => line.label.y,
    (at, above) => Math.max(at, above + APART),
  );
  sweep(
    [...order].reverse(),
    (line) => Math.min(heights.get(line) ?? 0, bottom),
    (at, below) => Math.min(at, below - APART),
  );
  return lines.map((line) => ({
    ...line,
    label: { ...line.label, y: Number(places(heights.get(line) ?? line.label.y)) },
  }));
}

/** What each line does between its ends, in words. */
function inWords({ series, x, y, shade }: LinePlot): string {
  const value = (v: number, axis: Axis): string =>
    axis.unit === '' ? axisText(v, axis) : `${axisText(v, axis)} ${axis.unit}`;
  const told = series.map(({ name, points, band }) => {
    const known = points.filter(hasValue);
    const [first, last] = [known[0], known.at(-1)];
    if (!first || !last) throw new Error(`the line ${name} has no points`);
    const top = known.reduce((a, b) => (b.y > a.y ? b : a));
    const bottom = known.reduce((a, b) => (b.y < a.y ? b : a));
    const turns = [[top, 'highest'] as const, [bottom, 'lowest'] as const].filter(
      ([p]) => p !== first && p !== last && p.y !== first.y && p.y !== last.y,
    );
    const between =
      band && isPair(last) ? `; at the end ${band[0]} ${value(last.low, y)}, ${band[1]} ${value(last.high, y)}` : '';
    return `${name}: ${value(first.y, y)} at ${value(first.x, x)}, ${value(last.y, y)} at ${value(last.x, x)}${turns.map(([p, word]) => `, ${word} ${value(p.y, y)} at ${value(p.x, x)}`).join('')}${between}`;
  });
  const range = shade
    ? ` Shaded: ${shade.name}, ${value(shade.low, x)} to ${value(shade.high, x)}, with ${value(shade.value, x)}.`
    : '';
  return `${withUnit(y)}, against ${withUnit(x)}. ${told.join('. ')}.${range}`;
}
