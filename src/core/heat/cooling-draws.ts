/** How sure the cooling of a pin is: what it takes in each draw of what it rests on. */
import { Assumptions, type Override } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { COLUMNS, addProduct } from '../model/columns.ts';
import { normalColumn } from '../spread/draws.ts';
import { johnson, johnsonColumn } from '../spread/johnson.ts';
import type { CoolingMethod } from './cool-pin.ts';
import { coolingTime, LONGEST } from './cooling-time.ts';
import { bossInForce, coolingInForce, longerBy, methodInForce, physicsInForce, targetName } from './heat-in-force.ts';
import type { HeatGrid } from './heat-physics.ts';
import { kept, rounded, type Places } from './kept.ts';
import { KEPT_DRAWS } from './kept-times.ts';

/** Worlds that are solved for each pin of the table, as many as a cell has time for; a power of two. */
const WORLDS = 16;
/**
 * One of 600 scrambles: with it P10, P50 and P90 of five pins, in air and with water, stand within 22 %, or 90 s, of those of 128
 * solved worlds; of nine pins and 256 worlds, within 12 % in the root mean square.
 */
const SEED = 511;
/** Coarser than for a plan: a world's time is off by less than its distance to the next. */
const WORLD_GRIDS: Readonly<Record<CoolingMethod, HeatGrid>> = {
  air: { pinCells: 3, bossCells: 4, tolerance: 6 },
  water: { pinCells: 4, bossCells: 5, tolerance: 4 },
};

const BOTH = [
  'boss over pin',
  'heat into the part',
  'pin over boss when pushed',
  'joint conductance',
  'heated zone',
  'ambient temperature',
] as const satisfies readonly NumberName[];
const AIR = ['surface emissivity'] as const satisfies readonly NumberName[];
const WATER = [
  'cooling water temperature',
  'wet boss share',
  'boiling flux factor',
  'film boiling limit',
] as const satisfies readonly NumberName[];

/**
 * What a cooling is drawn from. Left out is what hardly moves it: the wall's melting point, the width of the pilot, the surface
 * factor of boiling, and the pace of burning, which is the item's own.
 */
export const coolingFactors = (method: CoolingMethod): readonly NumberName[] => [
  ...BOTH,
  targetName(method),
  ...(method === 'water' ? WATER : AIR),
];

/** What stands for all of these in air, once a log has told it. */
export const LONGER = 'longer cooling';

/** What the cooling is drawn from in a call. */
export function coolingFactorsInForce(a: Assumptions): readonly NumberName[] {
  const method = methodInForce(a);
  const { low, high } = a.inForce(LONGER);
  return method === 'air' && low < high ? [LONGER] : coolingFactors(method);
}

/** What a cooling of a solid pin in air rests on. */
export const COOLED_IN_AIR_BY: readonly NumberName[] = [...coolingFactors('air'), 'wall melting point', 'pilot width'];

/** Columns of `coolingFactors`, in their order, in SI. */
type Columns = readonly Float64Array[];

/**
 * What makes two worlds alike, a column each, longer the more it moves the time. In air above all how hot a pin of that bore, over
 * its diameter, and its boss are once they are even, over the target: where that is more than 1, all of the boss has to cool and not
 * the pin alone.
 */
function likeness(columns: Columns, bore: number, method: CoolingMethod): Columns {
  const of: Readonly<Record<string, Float64Array>> = Object.fromEntries(
    coolingFactors(method).map((name, k) => [name, columns[k]!]),
  );
  const target = of[targetName(method)]!;
  const sink = of[method === 'water' ? 'cooling water temperature' : 'ambient temperature']!;
  const log = (name: string, weight: number): Float64Array => of[name]!.map((x) => weight * Math.log(x));
  const linear = (name: string, weight: number): Float64Array => of[name]!.map((x) => weight * x);
  const need = target.map((t, i) => Math.log(Math.max(1, t - sink[i]!)));
  if (method === 'water')
    return [
      log('boss over pin', 1.5),
      log('heat into the part', 1),
      need,
      linear('wet boss share', 2),
      linear('film boiling limit', 1 / 400),
      log('heated zone', 0.4),
      log('joint conductance', 0.3),
      log('boiling flux factor', 0.3),
      linear('pin over boss when pushed', 0.05),
    ];
  const boss = of['boss over pin']!;
  return [
    log('boss over pin', 1),
    need.map((x) => 0.7 * x),
    log('joint conductance', 0.4),
    log('heated zone', 0.2),
    linear('surface emissivity', 0.7),
    linear('pin over boss when pushed', 0.05),
    of['heat into the part']!.map((heat, i) => 2 * (Math.log(heat) - need[i]! - Math.log((boss[i]! / bore) ** 2 - 1))),
  ];
}

/** What is drawn in the worlds that are solved. */
const worldColumns = (method: CoolingMethod, { a, once }: Basis): Columns =>
  once(`cooling worlds ${method}`, () =>
    coolingFactors(method).map((name, k) => johnsonColumn(johnson(a.inForce(name)), normalColumn(k, WORLDS, SEED))),
  );

