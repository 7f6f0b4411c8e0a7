/** How sure the cooling of a pin is: what it takes in each draw of what it rests on. */
import { Assumptions, type Override } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { normalColumn } from '../spread/draws.ts';
import { johnson, johnsonColumn } from '../spread/johnson.ts';
import type { CoolingMethod } from './cool-pin.ts';
import { coolingTime, LONGEST } from './cooling-time.ts';
import { bossInForce, coolingInForce, methodInForce, physicsInForce, targetName } from './heat-in-force.ts';
import type { HeatGrid } from './heat-physics.ts';
import { kept, rounded, type Places } from './kept.ts';
import { KEPT_DRAWS } from './kept-times.ts';

/** Worlds that are solved for each pin of the table, as many as a cell has time for; a power of two. */
const WORLDS = 16;
/**
 * One of 300 scrambles: with it P10, P50 and P90 of five pins, in air and with water, stand within 30 %, or 120 s, of those of 128
 * solved worlds; of nine pins and 256 worlds, 16 % in the root mean square.
 */
const SEED = 277;
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

/** What a cooling of a solid pin in air rests on. */
export const COOLED_IN_AIR_BY: readonly NumberName[] = [...coolingFactors('air'), 'wall melting point', 'pilot width'];

/** Columns of `coolingFactors`, in their order, in SI. */
type Columns = readonly Float64Array[];

/**
 * What makes two worlds alike, a column each, longer the more it moves the time. In air above all how hot pin and boss are
 * once they are even, over the target: where that is more than 1, all of the boss has to cool and not the pin alone. That depends on
 * the pin, by its boss; the others do not.
 */
interface Likeness {
  /** What is the same for every pin. */
  readonly all: Columns;
  /** Logarithm of the heat over what the target is above its surroundings, and the boss over the pin; none with water. */
  readonly heat?: Float64Array;
  readonly boss: Float64Array;
}

function likeness(columns: Columns, method: CoolingMethod): Likeness {
  const of: Readonly<Record<string, Float64Array>> = Object.fromEntries(
    coolingFactors(method).map((name, k) => [name, columns[k]!]),
  );
  const [target, boss, heat, air] = [
    of[targetName(method)]!,
    of['boss over pin']!,
    of['heat into the part']!,
    of['ambient temperature']!,
  ];
  const sink = method === 'water' ? of['cooling water temperature']! : air;
  const log = (name: string, weight: number): Float64Array => of[name]!.map((x) => weight * Math.log(x));
  const linear = (name: string, weight: number): Float64Array => of[name]!.map((x) => weight * x);
  const need = target.map((t, i) => Math.log(Math.max(1, t - sink[i]!)));
  if (method === 'water')
    return {
      boss,
      all: [
        log('boss over pin', 1.5),
        log('heat into the part', 1),
        need,
        linear('wet boss share', 2),
        linear('film boiling limit', 1 / 400),
        log('heated zone', 0.4),
        log('joint conductance', 0.3),
        log('boiling flux factor', 0.3),
        linear('pin over boss when pushed', 0.05),
      ],
    };
  return {
    boss,
    heat: heat.map((q, i) => Math.log(q) - need[i]!),
    all: [
      log('boss over pin', 1),
      need.map((x) => 0.7 * x),
      log('joint conductance', 0.4),
      log('heated zone', 0.2),
      linear('surface emissivity', 0.7),
      linear('pin over boss when pushed', 0.05),
    ],
  };
}

/** How hot a pin of that bore, over its diameter, and its boss are once they are even; 0 where that does not count. */
const evened = ({ heat, boss }: Likeness, bore: number): Float64Array =>
  boss.map((b, i) => (heat ? 2 * (heat[i]! - Math.log((b / bore) ** 2 - 1)) : 0));

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

/** Draws and how unlike each is to every world, for all pins: the sum of squares, worlds of a draw together. */
interface Unlike {
  readonly like: Likeness;
  readonly worlds: Likeness;
  readonly squares: Float64Array;
}

function unlike(columns: Columns, method: CoolingMethod, basis: Basis): Unlike {
  return basis.once(`cooling draws unlike ${columns[0]!.length}`, () => {
    const like = likeness(columns, method);
    const worlds = likeness(worldColumns(method, basis), method);
    const squares = new Float64Array(columns[0]!.length * WORLDS).fill(1e-12);
    like.all.forEach((points, k) => {
      addSquares(squares, points, worlds.all[k]!);
    });
    return { like, worlds, squares };
  });
}

