import { Assumptions, type Override } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import { LONGEST } from '../heat/cooling-time.ts';
import type { HeatGrid } from '../heat/heat-physics.ts';
import { bossInForce, coolingInForce, physicsInForce } from '../heat/heat-in-force.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';
import { normalColumn } from '../spread/draws.ts';
import { correlatedScores } from '../spread/drawn-together.ts';
import { johnson, johnsonColumn } from '../spread/johnson.ts';
import { sobolColumn } from '../spread/sobol.ts';
import { bossSteelInForce, pinSteelInForce } from './fit-in-force.ts';
import { heatedPin, interferenceLeft, type HeatedPin } from './shrink-pin.ts';

/** Number of cases followed: as many as a cell has time for. Powers of two. */
export const CASES = { grip: 16, loosening: 32 } as const;
/**
 * Scrambles of the cases, of 60 and 90. With them, of six pins in air and with water, the force after stands within 5 hundredths of the
 * force before of that of 512 cases and the chance within 5 hundredths of 1; of loosening low, middle and chance of none within 9
 * hundredths of the interference and of 1, and the high within 31 % of itself, 4 hundredths in the root mean square of them all, the
 * high at three tenths.
 */
const SEEDS = { grip: 43, loosening: 33 } as const;

/** Coarser than for one loosening: the ranges of what heats the pin hide the rest. */
const CASE_GRID: HeatGrid = { pinCells: 5, bossCells: 8, tolerance: 6, hair: 0.5 };
/** Smaller changes of temperature are taken together [K]. */
const LEAST_CHANGE = 16;

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

/**
 * Ways that burning and cooling may have gone: scrambled Sobol points through the quantiles of the assumptions in force and
 * of the paces of burning [kg/s], which are the draws of the pin's own work.
 */
function casesOf(
  method: CoolingMethod,
  further: readonly NumberName[],
  count: number,
  paces: Float64Array,
  a: Assumptions,
  seed: number,
): readonly Case[] {
  const names = [...BURNING, ...(method === 'water' ? WATER : []), ...further];
  const ordered = paces.filter((pace) => pace > 0).sort();
  const scores = correlatedScores(
    names,
    names.map((_, k) => normalColumn(k + 1, count, seed)),
    a,
  );
  const drawn = names.map((name, k) => johnsonColumn(johnson(a.inForce(name)), scores[k]!));
  return Array.from(sobolColumn(0, count, seed), (u, i) => ({
    a: Assumptions.from(
      names.map((name, k): Override => ({ name, value: drawn[k]![i]!, kind: 'your value' })),
      a,
    ),
    pace: ordered[Math.floor(u * ordered.length)]!,
  }));
}

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
    CASE_GRID,
    LEAST_CHANGE,
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
 * from the ranges in force, the pace from the pin's own work; `heatedPin` and its rings are followed for two interferences,
 * between and beyond them straight lines of the root of the loosening: it sets in where the ring yields and then grows about
 * with the square.
 * The middle of a grip after burning stands within 12 % of that of many cases, its high within 10 %, its low within 20 %.
 * Source and range as `shrinkPin`.
 */
export function retainedInCases(
  pin: PinInBoss,
  method: CoolingMethod,
  paces: Float64Array,
  most: number,
  a: Assumptions,
  count: number = CASES.grip,
): readonly Retained[] {
  const [little, much] = TRIED.map((share) => share * most) as [number, number];
  return casesOf(method, [], count, paces, a, SEEDS.grip).map((each) => {
    const heated = heatedIn(each, pin, method);
    const tight = interferenceLeft(heated, much);
    const high = root(much - tight.left);
    // Where the tightest stays elastic, all do, and loosen alike.
    const low = tight.elastic ? high : root(little - interferenceLeft(heated, little).left);
    const retained = (interference: number): number => {
      const share = much > little ? (interference - little) / (much - little) : 0;
      const loosening = low + share * (high - low);
      return interference - loosening * Math.abs(loosening);
    };
    return Object.assign(retained, { elastic: tight.elastic });
  });
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
  const found = casesOf(method, ['interference over diameter', 'boss over pin'], count, paces, a, SEEDS.loosening).map(
    (each) => {
      // No thinner than a bushing lets it be.
      const least = 1.05 * (diameter + 2 * a.value('bushing wall'));
      const pin = { diameter, hole, length, boss: Math.max(least, bossInForce(diameter, each.a)) };
      const delta = each.a.value('interference over diameter') * diameter;
      return delta - interferenceLeft(heatedIn(each, pin, method), delta).left;
    },
  );
  const draws = Float64Array.from(found);
  const [low, likely, high] = [0.1, 0.5, 0.9].map((p) => drawPercentile(draws, p)) as [number, number, number];
  return { low, likely, high, nothing: found.filter((x) => x <= 0).length / found.length };
}
