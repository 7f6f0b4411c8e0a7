/** How the pins of a log may have cooled. */
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { LONGER } from '../heat/cooling-draws.ts';
import { longerBy, methodInForce } from '../heat/heat-in-force.ts';
import { drawsOfCooling, placesOf, scoresOf } from '../operations/draw-item.ts';
import { DRAWS } from '../operations/spread-item.ts';
import type { LogJob } from './log-job.ts';

/** Coolings that change the crew time of the jobs by less than this share, one to the next, are taken together. */
const ALIKE = 0.1;
/** Fewest draws that are taken together. */
const LEAST_DRAWS = 48;
/** The factor that both burning and cooling rest on. */
export const HEAT = 'heat into the part';
/** How much longer pins cool is fitted in parts of so much [s], which is about what it may be. */
export const COOLING_UNIT = 600;
/** What a case tells of. */
export const COOLED: readonly NumberName[] = [HEAT, LONGER];

/** Draws of the cooling that are alike for the jobs of a log. */
export interface CoolingCase {
  /** Of all draws, 0 to 1. */
  readonly share: number;
  /** Of the normal score of `HEAT`, and of what `LONGER` is more than in force, in `COOLING_UNIT`: means, and covariance row by row. */
  readonly mean: readonly number[];
  readonly covariance: readonly number[];
}

/** How much longer a job cools [s] where `LONGER` is one second more; 0 where it does not. */
export const cooledBy = ({ operation: { cooling }, sizing: { planned } }: LogJob): number =>
  cooling ? longerBy(1, planned['diameter']!) : 0;

const noted = (jobs: readonly LogJob[]): readonly LogJob[] =>
  jobs.filter((job) => job.operation.cooling && job.noted.crew !== undefined);

const paceOf = ({ sizing: { removed, timeAtWork } }: LogJob): number => removed / timeAtWork;

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

/**
 * What `LONGER` has to be more [s] for the jobs to cool on a basis as long as they were planned, all together.
 *
 * @param slower how many times as long the work of each job takes on that basis
 */
export const longerOn = (jobs: readonly LogJob[], basis: Basis, slower: ReadonlyMap<LogJob, number>): number => {
  const cooled = noted(jobs);
  const less = cooled.map(
    (job) =>
      job.sizing.cooling - job.operation.cooling!.time(job.sizing.planned, paceOf(job) / slower.get(job)!, basis),
  );
  return sum(less) / sum(cooled.map(cooledBy));
};

/**
 * The draws of a plan's cooling in cases, quickest first: most worlds cool in minutes, some in an hour, hardly any in between, so that
 * neither a mean nor a straight line would tell a log what it may have been; one where a log has told it. No cases where no job that
 * notes crew time cools in air, or how is certain.
 */
export function logCooling(jobs: readonly LogJob[], basis: Basis): readonly CoolingCase[] {
  const cooled = noted(jobs);
  const [first] = cooled;
  if (!first || methodInForce(basis.a) !== 'air') return [];
  const columns = drawsOfCooling(first.operation, DRAWS, basis);
  const more = new Float64Array(DRAWS);
  /** Part of the planned crew time that cooling takes in each draw, the mean of the jobs. */
  const parts = new Float64Array(DRAWS);
  const by = sum(cooled.map(cooledBy));
  for (const job of cooled) {
    const { planned, cooling, crewTime } = job.sizing;
    const times = job.operation.cooling!.draws(planned, paceOf(job), cooling, columns, basis);
    times.forEach((time, w) => {
      more[w]! += (time - cooling) / by / COOLING_UNIT;
      parts[w]! += time / crewTime / cooled.length;
    });
  }
  if (more.every((x) => x === more[0])) return [];
  const order = Array.from(parts.keys()).sort((i, j) => parts[i]! - parts[j]!);
  const groups: number[][] = [];
  for (let at = 0, from = 0; at < DRAWS; at++) {
    const [begun, left] = [at - from, DRAWS - at];
    if (
      at === 0 ||
      (columns.length > 1 &&
        parts[order[at]!]! > parts[order[from]!]! + ALIKE &&
        begun >= LEAST_DRAWS &&
        left >= LEAST_DRAWS)
    ) {
      groups.push([]);
      from = at;
    }
    groups.at(-1)!.push(order[at]!);
  }
  const heat = placesOf(first.sizing, basis).find(({ name }) => name === HEAT);
  const scores = [heat ? scoresOf(heat, DRAWS, basis) : more, more];
  return groups.map((draws) => {
    const mean = scores.map((z) => sum(draws.map((w) => z[w]!)) / draws.length);
    const along = (j: number, k: number): number =>
      sum(draws.map((w) => (scores[j]![w]! - mean[j]!) * (scores[k]![w]! - mean[k]!))) / draws.length;
    return { share: draws.length / DRAWS, mean, covariance: [along(0, 0), along(0, 1), along(1, 0), along(1, 1)] };
  });
}
