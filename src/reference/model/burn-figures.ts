/** Flow, heat balance, and what they come to over pins of many sizes. */
import { Assumptions } from '../../core/assumptions/assumptions.ts';
import type { NumberName } from '../../core/assumptions/registry.ts';
import { heatBalanceList } from '../../core/burn/heat-balance.ts';
import { Evaluation } from '../../core/model/evaluation.ts';
import { findMaterial } from '../../core/burn/materials.ts';
import { findRod } from '../../core/burn/rods.ts';
import { CalcError } from '../../core/errors.ts';
import type { LinePlot, Point, Series } from '../../pane/charts/line-plot.ts';
import { maybeCell, maybeNumber, numberOf, rangeOf, rowsOf, steps, type Row } from './figures.ts';

export const SHORT_RODS = ['3/8', '1/4', '3/16'] as const;

const BALANCE = heatBalanceList(findRod('3/8').rod, findMaterial('carbon steel'));

/** A step of the heat balance of a short rod on carbon steel with some assumptions changed, SI; undefined where it has no solution. */
export function balance(
  symbol: 'share' | 'k' | 'B',
  changed: Readonly<Partial<Record<NumberName, number>>>,
): number | undefined {
  const a = Assumptions.defaults();
  try {
    const at = new Evaluation(
      BALANCE,
      {},
      { value: (name: NumberName) => changed[name] ?? a.value(name), about: (name: NumberName) => a.about(name) },
    );
    at.number('share');
    return at.number(symbol);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

const LOSSES = (['low', 'value', 'high'] as const).map((at) => rangeOf('heat lost share')[at]);

export const burntShare = (changed: Parameters<typeof balance>[1]): number | undefined => {
  const share = balance('share', changed);
  return share === undefined ? undefined : 100 * share;
};

/** A line for each share of heat lost: low, as assumed, high. */
function lossLines(xs: readonly number[], of: (x: number, lost: number) => number | undefined): readonly Series[] {
  return LOSSES.map((lost) => ({
    name: `${Number((100 * lost).toFixed(1))}% lost`,
    points: xs.map((x) => ({ x, y: of(x, lost) })),
  }));
}

/** Axis and range in force of the share of oxygen that burns. */
function againstOxygenBurnt(): Pick<LinePlot, 'x' | 'shade'> {
  const { low, value, high } = rangeOf('oxygen burnt share');
  return {
    x: { label: 'share of oxygen that burns', unit: '%', low: 15, high: 80 },
    shade: { name: 'assumed range', low: 100 * low, value: 100 * value, high: 100 * high },
  };
}

export function burntShareByOxygen(): LinePlot {
  return {
    name: 'burnt-by-oxygen',
    title: 'Burnt share of the metal that leaves, against the share of oxygen that burns',
    caption:
      'The more oxygen burns, the less of it carries heat away unburnt, so that less of the metal has to burn. Where a line begins at the left, the heat is just enough to melt the rod and warm the oxygen; further left nothing is removed and the function says so.',
    ...againstOxygenBurnt(),
    y: { label: 'burnt share of the metal', unit: '%', low: 0 },
    series: lossLines(steps(15, 80, 1), (x, lost) =>
      burntShare({ 'oxygen burnt share': x / 100, 'heat lost share': lost }),
    ),
  };
}

export function burntShareByTemperature(): LinePlot {
  const { low, value, high } = rangeOf('slag temperature');
  return {
    name: 'burnt-by-temperature',
    title: 'Burnt share of the metal that leaves, against the temperature it leaves at',
    caption:
      'Hotter slag carries more heat away with each pound, so less metal goes for the same burning and more of it is burnt. The axis begins above the melting point of iron.',
    x: { label: 'temperature of the slag', unit: 'K', low: 1820, high: 2600 },
    y: { label: 'burnt share of the metal', unit: '%', low: 0 },
    shade: { name: 'assumed range', low, value, high },
    series: lossLines(steps(1820, 2600, 20), (x, lost) =>
      burntShare({ 'slag temperature': x, 'heat lost share': lost }),
    ),
  };
}

export function removedByOxygen(): LinePlot {
  return {
    name: 'removed-by-oxygen',
    title: 'Work removed for each pound of oxygen, against the share of oxygen that burns',
    caption:
      'This line sets oxygen, rods and minutes. Within the assumed range it changes several times over: no other assumption moves the estimate as far.',
    ...againstOxygenBurnt(),
    y: { label: 'steel removed per lb of oxygen', unit: 'lb', low: 0 },
    series: lossLines(steps(15, 80, 1), (x, lost) =>
      balance('k', { 'oxygen burnt share': x / 100, 'heat lost share': lost }),
    ),
  };
}

export function flowByPressure(): LinePlot {
  const { low, high } = rangeOf('holder orifice');
  return {
    name: 'flow-by-pressure',
    title: 'Oxygen through short rods, against tip pressure',
    caption: `Rods 36 in long, from new. The bands are the holder's valve and passages from ${low} to ${high} in, taken as one hole; burning shortens the rod and lets a little more through.`,
    formula: '=BURN.ROD.FLOW("3/8 x 36",80)',
    x: { label: 'tip pressure', unit: 'psi', low: 40, high: 150 },
    y: { label: 'flow', unit: 'scfm', low: 0 },
    series: SHORT_RODS.map((rod) => ({
      name: `${rod} rod`,
      band: ['narrow holder', 'wide holder'],
      points: steps(40, 150, 5).map((p) => {
        const at = (holder?: number): number =>
          numberOf('BURN.ROD.FLOW', `${rod} x 36`, p, 36, holder === undefined ? null : [['holder orifice', holder]]);
        return { x: p, y: at(), low: at(low), high: at(high) };
      }),
    })),
  };
}

/** Width that a rod pierces, in. */
export const pierceWidth = (rod: string): number =>
  (rangeOf('pierce width').value * findRod(rod).rod.outsideDiameter) / 0.0254;
/** Length of a pin of this diameter where nothing else is said, in. */
export const usualLength = (diameter: number): number => rangeOf('length over diameter').value * diameter;

/** Oxygen of a plan over a length, with its P10 and P90. */
function oxygenPerInch(x: number, length: number, name: string, ...args: Parameters<typeof maybeNumber>[1][]): Point {
  const [row] = rowsOf(name, ...args);
  const [y, low, high] = ['oxygen', 'oxygen low', 'oxygen high'].map((c) => maybeCell(row, c));
  const per = (v: number | undefined): number | undefined => (v === undefined ? undefined : v / length);
  const [least, most] = [per(low), per(high)];
  return { x, y: per(y), ...(least !== undefined && most !== undefined ? { low: least, high: most } : {}) };
}

/** Bands of lines that lie close would hide one another: only one is shown. */
const withBand = (shown: boolean, { x, y, low, high }: Point): Point =>
  shown && low !== undefined && high !== undefined ? { x, y, low, high } : { x, y };

export function pierceOxygen(): LinePlot {
  return {
    name: 'pierce-oxygen',
    title: 'Oxygen to pierce an inch, against depth',
    caption:
      'Each rod piercing twice its own width, lighting and idle oxygen counted. Band, for the 3/8 rod: eight cases in ten. Deep and narrow, slag gets out slowly and the rod burns on while it waits, so an inch costs more; a step is one rod more to light.',
    formula: '=BURN.HOLE.PLAN(0.75,12,"3/8")',
    x: { label: 'depth', unit: 'in', low: 0, high: 24 },
    y: { label: 'oxygen per inch', unit: 'scf', low: 0 },
    series: SHORT_RODS.map((rod, i) => ({
      name: `${rod} rod`,
      ...(i === 0 ? { band: ['low', 'high'] as const } : {}),
      points: [2, 3, 4, 6, 8, 10, 12, 15, 18, 21, 24].map((depth) =>
        withBand(i === 0, oxygenPerInch(depth, depth, 'BURN.HOLE.PLAN', pierceWidth(rod), depth, rod)),
      ),
    })),
  };
}

export function pinOxygen(): LinePlot {
  return {
    name: 'pin-oxygen',
    title: 'Oxygen for an inch of pin, pilot and widened bore, against pin diameter',
    caption: `Pins ${rangeOf('length over diameter').value} times as long as thick, bored to ${rangeOf('bore ratio').value} of their diameter. The rods differ little, since the heat balance is the same for all; they differ in minutes. Band, for the 3/8 rod: eight cases in ten.`,
    formula: '=BURN.PIN.PLAN(4,10,,"3/8")',
    x: { label: 'pin diameter', unit: 'in', low: 2, high: 8 },
    y: { label: 'oxygen per inch', unit: 'scf', low: 0 },
    series: SHORT_RODS.map((rod, i) => ({
      name: `${rod} rod`,
      ...(i === 0 ? { band: ['low', 'high'] as const } : {}),
      points: steps(2, 8, 1).map((d) =>
        withBand(i === 0, oxygenPerInch(d, usualLength(d), 'BURN.PIN.PLAN', d, usualLength(d), null, rod)),
      ),
    })),
  };
}

const SIZES = steps(1.5, 8, 0.5);
const banded = (x: number, y: number | undefined, low: number | undefined, high: number | undefined): Point => ({
  x,
  y,
  ...(low !== undefined && high !== undefined ? { low, high } : {}),
});

/** Plans of pins of all sizes, as one list. */
export function pinPlans(): readonly { readonly d: number; readonly row: Row | undefined }[] {
  const rows = rowsOf(
    'BURN.PIN.PLAN',
    SIZES.map((d) => [d]),
    SIZES.map((d) => [usualLength(d)]),
  );
  return SIZES.map((d, i) => ({ d, row: rows[i] }));
}

export function pinRods(plans: ReturnType<typeof pinPlans>): LinePlot {
  return {
    name: 'pin-rods',
    title: 'Rods for a pin, against its diameter',
    caption:
      'Whole rods, of the length and size picked for each pin. Band: eight cases in ten. Volume goes with the cube of the diameter here, since thicker pins are longer too.',
    formula: '=BURN.PIN.PLAN(4,10)',
    x: { label: 'pin diameter', unit: 'in', low: 1.5, high: 8 },
    y: { label: 'rods', unit: '', low: 0 },
    series: [
      {
        name: 'rods',
        band: ['low', 'high'],
        points: plans.map(({ d, row }) =>
          banded(d, maybeCell(row, 'rods'), maybeCell(row, 'rods low'), maybeCell(row, 'rods high')),
        ),
      },
    ],
  };
}

export function pinMinutes(plans: ReturnType<typeof pinPlans>): LinePlot {
  return {
    name: 'pin-minutes',
    title: 'Minutes for a pin, against its diameter',
    caption:
      'Crew minutes run from set-up to clean-up, cooling in air included; band: eight cases in ten. Burning is the smaller part until the pin is large.',
    formula: '=BURN.PIN.PLAN(4,10)',
    x: { label: 'pin diameter', unit: 'in', low: 1.5, high: 8 },
    y: { label: 'time', unit: 'min', low: 0 },
    series: [
      {
        name: 'crew',
        band: ['low', 'high'],
        points: plans.map(({ d, row }) =>
          banded(d, maybeCell(row, 'crew'), maybeCell(row, 'crew low'), maybeCell(row, 'crew high')),
        ),
      },
      { name: 'burning', points: plans.map(({ d, row }) => ({ x: d, y: maybeCell(row, 'burning') })) },
      { name: 'cooling', points: plans.map(({ d, row }) => ({ x: d, y: maybeCell(row, 'cooling') })) },
    ],
  };
}

/** Tip pressure while a pin of a length is widened, psi. */
const widenPressure = (length: number): number | undefined =>
  maybeCell(
    rowsOf('BURN.PIN.STEPS', 4, length).find((r) => r['symbol'] === 'p_widen'),
    'value',
  );

export function pressureByDepth(): LinePlot {
  const depths = [1, ...steps(2, 36, 1)];
  const points = (name: string, ...args: readonly (string | number | null)[]): readonly Point[] =>
    depths.map((x) => ({ x, y: maybeNumber(name, ...args.map((v) => (v === 'x' ? x : v))) }));
  return {
    name: 'pressure-by-depth',
    title: 'Tip pressure, against depth or thickness',
    caption:
      'Read at the holder while oxygen flows. Common practice of the trade, not a result of the heat balance. Under water the pressure of the water comes on top, at the regulator.',
    formula: '=BURN.PIN.PRESSURE(4,10)',
    x: { label: 'depth or thickness', unit: 'in', low: 0, high: 36 },
    y: { label: 'tip pressure', unit: 'psi', low: 0 },
    series: [
      { name: 'piercing', points: points('BURN.PIN.PRESSURE', 4, 'x') },
      { name: 'widening', points: depths.map((x) => ({ x, y: widenPressure(x) })) },
      { name: 'severing', points: points('BURN.CUT.PRESSURE', 'x', 24) },
    ],
  };
}
