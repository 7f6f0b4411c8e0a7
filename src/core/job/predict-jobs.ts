import type { ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { consume, ratesOf } from '../operations/consumption.ts';
import { rodsAt, rodYield } from '../operations/rod-fit.ts';
import { paceOf, timeAtWork } from '../operations/work-ways.ts';
import { CHANNELS, type LogJob } from './log-job.ts';

/** Whole rods are half a rod more than the length burned takes, on average. */
export const HALF_ROD = 0.5;

/** Predicts every job of a log from factors given by `read`; see `jobPredictor`. */
export interface PredictJobs {
  /**
   * Natural logarithms of rods (not rounded), oxygen, burning and crew time, four a job; NaN where the heat does not suffice.
   *
   * @param read      the factors
   * @param own       scatter that every job has [-]
   * @param fixedPace factor on the crew times that do not depend on burning
   * @param reshape   whether `read` changes the geometry of the work too, which otherwise is kept
   */
  (read: ReadNumber, own: number, fixedPace: number, reshape?: boolean): Float64Array;
}

/**
 * Prediction of the jobs of a log as a function of the factors, by the equations of `sizeItem` with rods not rounded.
 *
 * Rod, method and calculated flow stay those the jobs were sized with.
 */
export function jobPredictor(jobs: readonly LogJob[], basis: Basis): PredictJobs {
  const { a } = basis;
  // What no factor changes is found once: a fit predicts every job a hundred times and more.
  const keys = jobs.map(({ sizing }) => `${sizing.rod.rod.kind} ${sizing.material.name}`);
  const kinds = [...new Set(keys)];
  const kindOf = Uint32Array.from(keys, (key) => kinds.indexOf(key));
  const examples = kinds.map((key) => jobs[keys.indexOf(key)]?.sizing);
  const operations = [...new Set(jobs.map(({ operation }) => operation))];
  const operationOf = Uint32Array.from(jobs, ({ operation }) => operations.indexOf(operation));
  const yields = jobs.map(({ sizing }) => rodYield(sizing.rod, sizing.work.reach, basis));
  const flows = jobs.map(({ sizing }) => sizing.flow / a.value('flow factor'));
  const cooling = jobs.map(({ sizing }) => sizing.cooling);
  return (read, own, fixedPace, reshape = false) => {
    const out = new Float64Array(jobs.length * CHANNELS.length).fill(NaN);
    const ratesOfKind = examples.map(
      (sizing) => sizing && solved(() => ratesOf(sizing.rod.rod, sizing.material, a, read)),
    );
    const fixedTimes = operations.map(
      ({ crewTimes }) => crewTimes.reduce((sum, name) => sum + read(name), 0) * fixedPace,
    );
    const pace = paceOf(a, read);
    const flowFactor = read('flow factor');
    jobs.forEach(({ operation, sizing }, i) => {
      const { rod, method } = sizing;
      const rates = ratesOfKind[kindOf[i] ?? 0];
      if (!rates) return;
      const flow = (flows[i] ?? NaN) * flowFactor;
      const work = reshape ? operation.work(sizing.planned, rod.rod, read, a, undefined, method) : sizing.work;
      const used = consume(work, rod.rod, flow, rates);
      const burnTime = used.burnTime * own;
      const rods = rodsAt(used.consumed * own, reshape ? rodYield(rod, work.reach, basis) : yields[i]!);
      const whole = rods + HALF_ROD;
      const fixed = (fixedTimes[operationOf[i] ?? 0] ?? 0) + (cooling[i] ?? 0);
      const at = i * CHANNELS.length;
      out[at] = Math.log(rods);
      out[at + 1] = Math.log(
        used.burnOxygen * own * (1 + rates.idleShare) + Math.max(whole, work.starts ?? 0) * flow * rates.lightingTime,
      );
      out[at + 2] = Math.log(burnTime);
      out[at + 3] = Math.log(fixed + timeAtWork(burnTime, whole, work, pace, read));
    });
    return out;
  };
}

function solved<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}