/** Assumptions of these worlds, those in force last. */
const worldsOf = (method: CoolingMethod, basis: Basis): readonly Assumptions[] =>
  basis.reading(`assumptions of cooling worlds ${method}`, () => {
    const { a } = basis;
    const columns = worldColumns(method, basis);
    const rows = (i: number): readonly Override[] =>
      coolingFactors(method).map((name, k) => ({ name, value: columns[k]![i]!, kind: 'your value' }));
    return [...Array.from({ length: WORLDS }, (_, i) => Assumptions.from(rows(i), a)), a];
  });

interface Pin {
  readonly diameter: number;
  readonly hole: number;
  readonly length: number;
}

/** Cooling time in one world [s]; the longest that is followed where the target is not reached. */
function inWorld(pin: Pin, pace: number, method: CoolingMethod, a: Assumptions): number {
  const boss = Math.max(bossInForce(pin.diameter, a), 1.05 * (pin.diameter + 2 * a.value('bushing wall')));
  try {
    return coolingTime(
      coolingInForce({ ...pin, boss }, method, undefined, pace, a),
      physicsInForce(a),
      WORLD_GRIDS[method],
      a.system,
    );
  } catch (e) {
    if (e instanceof CalcError) return LONGEST;
    throw e;
  }
}

/** Cooling time of one pin as assumed, and in each draw [s]. */
interface Drawn {
  readonly planned: number;
  readonly draws: Float64Array;
}

/** Cooling times in the worlds, that as assumed last [s]. */
function solvedTimes(pin: Pin, pace: number, basis: Basis): Float64Array {
  const method = methodInForce(basis.a);
  return rounded(worldsOf(method, basis).map((world) => inWorld(pin, pace, method, world)));
}

/** Times of one pin in the worlds, multiplied by `scale`. Apart from the draws: other draws of the same pin take the same worlds. */
const timesOf = (
  { diameter, hole, length }: Pin,
  pace: number,
  scale: number,
  basis: Basis,
  known: () => Float64Array,
): Float64Array =>
  basis.once(`cooling in worlds ${diameter} ${hole} ${length} ${pace}`, () => known().map((time) => scale * time));

/** Of pins of one bore, over their diameter, by their times in the worlds. */
function drawnFor(bore: number, pins: readonly Float64Array[], columns: Columns, basis: Basis): readonly Drawn[] {
  const method = methodInForce(basis.a);
  const worlds = likeness(worldColumns(method, basis), bore, method);
  const draws = nearest(likeness(columns, bore, method), worlds, pins);
  return pins.map((times, n) => ({ planned: times[WORLDS]!, draws: draws[n]! }));
}

/**
 * The mean, at each point, of some values in the worlds, weighted by the inverse of a power of their distance: a column of each
 * coordinate of the points and of the worlds. By the loops of the steps on columns, which an engine has compiled by now: a first cell
 * would wait for one more.
 *
 * Source: Shepard, "A two-dimensional interpolation function for irregularly-spaced data", ACM National Conference 1968.
 */
function nearest(points: Columns, worlds: Columns, values: Columns): Columns {
  const { '+': add, '*': multiply, '/': divide } = COLUMNS;
  const { length } = points[0]!;
  const column = (): Float64Array => new Float64Array(length);
  const into = values.map(column);
  const [number, apart, squared, all] = [column(), column(), column(), column()];
  for (let j = 0; j < WORLDS; j++) {
    squared.fill(1e-12);
    points.forEach((point, k) => {
      add(point, number.fill(-worlds[k]![j]!), apart);
      addProduct(apart, apart, squared, squared);
    });
    // The inverse 20th power of the distance: nearly the value of the one most alike. A general power takes far longer.
    multiply(squared, squared, apart);
    multiply(apart, squared, apart);
    multiply(apart, squared, apart);
    multiply(apart, squared, apart);
    multiply(apart, apart, apart);
    divide(number.fill(1), apart, squared);
    add(all, squared, all);
    values.forEach((times, n) => {
      addProduct(squared, number.fill(times[j]!), into[n]!, into[n]!);
    });
  }
  for (const sum of into) divide(sum, all, sum);
  return into;
}

/** Steps of the table of draws in the logarithm of the diameter and in hole over diameter, and what it reaches. */
const STEPS = { size: Math.log(4), bore: 0.05 } as const;
const RANGE = { size: [Math.log(0.006), Math.log(1.6)], bore: [0.1, 0.95] } as const;
/** Slimness and pace of burning [kg/s] of the pins in the table: the time that was planned brings in the pin's own. */
const TABLE_PIN = { slimness: 2.5, pace: 0.01 } as const;
/** As in the table of times. */
const POWER = 1.5;

/** The pin of a place in the table. */
function tablePin(size: number, bore: number): Pin {
  const diameter = Math.exp(size * STEPS.size);
  return { diameter, hole: bore * STEPS.bore * diameter, length: TABLE_PIN.slimness * diameter };
}

