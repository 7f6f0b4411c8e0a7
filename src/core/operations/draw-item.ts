import type { NumberName } from '../assumptions/registry.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { Basis } from '../basis.ts';
import { materialFactors, type Material } from '../burn/materials.ts';
import { rodMassPerLength, rodNames, type Rod } from '../burn/rods.ts';
import { LONGER, coolingFactors, coolingFactorsInForce } from '../heat/cooling-draws.ts';
import { filled, valueAt, type Evaluation } from '../model/evaluation.ts';
import { normalColumn } from '../spread/draws.ts';
import { correlatedScores, drawnWith } from '../spread/drawn-together.ts';
import { johnson, johnsonColumn } from '../spread/johnson.ts';
import { SOBOL_DIMENSIONS } from '../spread/sobol.ts';
import type { Operation } from './operation.ts';
import { wholeUp } from './rod-fit.ts';
import { siteFactors } from './site.ts';
import type { Sized } from './sized.ts';
import { anewOf, flowsOf, givenOf, itemEvaluation, shapeKey } from './ways.ts';

/**
 * Scramble of each coordinate, chosen one by one: with them P10 and P90 of oxygen, burning, time at the work and crew time without
 * cooling, of 39 pins, holes, cuts, studs, grooves and breaches, stand within 1.1 % of those of half a million draws at the default
 * count of 1024, 0.45 % in the root mean square. All of these were looked at in choosing. Of thirty scrambles, one for
 * all coordinates, the best stood 1.5 % off. The last, of a factor that came later, was chosen of 91 over 20 pins, holes, breaches and a
 * cut and what the tests ask of pins: within 1.4 % of 65,536 draws, 0.46 % in the root mean square. That of `advance limit` was chosen
 * anew, of 120, when its range had grown: within 1.7 % over 37 items of all operations, time at the work left out, 0.6 % in the root mean
 * square.
 */
const SCRAMBLES: readonly number[] = [
  631, 662, 568, 455, 713, 819, 258, 3329, 5580, 3, 381, 6291, 82, 777, 259, 235, 231, 661, 252, 41, 420, 487, 815, 896,
  712, 427, 768, 255, 80, 332, 858, 590, 527, 324, 131, 848, 311, 79, 641, 934, 73, 547, 466, 542,
];
/**
 * One of 300 scrambles of what the cooling is drawn from: with it P10 and P90 of the crew time of 18 pins, cooled in air, stand within
 * 0.9 % of those of 65,536 draws.
 */
const COOLING_SEED = 246;

/** Factors that all items of a job share: the same crew, the same gas, the same rods. */
export const SHARED = [
  'heat lost share',
  'slag temperature',
  'flow factor',
  'burning duty',
  'product FeO share',
  'idle oxygen share',
  'advance limit',
  'pierce width',
  'advance depth',
  'rod change time',
  'set-up time',
  'plate time',
  'push-out time',
  'clean-up time',
  'unburnt oxygen temperature',
  'heat into the part',
  'limit sharpness',
] as const satisfies readonly NumberName[];

/** Shared factors that came later: behind all others, which keep their places. */
const LATER: readonly NumberName[] = ['limit sharpness'];

/**
 * Factors with a place of their own among the coordinates of the draws, so that each has the same draws for every item
 * of a call, whatever else is drawn. Those of an operation, a site or a material follow behind.
 */
const PLACED: readonly NumberName[] = [
  'item scatter',
  'oxygen burnt share',
  'rod feed ratio',
  ...SHARED.filter((name) => !LATER.includes(name)),
  'bar oxygen burnt share',
  'bar feed ratio',
  'cylinder pressure',
  'leftover pressure',
  'strike current',
  'strike time',
  'plates per pin',
];

/** Every factor that the spread of an item draws, its own scatter left out. */
export function drawnFactors(
  operation: Operation,
  rod: Rod,
  material: Material,
  a: Assumptions,
): readonly NumberName[] {
  const { feed, burnt } = rodNames(rod);
  const removal = operation.removal?.(a);
  const own = removal ? [removal.factor] : [];
  const further = [...(operation.factors ?? []), ...siteFactors(a), ...materialFactors(material), ...own];
  return [...new Set<NumberName>([burnt, feed, ...SHARED, ...further])];
}