/** Loops stand in functions of their own, so that an engine compiles each once, and little with it. */
function addSquares(squares: Float64Array, points: Float64Array, known: Float64Array): void {
  const worlds = known.length;
  for (let i = 0; i < points.length; i++) {
    const x = points[i]!;
    for (let j = 0; j < worlds; j++) {
      const apart = x - known[j]!;
      squares[i * worlds + j] = squares[i * worlds + j]! + apart * apart;
    }
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

/** `scale` is what the times are multiplied by. */
function drawnFor(
  pin: Pin,
  pace: number,
  scale: number,
  columns: Columns,
  basis: Basis,
  known: () => Float64Array = () => solvedTimes(pin, pace, basis),
): Drawn {
  const method = methodInForce(basis.a);
  // Apart from the draws: other draws of the same pin take the same worlds.
  const times = basis.once(`cooling in worlds ${pin.diameter} ${pin.hole} ${pin.length} ${pace}`, () =>
    known().map((time) => scale * time),
  );
  const bore = pin.hole / pin.diameter;
  const { like, worlds, squares } = unlike(columns, method, basis);
  const draws = evened(like, bore);
  nearest(draws, evened(worlds, bore), squares, times);
  return { planned: times[WORLDS]!, draws };
}

/**
 * Puts in place of each point the mean of the values at the known points, weighted by the inverse of a power of their distance, of which
 * `squares` is the part that stands.
 *
 * Source: Shepard, "A two-dimensional interpolation function for irregularly-spaced data", ACM National Conference 1968.
 */
function nearest(points: Float64Array, known: Float64Array, squares: Float64Array, values: Float64Array): void {
  const worlds = known.length;
  for (let i = 0; i < points.length; i++) {
    const x = points[i]!;
    let [sum, weights] = [0, 0];
    for (let j = 0; j < worlds; j++) {
      const apart = x - known[j]!;
      const squared = squares[i * worlds + j]! + apart * apart;
      // The inverse 20th power of the distance: nearly the value of the one most alike. A general power takes far longer.
      const fifth = squared * squared * squared * squared * squared;
      const weight = 1 / (fifth * fifth);
      weights += weight;
      sum += weight * values[j]!;
    }
    points[i] = sum / weights;
  }
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

/** One pin of the table; times over diameter^1.5. */
function entry(size: number, bore: number, columns: Columns, basis: Basis): Drawn {
  return basis.once(`cooling draws ${size} ${bore} ${columns[0]!.length}`, () => {
    const pin = tablePin(size, bore);
    return drawnFor(pin, TABLE_PIN.pace, pin.diameter ** -POWER, columns, basis, () => {
      const at = [size, bore];
      return kept(KEPT_DRAWS, KEPT, at, WORLDS + 1, COOLED_IN_AIR_BY, basis) ?? solvedEntry(at, basis);
    });
  });
}

/** Times of a pin of the table, solved. */
export const solvedEntry = ([size, bore]: readonly number[], basis: Basis): Float64Array =>
  solvedTimes(tablePin(size!, bore!), TABLE_PIN.pace, basis);

/** Pins of the table whose times are kept: the usual ones, as assumed in air. */
export const KEPT: Places = [
  [-3, 0],
  [10, 15],
];

/**
 * Cooling time of a pin in each draw of `coolingFactors`.
 *
 * For pins of a table over diameter and hole, 16 worlds are solved by `coolingTime`; a draw takes the times of the worlds most
 * alike to it. Between the pins of the table straight lines over the simplex that holds the pin. All draws are moved by the
 * factor that brings the table's own plan to the pin's, with its length and pace.
 * diameter, hole, length [m], pace [kg/s], planned [s], columns in SI; result [s], to be overwritten by the next pin.
 * Of nine pins of 1.5 to 10 in, in air and with water, P10, P50 and P90 lie within 16 % of those of 256 solved worlds in the root
 * mean square.
 * Source: as `coolingTime`.
 */
export function coolingDraws(pin: Pin, pace: number, planned: number, columns: Columns, basis: Basis): Float64Array {
  const count = columns[0]!.length;
  const into = basis.reading(`cooling drawn ${count}`, () => new Float64Array(count));
  if (columns.every((column) => column.every((x) => x === column[0]))) return into.fill(planned);
  const parts = partsFor(pin, pace, columns, basis);
  const middle = parts.reduce((sum, { weight, drawn }) => sum + weight * drawn.planned, 0);
  const scale = middle > 0 ? planned / middle : 1;
  into.fill(0);
  for (const { weight, drawn } of parts) {
    const { draws } = drawn;
    const share = weight * scale;
    for (let i = 0; i < count; i++) into[i] = into[i]! + share * draws[i]!;
  }
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
    return [{ weight: 1, drawn: basis.once(key, () => drawnFor(pin, pace, 1, columns, basis)) }];
  }
  const at = (axis: 'size' | 'bore', x: number): number =>
    // A hair of rounding must not call for one more entry.
    Number((Math.min(RANGE[axis][1], Math.max(RANGE[axis][0], x)) / STEPS[axis]).toFixed(9));
  const [size, bore] = [at('size', Math.log(pin.diameter)), at('bore', pin.hole / pin.diameter)];
  const [s, b] = [Math.floor(size), Math.floor(bore)];
  const [u, v] = [size - s, bore - b];
  const corners = [
    [1 - Math.max(u, v), s, b],
    [Math.abs(u - v), s + Number(u > v), b + Number(v > u)],
    [Math.min(u, v), s + 1, b + 1],
  ] as const;
  return corners.flatMap(([weight, i, j]) => (weight > 0 ? [{ weight, drawn: entry(i, j, columns, basis) }] : []));
}
