import { Assumptions, type Override } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import { LONGEST } from '../heat/cooling-time.ts';
import type { HeatGrid } from '../heat/heat-physics.ts';
import { bossInForce, coolingInForce, physicsInForce } from '../heat/heat-in-force.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';
import { normalColumn } from '../spread/draws.ts';
import { correlatedScores } from '../spread/drawn-together.ts';
import { johnson, johnsonAt, johnsonColumn, type Johnson } from '../spread/johnson.ts';
import { sobolColumn } from '../spread/sobol.ts';
import { bossSteelInForce, pinSteelInForce } from './fit-in-force.ts';
import { heatedPin, interferenceLeft, type HeatedPin } from './shrink-pin.ts';

/** Cases drawn, for a grip and for a loosening. Powers of two. */
export const CASES = { grip: 32, loosening: 32 } as const;
/**
 * The cases of a grip in order of how much they loosen, cut into parts in these proportions: of each the case in the middle is followed, and
 * all are read between these. Where water cools, what loosens a pin follows no one order as well, so more are followed.
 */
const PARTS: Readonly<Record<CoolingMethod, readonly number[]>> = {
  air: [1, 2, 2, 2, 1],
  water: new Array<number>(16).fill(1),
};
/**
 * How much a case loosens goes by the flux of heat into the wall, over the pin's strength, and the less the better the joint leads
 * away: powers of the pace and of the first of `BURNING`. With water heat counts for more, as the pin that took little is pushed
 * before it is colder than its boss.
 */
const LOOSENS_BY = { air: [0.75, 1, -0.75, -0.25, -0.7], water: [0.45, 1, -0.45, -0.15, -0.4] } as const;
/**
 * Scrambles of the cases, of 60 and 90. With the second, of the 51 pins of `retainedInCases`, low, middle and chance of none of a loosening
 * stand within 5 hundredths of the interference and of 1 in the root mean square, and the high within 17 % of itself.
 */
const SEEDS = { grip: 30, loosening: 26 } as const;

/** Coarser than for one loosening, as the ranges of what heats the pin hide the rest; smaller changes of temperature than `least` are taken together [K]. */
const CASE_GRIDS = {
  air: { pinCells: 5, bossCells: 4, tolerance: 6, hair: 0.5, hasty: true, least: 300 },
  water: { pinCells: 6, bossCells: 5, tolerance: 6, hair: 0.5, least: 150 },
} as const satisfies Readonly<Record<CoolingMethod, HeatGrid & { least: number }>>;

const BURNING = [
  'heat into the part',
  'heated zone',
  'joint conductance',
  'pin yield strength',
  'pin over boss when pushed',
] as const satisfies readonly NumberName[];
const WATER = [
  'wet boss share',
  'boiling surface factor',
  'boiling flux factor',
  'film boiling limit',
] as const satisfies readonly NumberName[];

/** One way that burning and cooling may have gone: assumptions drawn from their ranges, and a pace of burning [kg/s]. */
interface Case {
  readonly a: Assumptions;
  readonly pace: number;
}

/** Ways that burning and cooling may have gone: paces of burning [kg/s], and a column of normal scores of each assumption that is drawn. */
interface Drawn {
  readonly paces: Float64Array;
  readonly ranges: readonly Johnson[];
  readonly names: readonly NumberName[];
  readonly scores: readonly Float64Array[];
}

/**
 * Scrambled Sobol points through the quantiles of the assumptions in force and of the paces of burning [kg/s], which are the draws
 * of the pin's own work.
 */
function drawnCases(
  method: CoolingMethod,
  further: readonly NumberName[],
  count: number,
  paces: Float64Array,
  a: Assumptions,
  seed: number,
): Drawn {
  const names = [...BURNING, ...(method === 'water' ? WATER : []), ...further];
  const ordered = paces.filter((pace) => pace > 0).sort();
  const apart = names.map((_, k) => normalColumn(k + 1, count, seed));
  return {
    paces: sobolColumn(0, count, seed).map((u) => ordered[Math.floor(u * ordered.length)]!),
    ranges: names.map((name) => johnson(a.inForce(name))),
    names,
    scores: correlatedScores(names, apart, a),
  };
}

/** The case in the middle of some: of their paces by the logarithm, of all else by the normal scores. */
function middleOf({ paces, ranges, names, scores }: Drawn, some: readonly number[], a: Assumptions): Case {
  const value = (k: number): number =>
    johnsonAt(
      ranges[k]!,
      mean(some, (i) => scores[k]![i]!),
    );
  return {
    a: Assumptions.from(
      names.map((name, k): Override => ({ name, value: value(k), kind: 'your value' })),
      a,
    ),
    pace: Math.exp(mean(some, (i) => Math.log(paces[i]!))),
  };
}

const mean = (some: readonly number[], of: (i: number) => number): number =>
  some.reduce((sum, i) => sum + of(i), 0) / some.length;

function heatedIn({ a, pace }: Case, pin: PinInBoss, method: CoolingMethod): HeatedPin {
  return heatedPin(
    {
      ...coolingInForce(pin, method, undefined, pace, a),
      pin,
      longest: LONGEST,
      pinSteel: pinSteelInForce(a),
      bossSteel: bossSteelInForce(a),
    },
    physicsInForce(a),
    CASE_GRIDS[method],
    CASE_GRIDS[method].least,
    Infinity,
  );
}