/** Every factor that the cooling of an item is drawn from. */
export const cooledBy = (operation: Operation, a: Assumptions): readonly NumberName[] =>
  operation.cooling?.factors(a) ?? [];

/** A factor with the coordinate that it is drawn from, and the scramble of that. */
export interface Placed {
  readonly name: NumberName;
  readonly place: number;
  readonly seed: number;
}

const placed = (name: NumberName, place: number): Placed => ({ name, place, seed: SCRAMBLES[place] ?? place });

/** At the factor's own place; a negative one where it has none. */
function placedAsNamed(name: NumberName, a: Assumptions): Placed {
  const later = LATER.indexOf(name);
  return placed(name, later < 0 ? PLACED.indexOf(drawnWith(name, a).name) : SCRAMBLES.length - 1 - later);
}

const cooledAt = (name: NumberName, k: number): Placed => ({
  name,
  place: SOBOL_DIMENSIONS - 1 - k,
  seed: COOLING_SEED,
});

/** Whether a factor can be correlated with others: it has the same draws for all items, which its own scatter has not. */
export const canCorrelate = (name: NumberName, a: Assumptions): boolean =>
  name !== 'item scatter' &&
  (placedAsNamed(name, a).place >= 0 ||
    name === LONGER ||
    (['air', 'water'] as const).some((method) => coolingFactors(method).includes(name)));

/** What the work at an item is drawn from. */
function workPlaces({ operation, rod, material }: Drawable, { a }: Basis): readonly Placed[] {
  let behind = PLACED.length;
  return drawnFactors(operation, rod.rod, material, a).map((name) => {
    const own = placedAsNamed(name, a);
    return own.place < 0 ? placed(name, behind++) : own;
  });
}

const coolingPlaces = (operation: Operation, { a }: Basis): readonly Placed[] =>
  cooledBy(operation, a).map((name, k) => {
    const own = placedAsNamed(name, a);
    return own.place < 0 ? cooledAt(name, k) : own;
  });

/** All that an item is drawn from, its own scatter left out. */
export const placesOf = (item: Sized, basis: Basis): readonly Placed[] => [
  ...workPlaces(item, basis),
  ...coolingPlaces(item.operation, basis),
];

/** All that is drawn for a job besides: its supply, its plates. */
export const jobPlaces = ({ a }: Basis): readonly Placed[] =>
  (['cylinder pressure', 'leftover pressure', 'strike current', 'strike time', 'plates per pin'] as const).map((name) =>
    placedAsNamed(name, a),
  );

/** Under what a basis keeps the normal scores of a coordinate. */
export const scoresKey = ({ place, seed }: Omit<Placed, 'name'>, count: number): string =>
  `normals ${place} ${count} ${seed}`;

/** Normal scores of a coordinate by itself; not to be changed. */
export const scoresAt = (at: Omit<Placed, 'name'>, count: number, { once }: Basis): Float64Array =>
  once(scoresKey(at, count), () => normalColumn(at.place, count, at.seed));

/** Under what a basis keeps the scores of all that is correlated. */
export const correlatedKey = (count: number): string => `correlated ${count}`;

/** Scores of the coordinates that the assumptions in force correlate, by the factor that each is called by. */
export function correlatedAt(count: number, basis: Basis): ReadonlyMap<NumberName, Float64Array> {
  return basis.once(correlatedKey(count), () => {
    const { a } = basis;
    const told = a.correlations.flatMap(({ names }) => names.map((name) => drawnWith(name, a).name));
    const factors = told.length > 0 ? coolingFactorsInForce(a) : [];
    const cooled = factors.map(cooledAt).filter(({ name }) => !PLACED.includes(name));
    const places = [...PLACED.map(placed), ...cooled].filter(({ name }) => told.includes(name));
    const names = places.map(({ name }) => name);
    const scores = correlatedScores(
      names,
      places.map((at) => scoresAt(at, count, basis)),
      a,
    );
    return new Map(names.map((name, i) => [name, scores[i]!]));
  });
}