/** Pins of the table of one bore; times over diameter^1.5. */
const entries = (bore: number, sizes: readonly number[], columns: Columns, basis: Basis): readonly Drawn[] =>
  basis.once(`cooling draws ${bore} ${sizes.join()} ${columns[0]!.length}`, () => {
    const times = (size: number): Float64Array => {
      const pin = tablePin(size, bore);
      const at = [size, bore];
      return timesOf(
        pin,
        TABLE_PIN.pace,
        pin.diameter ** -POWER,
        basis,
        () => kept(KEPT_DRAWS, KEPT, at, WORLDS + 1, COOLED_IN_AIR_BY, basis) ?? solvedEntry(at, basis),
      );
    };
    return drawnFor(bore * STEPS.bore, sizes.map(times), columns, basis);
  });

/** Times of a pin of the table, solved. */
export const solvedEntry = ([size, bore]: readonly number[], basis: Basis): Float64Array =>
  solvedTimes(tablePin(size!, bore!), TABLE_PIN.pace, basis);

/** Pins of the table whose times are kept: the usual ones, as assumed in air. */
export const KEPT: Places = [
  [-3, 0],
  [10, 15],
];

/**
 * Cooling time of a pin in each draw of `coolingFactorsInForce`; of `LONGER` alone by `longerBy`, else as follows.
 *
 * For pins of a table over diameter and hole, 16 worlds are solved by `coolingTime`; a draw takes the times of the worlds most
 * alike to it. Between the pins of the table straight lines over the simplex that holds the pin. All draws are moved by the
 * factor that brings the table's own plan to the pin's, with its length and pace.
 * diameter, hole, length [m], pace [kg/s], planned [s], columns in SI; result [s], to be overwritten by the next pin.
 * Of nine pins of 1.5 to 10 in, in air and with water, P10, P50 and P90 lie within 12 % of those of 256 solved worlds in the root
 * mean square.
 * Source: as `coolingTime`.
 */
export function coolingDraws(pin: Pin, pace: number, planned: number, columns: Columns, basis: Basis): Float64Array {
  const count = columns[0]!.length;
  const into = basis.reading(`cooling drawn ${count}`, () => new Float64Array(count));
  if (columns.every((column) => column.every((x) => x === column[0]))) return into.fill(planned);
  if (coolingFactorsInForce(basis.a).includes(LONGER)) {
    const now = basis.a.value(LONGER);
    columns[0]!.forEach((x, i) => (into[i] = Math.max(0, planned + longerBy(x - now, pin.diameter))));
    return into;
  }
  const parts = partsFor(pin, pace, columns, basis);
  const middle = parts.reduce((sum, { weight, drawn }) => sum + weight * drawn.planned, 0);
  const scale = middle > 0 ? planned / middle : 1;
  into.fill(0);
  const share = new Float64Array(count);
  for (const { weight, drawn } of parts) addProduct(drawn.draws, share.fill(weight * scale), into, into);
  return into;
}

interface Part {
  readonly weight: number;
  readonly drawn: Drawn;
}

/** Pins of the table round a pin, and what each counts. */
function partsFor(pin: Pin, pace: number, columns: Columns, basis: Basis): readonly Part[] {
  const { a } = basis;
  if (a.value('existing bore') > 0 || a.value('bushing wall') > 0) {
    // The table is of solid pins without bushing, as that of times.
    const key = `cooling draws of ${pin.diameter} ${pin.hole} ${pin.length} ${pace} ${columns[0]!.length}`;
    const times = (): Float64Array => timesOf(pin, pace, 1, basis, () => solvedTimes(pin, pace, basis));
    const [drawn] = basis.once(key, () => drawnFor(pin.hole / pin.diameter, [times()], columns, basis));
    return [{ weight: 1, drawn: drawn! }];
  }
  const at = (axis: 'size' | 'bore', x: number): number =>
    // A hair of rounding must not call for one more entry.
    Number((Math.min(RANGE[axis][1], Math.max(RANGE[axis][0], x)) / STEPS[axis]).toFixed(9));
  const [size, bore] = [at('size', Math.log(pin.diameter)), at('bore', pin.hole / pin.diameter)];
  const [s, b] = [Math.floor(size), Math.floor(bore)];
  const [u, v] = [size - s, bore - b];
  const [even, less] = [1 - Math.max(u, v), Math.min(u, v)];
  // Of each bore the weights of the pin of that size and of the next.
  const weights = [
    [even, Math.max(0, u - v)],
    [Math.max(0, v - u), less],
  ] as const;
  return weights.flatMap((pair, j) => {
    const counting = pair.flatMap((weight, i) => (weight > 0 ? [{ weight, size: s + i }] : []));
    if (counting.length === 0) return [];
    const drawn = entries(
      b + j,
      counting.map(({ size }) => size),
      columns,
      basis,
    );
    return counting.map(({ weight }, i) => ({ weight, drawn: drawn[i]! }));
  });
}
