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

/** Draws of the cooling that are alike for the jobs of a log. */
export interface CoolingCase {
  /** Of all draws, 0 to 1. */
  readonly share: number;
  /** Mean cooling of each job [s]. */
  readonly times: Float64Array;
  /** How much longer each job cools for each normal score more, by least squares over the draws of the case [s]. */
  readonly slopes: readonly Float64Array[];
  /** Of the normal scores of what the cooling is drawn from: means, and covariance row by row. */
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

export interface LogCooling {
  /** What tells the cases apart. */
  readonly names: readonly NumberName[];
  readonly cases: readonly CoolingCase[];
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
  const cooled = jobs.filter(({ operation, noted }) => operation.cooling && noted.crew !== undefined);
  const [first] = cooled;
  if (!first) return none;
  const columns = drawsOfCooling(first.operation, DRAWS, basis);
  const places = placesOf(first.sizing, basis)
    .slice(-cooledBy(first.operation, basis.a).length)
    .filter(({ name }) => basis.a.inForce(name).low < basis.a.inForce(name).high);
  const all = jobs.map(({ operation: { cooling }, sizing }) => {
    if (!cooling) return undefined;
    const { planned, removed, timeAtWork } = sizing;
    return Float64Array.from(cooling.draws(planned, removed / timeAtWork, sizing.cooling, columns, basis));
  });
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
  const n = scores.length;
  return {
    names: told.map(({ name }) => name),
    cases: groups.map((draws) => {
      const mean = (of: (w: number) => number): number => draws.reduce((sum, w) => sum + of(w), 0) / draws.length;
      const middle = Float64Array.from(scores, (z) => mean((w) => z[w]!));
      const covariance = Float64Array.from({ length: n * n }, (_, i) => {
        const [j, k] = [Math.floor(i / n), i % n];
        return mean((w) => (scores[j]![w]! - middle[j]!) * (scores[k]![w]! - middle[k]!));
      });
      const triangle = cholesky(covariance, n);
      return {
        share: draws.length / DRAWS,
        times: Float64Array.from(all, (times) => (times ? mean((w) => times[w]!) : 0)),
        slopes: all.map((times) =>
          times && triangle
            ? choleskySolve(
                triangle,
                Float64Array.from(scores, (z, k) => mean((w) => times[w]! * (z[w]! - middle[k]!))),
              )
            : new Float64Array(n),
        ),
        mean: middle,
        covariance,
      };
    }),
  };
}
