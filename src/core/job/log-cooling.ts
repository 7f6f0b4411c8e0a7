/** How the pins of a log may have cooled. */
import { COOLING, type Correlated } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { cooledBy, coolingBesides, drawsOfCooling, placesOf, scoresOf } from '../operations/draw-item.ts';
import { DRAWS } from '../operations/spread-item.ts';
import { cholesky, choleskySolve } from '../spread/cholesky.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';
import { dot } from '../spread/regression.ts';
import type { LogJob } from './log-job.ts';

/** Coolings that change the crew time of the jobs by less than this share, one to the next, are taken together. */
const ALIKE = 0.1;
/** Mean of a normal score in some case from which it tells the cases apart. */
const TELLS = 0.25;
/** Fewest draws that are taken together. */
const LEAST_DRAWS = 48;
/** Variance of a normal score that a log leaves where it is. */
const UNTOLD = 1e-4;

/** How long the jobs of a log cool, as a straight line of normal scores. */
interface CoolingLine {
  /** Mean scores, and the mean cooling of each job there [s]. */
  readonly about: Float64Array;
  readonly times: Float64Array;
  /** How much longer each job cools for each score more, by least squares [s]. */
  readonly slopes: readonly Float64Array[];
}

/** Draws of the cooling that are alike for the jobs of a log. */
export interface CoolingCase extends CoolingLine {
  /** Of all draws, 0 to 1. */
  readonly share: number;
  /** Of the normal scores of what the cooling is drawn from: means, and covariance row by row. */
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

export interface LogCooling {
  /** What tells the cases apart, and last the part of the cooling that they leave unsaid. */
  readonly names: readonly Correlated[];
  readonly cases: readonly CoolingCase[];
}

/** Limit of Huber's weights in standard deviations: as good as least squares, but for a twentieth, where nothing lies far out. */
const FAR = 1.345;
/** Standard deviation over median of the size, of a normal distribution. */
const OF_MEDIAN = 1.4826;
const ROUNDS = 8;

/** The sum of weights, and the mean of draws that each count as weighed; 0 of none. */
function meanBy(weights: Float64Array) {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (x: Float64Array | undefined): number =>
    x ? x.reduce((sum, value, w) => sum + weights[w]! * value, 0) / total : 0;
  return { total, mean };
}

/** The straight line through draws of the scores and of the cooling of each job, and the covariance of the scores; each draw counts as weighed. */
function lineThrough(
  weights: Float64Array,
  scores: readonly Float64Array[],
  all: readonly (Float64Array | undefined)[],
): CoolingLine & Pick<CoolingCase, 'covariance'> {
  const n = scores.length;
  const { total, mean } = meanBy(weights);
  const about = Float64Array.from(scores, mean);
  /** Scores less their mean, by weight. */
  const weighed = scores.map((z, k) => z.map((x, w) => (weights[w]! * (x - about[k]!)) / total));
  const along = (k: number, x: Float64Array): number => dot(weighed[k]!, x);
  const covariance = Float64Array.from({ length: n * n }, (_, i) => along(Math.floor(i / n), scores[i % n]!));
  const triangle = cholesky(covariance, n);
  return {
    about,
    covariance,
    times: Float64Array.from(all, mean),
    slopes: all.map((times) =>
      times && triangle
        ? choleskySolve(
            triangle,
            Float64Array.from(scores, (_, k) => along(k, times)),
          )
        : new Float64Array(n),
    ),
  };
}

/**
 * Weights of draws by which the line through them tells how the middle goes: a few draws in which pins cool for an hour must not bend it
 * where all others take minutes.
 *
 * Source: Huber and Ronchetti, Robust Statistics, 2nd edition, chapter 7.
 */
function weightsFor(times: Float64Array, scores: readonly Float64Array[]): Float64Array {
  const weights = new Float64Array(times.length).fill(1);
  for (let round = 0; round < ROUNDS; round++) {
    const line = lineThrough(weights, scores, [times]);
    const off = times.map((time, w) =>
      Math.abs(
        scores.reduce((left, z, k) => left - line.slopes[0]![k]! * (z[w]! - line.about[k]!), time - line.times[0]!),
      ),
    );
    const limit = FAR * OF_MEDIAN * drawPercentile(off, 0.5);
    off.forEach((x, w) => (weights[w] = x > limit ? limit / x : 1));
  }
  return weights;
}

const isCooled = ({ operation, noted }: LogJob): boolean => operation.cooling !== undefined && noted.crew !== undefined;

/** Cooling of each job in each draw [s], on a basis; undefined of those that do not cool. */
const coolingOf = (
  jobs: readonly LogJob[],
  columns: readonly Float64Array[],
  basis: Basis,
): readonly (Float64Array | undefined)[] =>
  jobs.map(({ operation: { cooling }, sizing: { planned, removed, timeAtWork } }) => {
    if (!cooling) return undefined;
    const pace = removed / timeAtWork;
    return Float64Array.from(cooling.draws(planned, pace, cooling.time(planned, pace, basis), columns, basis));
  });

/** Part of the planned crew time that cooling takes in each draw, the mean of the jobs that note it. */
function partsOf(jobs: readonly LogJob[], all: readonly (Float64Array | undefined)[]): Float64Array {
  const parts = new Float64Array(DRAWS);
  const count = jobs.filter(isCooled).length;
  jobs.forEach((job, i) => {
    if (isCooled(job)) all[i]!.forEach((time, w) => (parts[w]! += time / job.sizing.crewTime / count));
  });
  return parts;
}

/** A case with what its factors leave unsaid as the last: of that a log moves next to nothing, since nothing can be handed back of it. */
function withBesides(one: CoolingCase): CoolingCase {
  const n = one.about.length;
  const longer = (x: Float64Array): Float64Array => Float64Array.from([...x, 0]);
  return {
    ...one,
    about: longer(one.about),
    mean: longer(one.mean),
    slopes: one.slopes.map(longer),
    covariance: Float64Array.from({ length: (n + 1) ** 2 }, (_, i) => {
      const [j, k] = [Math.floor(i / (n + 1)), i % (n + 1)];
      return j < n && k < n ? one.covariance[j * n + k]! : j === k ? UNTOLD : 0;
    }),
  };
}

/**
 * The draws of a plan's cooling in cases, quickest first: most worlds cool in minutes, some in an hour, hardly any in between, so that
 * neither a mean nor a straight line would tell a log what it may have been. No cases where no job that notes crew time cools, or
 * all cool alike.
 *
 * Pins of one log cool by one method, that in force.
 */
export function logCooling(jobs: readonly LogJob[], basis: Basis): LogCooling {
  const none = { names: [], cases: [] };
  const cooled = jobs.filter(isCooled);
  const [first] = cooled;
  if (!first) return none;
  const places = placesOf(first.sizing, basis)
    .slice(-cooledBy(first.operation, basis.a).length)
    .filter(({ name }) => basis.a.inForce(name).low < basis.a.inForce(name).high);
  const all = coolingOf(jobs, drawsOfCooling(first.operation, DRAWS, basis), basis);
  const parts = partsOf(jobs, all);
  const order = Array.from(parts.keys()).sort((i, j) => parts[i]! - parts[j]!);
  const groups: number[][] = [];
  for (let at = 0, from = 0; at < DRAWS; at++) {
    const [begun, left] = [at - from, DRAWS - at];
    if (
      at === 0 ||
      (parts[order[at]!]! > parts[order[from]!]! + ALIKE && begun >= LEAST_DRAWS && left >= LEAST_DRAWS)
    ) {
      groups.push([]);
      from = at;
    }
    groups.at(-1)!.push(order[at]!);
  }
  if (groups.length < 2) return none;
  const told = places
    .map((place) => ({ name: place.name, scores: scoresOf(place, DRAWS, basis) }))
    .filter(({ scores: z }) =>
      groups.some((draws) => Math.abs(draws.reduce((sum, w) => sum + z[w]!, 0)) > TELLS * draws.length),
    );
  const scores = told.map((each) => each.scores);
  return {
    names: [...told.map(({ name }) => name), COOLING],
    cases: groups.map((draws) => {
      const weights = new Float64Array(DRAWS);
      for (const w of draws) weights[w] = 1;
      const line = lineThrough(weights, scores, all);
      return withBesides({ ...line, share: draws.length / DRAWS, mean: line.about });
    }),
  };
}

/**
 * The same case with the line through all draws on a basis: of a fit's own factors, whose draws know nothing of cases. Where the
 * cooling jumps some of them fall beyond the case, and what the fit makes of the crew has to go with that. What the line leaves unsaid is
 * drawn by itself there, whatever its case was.
 *
 * @param names   what tells the cases apart, without that
 * @param scoreOf normal scores, in the ranges that the fit began with, of a factor's draws
 * Source: García-Fernández et al., Posterior linearization filter, IEEE Transactions on Signal Processing 63 (2015) 5561, from memory.
 */
export function caseOn(
  after: Basis,
  one: CoolingCase,
  jobs: readonly LogJob[],
  names: readonly NumberName[],
  scoreOf: (name: NumberName, drawn: Float64Array) => Float64Array,
): CoolingCase {
  const { operation, sizing } = jobs.find(isCooled)!;
  const columns = drawsOfCooling(operation, DRAWS, after);
  const factors = cooledBy(operation, after.a);
  const places = placesOf(sizing, after);
  const known = new Map(
    names.map((name) => [
      name,
      scoresOf(
        places.find((place) => place.name === name)!,
        DRAWS,
        after,
      ),
    ]),
  );
  const scores = [
    ...names.map((name) => scoreOf(name, columns[factors.indexOf(name)]!)),
    coolingBesides(known, DRAWS, after),
  ];
  const all = coolingOf(jobs, columns, after);
  const { mean } = meanBy(new Float64Array(DRAWS).fill(1));
  const { slopes } = lineThrough(weightsFor(partsOf(jobs, all), scores), scores, all);
  return { ...one, about: Float64Array.from(scores, mean), times: Float64Array.from(all, mean), slopes };
}
