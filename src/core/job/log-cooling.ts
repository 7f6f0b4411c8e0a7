/** How the pins of a log may have cooled. */
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { cooledBy, drawsOfCooling, placesOf, scoresOf } from '../operations/draw-item.ts';
import { DRAWS } from '../operations/spread-item.ts';
import { cholesky, choleskySolve } from '../spread/cholesky.ts';
import type { LogJob } from './log-job.ts';

/** Coolings that change the crew time of the jobs by less than this share, one to the next, are taken together. */
const ALIKE = 0.1;
/** Mean of a normal score in some case from which it tells the cases apart. */
const TELLS = 0.25;
/** Fewest draws that are taken together. */
const LEAST_DRAWS = 48;

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
  /** What tells the cases apart. */
  readonly names: readonly NumberName[];
  readonly cases: readonly CoolingCase[];
}

/** The straight line through some draws of the scores and of the cooling of each job, and the covariance of the scores. */
function lineThrough(
  draws: readonly number[],
  scores: readonly Float64Array[],
  all: readonly (Float64Array | undefined)[],
): CoolingLine & Pick<CoolingCase, 'covariance'> {
  const n = scores.length;
  const mean = (of: (w: number) => number): number => draws.reduce((sum, w) => sum + of(w), 0) / draws.length;
  const about = Float64Array.from(scores, (z) => mean((w) => z[w]!));
  const covariance = Float64Array.from({ length: n * n }, (_, i) => {
    const [j, k] = [Math.floor(i / n), i % n];
    return mean((w) => (scores[j]![w]! - about[j]!) * (scores[k]![w]! - about[k]!));
  });
  const triangle = cholesky(covariance, n);
  const slopesOf = (times: Float64Array | undefined): Float64Array =>
    times && triangle
      ? choleskySolve(
          triangle,
          Float64Array.from(scores, (z, k) => mean((w) => times[w]! * (z[w]! - about[k]!))),
        )
      : new Float64Array(n);
  return {
    about,
    covariance,
    times: Float64Array.from(all, (times) => (times ? mean((w) => times[w]!) : 0)),
    slopes: all.map(slopesOf),
  };
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
  const parts = new Float64Array(DRAWS);
  jobs.forEach((job, i) => {
    if (cooled.includes(job)) all[i]!.forEach((time, w) => (parts[w]! += time / job.sizing.crewTime / cooled.length));
  });
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
    names: told.map(({ name }) => name),
    cases: groups.map((draws) => {
      const line = lineThrough(draws, scores, all);
      return { ...line, share: draws.length / DRAWS, mean: line.about };
    }),
  };
}

/**
 * The same case with the line through all draws on a basis: of a fit's own factors, whose draws know nothing of cases. Where the
 * cooling jumps some of them fall beyond the case, and what the fit makes of the crew has to go with that.
 *
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
  const { operation } = jobs.find(isCooled)!;
  const columns = drawsOfCooling(operation, DRAWS, after);
  const factors = cooledBy(operation, after.a);
  const { about, times, slopes } = lineThrough(
    Array.from({ length: DRAWS }, (_, w) => w),
    names.map((name) => scoreOf(name, columns[factors.indexOf(name)]!)),
    coolingOf(jobs, columns, after),
  );
  return { ...one, about, times, slopes };
}