/** Throws where the correlations in force contradict each other. */
export const checkCorrelations = (a: Assumptions): void => void correlatedAt(1, new Basis(a));

/** Normal scores that a factor is drawn from, or goes against; not to be changed. */
export const scoresOf = (factor: Placed, count: number, basis: Basis): Float64Array =>
  correlatedAt(count, basis).get(drawnWith(factor.name, basis.a).name) ?? scoresAt(factor, count, basis);

/** Draws of an assumption in force from normal scores, by its median, P10, P90 and limits; the scores of what is certain are not asked for. */
function columnOf(name: NumberName, count: number, scores: () => Float64Array, { a }: Basis): Float64Array {
  const inForce = a.inForce(name);
  if (!(inForce.low < inForce.high)) return filled(inForce.value, count);
  const normals = scores();
  return johnsonColumn(johnson(inForce), drawnWith(name, a).falling ? normals.map((z) => -z) : normals);
}

/** The draws of one assumption in force. */
function drawn(factor: Placed, count: number, basis: Basis): Float64Array {
  const { name, place, seed } = factor;
  return basis.once(`draws ${name} ${place} ${count} ${seed}`, () =>
    columnOf(name, count, () => scoresOf(factor, count, basis), basis),
  );
}

/** `count` draws of an assumption that has a place: the same for every item of a call. */
export function drawsOfShared(name: NumberName, count: number, basis: Basis): Float64Array {
  return drawn(placedAsNamed(name, basis.a), count, basis);
}

/** `count` draws of what the cooling of an item is drawn from, the same for every item of a call: from the last coordinates. */
export const drawsOfCooling = (operation: Operation, count: number, basis: Basis): readonly Float64Array[] =>
  coolingPlaces(operation, basis).map((factor) => drawn(factor, count, basis));

/** What one item takes in each draw, in the order of the draws; SI, rods whole. Infinity where the heat does not suffice. */
export interface ItemDraws {
  readonly rods: Float64Array;
  /** Rods, not rounded. */
  readonly used: Float64Array;
  /** Times a rod is lit. */
  readonly lightings: Float64Array;
  readonly oxygen: Float64Array;
  readonly burnTime: Float64Array;
  /** From set-up to clean-up, with cooling; worked out when it is asked for. */
  readonly crewTime: Float64Array;
  /** Burning with its pauses, rod changes and tasks. */
  readonly timeAtWork: Float64Array;
  /** Crew time without cooling: what keeps a crew busy; worked out when it is asked for. */
  readonly workTime: Float64Array;
}

/** The steps of one kind of item on the draws of everything that its geometry does not change. */
interface Drawn {
  readonly at: Evaluation;
  /** What departs with the item's own scatter: the rest is worked out once for all pieces of it. */
  readonly apart: Evaluation;
  /** What `at` was given last. */
  item: Drawable | undefined;
  /** Draws in which nothing is left to remove the work. */
  readonly without: readonly number[];
}

/** What the draws of an item start from. */
export type Drawable = Pick<
  Sized,
  | 'operation'
  | 'rod'
  | 'material'
  | 'method'
  | 'planned'
  | 'pressure'
  | 'widenPressure'
  | 'removed'
  | 'timeAtWork'
  | 'cooling'
  | 'used'
  | 'oxygen'
  | 'burnTime'
  | 'workTime'
  | 'crewTime'
>;

/**
 * `count` joint draws of one operation, way, kind of rod and material: scrambled Sobol points through the quantiles of the
 * assumptions in force. The same call gives the same draws, and items of one call share them.
 */