/** Interference left when the pin is pushed, on the diameter [m], for one before the work [m]; and whether a tight pin and its boss stay elastic. */
export type Retained = ((interference: number) => number) & { readonly elastic?: boolean };

/** Interferences followed, over the largest. */
const TRIED = [0.2, 1] as const;

/**
 * What each of the cases leaves of a pin's interference, up to the largest there may be [m].
 *
 * Heat, heated zone, joint, pin's strength, evenness and, with water, how it boils and how much of the boss it wets are drawn
 * from the ranges in force, the pace from the pin's own work. The cases are put in order by `LOOSENS_BY` and cut into parts; of each the
 * case in the middle is followed, `heatedPin` and its rings for two interferences. Between and beyond these, and between and beyond
 * the followed cases, straight lines of the root of the loosening: it sets in where the ring yields and then grows about with the square.
 *
 * Of 51 pins of 1.5 to 12 in, in air and with water, some with other steels, an old bore, a bushing or other heat, low, middle and high of
 * the force after stand within 2 hundredths of the force before of those of 512 cases, each followed on a finer grid for five interferences, in the root mean
 * square, the chances of rams within 1.6 hundredths of 1 and that nothing loosens within 5.
 * Source and range as `shrinkPin`.
 */
export function retainedInCases(
  pin: PinInBoss,
  method: CoolingMethod,
  paces: Float64Array,
  most: number,
  a: Assumptions,
  count: number = CASES.grip,
  parts: readonly number[] = PARTS[method],
): readonly Retained[] {
  const drawn = drawnCases(method, [], count, paces, a, SEEDS.grip);
  const [toPace, ...powers] = LOOSENS_BY[method];
  const heats = drawn.paces.map((pace) => toPace * Math.log(pace));
  powers.forEach((power, k) =>
    johnsonColumn(drawn.ranges[k]!, drawn.scores[k]!).forEach((x, i) => (heats[i] = heats[i]! + power * Math.log(x))),
  );
  const order = Array.from(heats.keys()).sort((i, j) => heats[i]! - heats[j]!);
  const all = parts.reduce((sum, part) => sum + part, 0);
  let before = 0;
  const followed = parts.flatMap((part) => {
    const some = order.slice((count * before) / all, (count * (before += part)) / all);
    if (some.length === 0) return [];
    return [{ heat: mean(some, (i) => heats[i]!), ...followedIn(middleOf(drawn, some, a), pin, method, most) }];
  });
  return Array.from(heats, (heat) => {
    let k = 0;
    while (k + 2 < followed.length && followed[k + 1]!.heat <= heat) k++;
    const one = followed[k]!;
    const next = followed[k + 1] ?? one;
    const at = next.heat > one.heat ? (heat - one.heat) / (next.heat - one.heat) : 0;
    return retainedBy(
      one.low + at * (next.low - one.low),
      one.high + at * (next.high - one.high),
      (at < 0.5 ? one : next).elastic,
      most,
    );
  });
}

/** Roots of what a case takes off both interferences, up to the largest [m], and whether the tightest stays elastic. */
function followedIn(each: Case, pin: PinInBoss, method: CoolingMethod, most: number) {
  const [little, much] = TRIED.map((share) => share * most) as [number, number];
  const heated = heatedIn(each, pin, method);
  const tight = interferenceLeft(heated, much);
  const high = root(much - tight.left);
  // Where the tightest stays elastic, all do, and loosen alike.
  const low = tight.elastic ? high : root(little - interferenceLeft(heated, little).left);
  return { low, high, elastic: tight.elastic };
}

function retainedBy(low: number, high: number, elastic: boolean, most: number): Retained {
  const [little, much] = TRIED.map((share) => share * most) as [number, number];
  const retained = (interference: number): number => {
    const share = much > little ? (interference - little) / (much - little) : 0;
    const loosening = low + share * (high - low);
    return interference - loosening * Math.abs(loosening);
  };
  return Object.assign(retained, { elastic });
}

const root = (x: number): number => Math.sign(x) * Math.sqrt(Math.abs(x));

/** What burning and cooling take off the interference in a case [m]. */
export interface Loosening {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  /** Share of the cases in which nothing is taken off, 0 to 1. */
  readonly nothing: number;
}

/** `retainedInCases` of a pin whose interference and boss are drawn too, as what is taken off. diameter, hole, length [m]. */
export function looseningInCases(
  { diameter, hole, length }: Omit<PinInBoss, 'boss'>,
  method: CoolingMethod,
  paces: Float64Array,
  a: Assumptions,
  count: number = CASES.loosening,
): Loosening {
  const drawn = drawnCases(method, ['interference over diameter', 'boss over pin'], count, paces, a, SEEDS.loosening);
  const found = Array.from({ length: count }, (_, i) => {
    const each = middleOf(drawn, [i], a);
    // No thinner than a bushing lets it be.
    const least = 1.05 * (diameter + 2 * a.value('bushing wall'));
    const pin = { diameter, hole, length, boss: Math.max(least, bossInForce(diameter, each.a)) };
    const delta = each.a.value('interference over diameter') * diameter;
    return delta - interferenceLeft(heatedIn(each, pin, method), delta).left;
  });
  const draws = Float64Array.from(found);
  const [low, likely, high] = [0.1, 0.5, 0.9].map((p) => drawPercentile(draws, p)) as [number, number, number];
  return { low, likely, high, nothing: found.filter((x) => x <= 0).length / found.length };
}
