/** Cooling, shrink and grip. */
import { findFunction } from '../../catalogue/catalogue.ts';
import { INCH } from '../../core/units/quantities.ts';
import { explain } from '../../sheet/explain.ts';
import type { BarPlot } from '../../pane/charts/bar-plot.ts';
import type { LinePlot, Point } from '../../pane/charts/line-plot.ts';
import { cellsOf, maybeNumber, numberIn, rangeOf, rowsOf, steps, textIn, type Row } from './figures.ts';
import { usualLength } from './burn-figures.ts';

export type Method = 'air' | 'water';
export const PIN = { diameter: 4, length: 10, hole: 2.4, boss: 10, tried: 60 } as const;
const MOST_POINTS = 40;

/** Rows of BURN.COOL.CURVE: minutes, wall of the bore, surface in the boss, boss outside. */
const curve = (
  diameter: number,
  hole: number,
  boss: number,
  length: number,
  method: Method,
): readonly (readonly number[])[] =>
  cellsOf('BURN.COOL.CURVE', diameter, hole, boss, length, method, MOST_POINTS)
    .slice(1)
    .map((row) => row.map(Number));

export function coolingOfPin(method: Method): LinePlot {
  const rows = curve(PIN.diameter, PIN.hole, PIN.boss, PIN.length, method);
  const points = (column: number): readonly Point[] => rows.map((row) => ({ x: row[0] ?? NaN, y: row[column] }));
  return {
    name: `cooling-${method}`,
    title: `A pin of ${PIN.diameter} in by ${PIN.length} in cooling in ${method}`,
    caption:
      method === 'air'
        ? 'Nearly all of the heat goes outward into the boss, not into the air: bore and surface meet the boss within minutes, and from there pin and boss cool together, slowly.'
        : 'Water in the bore boils on the wall and takes the heat inward. Within a minute the wall is about as cool as the boss, which keeps what it took.',
    formula: `=BURN.COOL.CURVE(${PIN.diameter},${PIN.hole},${PIN.boss},${PIN.length},"${method}",${MOST_POINTS})`,
    x: { label: 'time from the end of burning', unit: 'min', low: 0 },
    y: { label: 'temperature', unit: 'F', low: 0 },
    series: [
      { name: 'bore', points: points(1) },
      { name: 'pin surface', points: points(2) },
      { name: 'boss', points: points(3) },
    ],
  };
}

export function coolingOfSizes(): LinePlot {
  const ratio = rangeOf('bore ratio').value;
  const bossRatio = rangeOf('boss over pin').value;
  return {
    name: 'cooling-sizes',
    title: 'Wall of the bore of pins of three sizes, cooling in air',
    caption:
      'Each line ends where the pin can be pushed. A thicker pin takes longer because its heat has farther to go.',
    formula: '=BURN.COOL.CURVE(6,3.6,15,15,"air",40)',
    x: { label: 'time from the end of burning', unit: 'min', low: 0 },
    y: { label: 'wall of the bore', unit: 'F', low: 0 },
    series: [6, 4, 2].map((d) => ({
      name: `${d} in pin`,
      points: curve(d, ratio * d, bossRatio * d, usualLength(d), 'air').map(([x = NaN, y]) => ({ x, y })),
    })),
  };
}

const bored = (d: number): number => Number((rangeOf('bore ratio').value * d).toPrecision(6));