function drawnSteps(item: Drawable, count: number, basis: Basis): Drawn {
  const { operation, rod, material, method } = item;
  const shape = { operation, rod: rod.rod, coupled: rod.coupled, material, method };
  return basis.reading(`drawn ${shapeKey(shape)} ${count}`, () => {
    const places = workPlaces(item, basis);
    const all = itemEvaluation(shape, basis, (assumption) => {
      const factor = places.find(({ name }) => name === assumption);
      return factor && drawn(factor, count, basis);
    });
    const [removed, share] = [all.column('k'), all.column('share')];
    const without: number[] = [];
    // Only NaN makes a sum of both that is none.
    for (let i = 0; i < count; i++) if (Number.isNaN(valueAt(removed, i) + valueAt(share, i))) without.push(i);
    const at = all.over([...anewOf(operation), ...(operation.cooling ? ['t_cool'] : [])]);
    return { at, apart: at.over(['scatter']), item: undefined, without };
  });
}

/** What is drawn, with the logarithm of each draw over what is planned times a factor; as it is where that is 1. */
const stretched = (draws: Float64Array, planned: number, by: number): Float64Array =>
  by === 1 ? draws : draws.map((x) => planned * (x / planned) ** by);

/**
 * Draws what one sized item takes: the item's steps on columns. Rod and method stay as planned; the flow departs by the flow
 * factor, the cooling by what it rests on. The columns are overwritten by the next item drawn.
 *
 * The assumptions `range of ...` stand here alone: each draw departs from the plan by so much more, or less. Rods stay whole, and of
 * the crew time the work is a part.
 *
 * @param own how the item departs from the others, one for each draw; the draws of `item scatter` where left out
 */
export function drawItem(
  item: Drawable,
  count: number,
  basis: Basis,
  own = drawsOfShared('item scatter', count, basis),
): ItemDraws {
  const { rod, operation } = item;
  const drawn = drawnSteps(item, count, basis);
  const { at, apart, without } = drawn;
  const { cooling } = operation;
  // Filled in before the step that takes it is worked out.
  const cooled = basis.reading(`cooled draws ${count}`, () => ({
    draws: new Float64Array(count),
    item: undefined as Drawable | undefined,
  }));
  if (drawn.item !== item) {
    at.give([
      ...givenOf(item, {
        length: rod.length,
        diameter: rod.rod.outsideDiameter,
        mass: rodMassPerLength(rod.rod),
        ...flowsOf(rod, item, basis),
      }),
      ...(cooling ? [cooled.draws] : []),
    ]);
    drawn.item = item;
  }
  apart.give([own]);
  const read = (symbol: string): Float64Array => {
    const column = filled(apart.column(symbol), count);
    for (const i of without) column[i] = Infinity;
    return column;
  };
  const { a } = basis;
  const [byRods, byCrew] = [a.value('range of rods'), a.value('range of crew time')];
  const used = stretched(read('N_used'), item.used, byRods);
  const rods = byRods === 1 ? read('N') : used.map(wholeUp);
  const starts = byRods !== 1 && apart.list.has('starts') ? apart.column('starts') : 0;
  return {
    rods,
    used,
    lightings: byRods === 1 ? read('n_light') : rods.map((n, i) => Math.max(n, valueAt(starts, i))),
    oxygen: stretched(read('O'), item.oxygen, a.value('range of oxygen')),
    burnTime: stretched(read('t'), item.burnTime, a.value('range of burning')),
    get crewTime() {
      if (cooling && cooled.item !== item) {
        const columns = basis.reading(`draws of cooling ${operation.id} ${count}`, () =>
          drawsOfCooling(operation, count, basis),
        );
        cooled.draws.set(cooling.draws(item.planned, item.removed / item.timeAtWork, item.cooling, columns, basis));
        cooled.item = item;
      }
      return stretched(read('t_crew'), item.crewTime, byCrew);
    },
    timeAtWork: read('t_work'),
    get workTime() {
      const fixed = read('t_fixed');
      const work = read('t_work').map((time, i) => time + fixed[i]!);
      if (byCrew === 1) return work;
      const crew = this.crewTime;
      return stretched(work, item.workTime, byCrew).map((time, i) => Math.min(time, crew[i]!));
    },
  };
}