export function coolingTimes(): LinePlot {
  const { low, high } = rangeOf('heat into the part');
  const time = (d: number, method: Method, heat?: number): number | undefined =>
    maybeNumber(
      'BURN.COOL.TIME',
      d,
      bored(d),
      usualLength(d),
      method,
      null,
      heat === undefined ? null : [['heat into the part', heat]],
    );
  const points = (method: Method): readonly Point[] =>
    steps(2, 10, 1).map((d) => {
      const [little, usual, much] = [time(d, method, low), time(d, method), time(d, method, high)];
      if (little === undefined || usual === undefined || much === undefined) return { x: d, y: usual };
      return { x: d, y: usual, low: Math.min(little, usual, much), high: Math.max(little, usual, much) };
    });
  return {
    name: 'cooling-times',
    title: 'Minutes to cool until the push, against pin diameter',
    caption: `Bands: heat left in the part from ${low} to ${high} MJ for each kilogram removed, everything else as assumed. With the high heat, pin and boss warm up past the target together and the air has to take it, which lasts. In water a little heat can last longer than the usual: the boss is then cooler, and the pin must come down to it.`,
    formula: '=BURN.COOL.TIME(4,2.4,10,"air")',
    x: { label: 'pin diameter', unit: 'in', low: 2, high: 10 },
    y: { label: 'cooling', unit: 'min', low: 0 },
    series: [
      { name: 'air', band: ['least', 'most'], points: points('air') },
      { name: 'water', band: ['least', 'most'], points: points('water') },
    ],
  };
}

/** Looser on the diameter in the middle of the cases, in thousandths of an inch; with a zone heated at a time [in] where one is given. */
export const shrink = (ratio: number, method: Method = 'air', zone?: number): number | undefined => {
  const inches = maybeNumber(
    'BURN.COOL.SHRINK',
    PIN.diameter,
    Number((ratio * PIN.diameter).toPrecision(6)),
    method,
    zone === undefined ? null : [['heated zone', zone, zone, zone]],
  );
  return inches === undefined ? undefined : 1000 * inches;
};

/** Steps of BURN.COOL.SHRINK for the pin of the page, in thousandths of an inch, and the chance that nothing loosens in percent. */
export function loosening(method: Method) {
  const { steps: all } = explain(findFunction('BURN.COOL.SHRINK')!, [PIN.diameter, PIN.hole, method]);
  const value = (symbol: string): number => Number(all.find((step) => step.symbol === symbol)?.value);
  return {
    low: 1000 * (value('loose_low') / INCH),
    likely: 1000 * (value('loose') / INCH),
    high: 1000 * (value('loose_high') / INCH),
    nothing: 100 * value('p_nothing'),
  };
}

export function shrinkByHole(): LinePlot {
  return {
    name: 'shrink-by-hole',
    title: `How much a ${PIN.diameter} in pin loosens, against its bore`,
    caption:
      'A ring that is heated fast and wide presses against its boss, yields, and is smaller when cold. Burnt slowly or bored narrowly it stays elastic and nothing loosens: then only the broken rust bond and the lost core help the push. The lines are the middle of the cases; a little under nothing means tighter: the pin is still warmer than its boss when it is pushed. Water leaves the pin colder than its boss, so more comes off.',
    formula: '=BURN.COOL.SHRINK(4,2.8)',
    x: { label: 'bore over pin diameter', unit: '', low: 0.3, high: 0.85 },
    y: { label: 'loosening', unit: '0.001 in', low: -1 },
    series: (['water', 'air'] as const).map((method) => ({
      name: method,
      points: steps(0.3, 0.85, 0.05).map((ratio) => ({ x: ratio, y: shrink(ratio, method) })),
    })),
  };
}

/** Rows of BURN.GRIP.AFTER for the pin of the page. */
export const gripRows = (): readonly Row[] =>
  rowsOf('BURN.GRIP.AFTER', PIN.diameter, PIN.length, PIN.boss, PIN.hole, PIN.tried);

export function ramChances(rows: readonly Row[]): BarPlot {
  return {
    name: 'ram-chances',
    title: `Chance that a ram starts the pin that ${PIN.tried} tons did not`,
    caption: `Pushed with ${100 * rangeOf('ram use').value} percent of its rating, after burning and cooling in air. A chance under the assumptions, not a promise.`,
    formula: `=BURN.GRIP.AFTER(${PIN.diameter},${PIN.length},${PIN.boss},${PIN.hole},${PIN.tried})`,
    label: 'chance',
    unit: '%',
    ends: ['chance'],
    base: 0,
    of: 'ram',
    bars: rows
      .filter((r) => textIn(r, 'what').startsWith('ram of '))
      .map((r) => ({ name: textIn(r, 'what').replace('ram of ', ''), high: numberIn(r, 'chance') })),
  };
}
