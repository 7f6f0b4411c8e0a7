import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { valueAt, type Evaluation } from '../model/evaluation.ts';
import { rodMassPerLength } from '../burn/rods.ts';
import type { Sized } from '../operations/sized.ts';
import { anewOf, flowsOf, givenOf, itemEvaluation, shapeKey } from '../operations/ways.ts';
import { CHANNELS, HALF_ROD, type LogJob } from './log-job.ts';

/** Share of the crew time without cooling that is left at least, whatever is made of the cooling. */
const LEAST_BUSY = 0.2;

/** Predicts every job of a log from factors given by `read`; see `jobPredictor`. */
export interface PredictJobs {
  /**
   * Natural logarithms of rods (not rounded), oxygen, burning and crew time, four a job; NaN where the heat does not suffice.
   *
   * @param read      the factors
   * @param own       scatter that every job has [-]
   * @param fixedPace factor on the crew times that do not depend on burning
   * @param cooled    cooling of each job [s]; as planned where left out
   */
  (read: ReadNumber, own: number, fixedPace: number, cooled?: Float64Array): Float64Array;
}

/** What the items of a log are given, a column over those that have the same steps. */
interface Alike {
  readonly places: readonly number[];
  readonly at: Evaluation;
  /** Assumptions that the steps read, with their symbols. */
  readonly factors: readonly { readonly symbol: string; readonly name: NumberName }[];
  /** Flows as the jobs were sized with: no factor solves them again. */
  readonly flows: readonly Float64Array[];
}

/** Jobs with the same steps are worked out together, a column over jobs. */
function alikeJobs(jobs: readonly LogJob[], basis: Basis): readonly Alike[] {
  const shapes = jobs.map(({ operation, sizing: { rod, material, method } }) => ({
    operation,
    rod: rod.rod,
    coupled: rod.coupled,
    material,
    method,
  }));
  const keys = shapes.map(shapeKey);
  return [...new Set(keys)].map((key): Alike => {
    const places = keys.flatMap((each, i) => (each === key ? [i] : []));
    const shape = shapes[places[0]!]!;
    const column = (of: (sizing: Sized) => number): Float64Array =>
      Float64Array.from(places, (i) => of(jobs[i]!.sizing));
    const all = itemEvaluation(shape, basis);
    const { operation } = shape;
    const factors = all.list.nodes.flatMap(({ step: { symbol, from } }) =>
      'assumption' in from ? [{ symbol, name: from.assumption as NumberName }] : [],
    );
    const flow = column((sizing) => flowsOf(sizing.rod, sizing, basis).flow);
    const widenFlow = column((sizing) => flowsOf(sizing.rod, sizing, basis).widenFlow ?? NaN);
    const at = all
      .over(anewOf(operation))
      .give([
        ...givenOf(
          {
            operation,
            planned: Object.fromEntries(operation.order.map((name) => [name, column(({ planned }) => planned[name]!)])),
            pressure: column(({ pressure }) => pressure),
            widenPressure: column(({ widenPressure }) => widenPressure ?? NaN),
          },
          {
            length: column(({ rod }) => rod.length),
            diameter: column(({ rod }) => rod.rod.outsideDiameter),
            mass: column(({ rod }) => rodMassPerLength(rod.rod)),
            flow,
            widenFlow,
          },
        ),
      ])
      .over([...factors.map(({ symbol }) => symbol), 'scatter', 'm_0', ...(operation.widening ? ['m_widen_0'] : [])]);
    return { places, at, factors, flows: [flow, widenFlow] };
  });
}

/**
 * Prediction of the jobs of a log as a function of the factors, by the steps of their items with rods not rounded.
 *
 * Rod, method and calculated flow stay those the jobs were sized with.
 */
export function jobPredictor(jobs: readonly LogJob[], basis: Basis): PredictJobs {
  const planned = Float64Array.from(jobs, ({ sizing }) => sizing.cooling);
  const alike = alikeJobs(jobs, basis).map((each) => ({
    ...each,
    whole: each.at.over(['N']),
    given: [] as readonly number[],
  }));
  return (read, own, fixedPace, cooled = planned) => {
    const out = new Float64Array(jobs.length * CHANNELS.length).fill(NaN);
    for (const each of alike) {
      const { places, at, factors, flows, whole } = each;
      const values = [...factors.map(({ name }) => read(name)), own];
      // What moves the cooling or the pace alone leaves the work as it was.
      const anew = values.some((x, i) => x !== each.given[i]);
      if (anew) at.give([...values, ...flows]);
      each.given = values;
      if (solved(() => at.column('share')) === undefined) continue;
      const rods = at.column('N_used');
      if (anew) whole.give([Float64Array.from(places, (_, i) => valueAt(rods, i) + HALF_ROD)]);
      const [oxygen, burnTime, timeAtWork, fixed] = [
        whole.column('O'),
        whole.column('t'),
        whole.column('t_work'),
        whole.column('t_fixed'),
      ];
      places.forEach((job, i) => {
        const place = job * CHANNELS.length;
        out[place] = Math.log(valueAt(rods, i));
        out[place + 1] = Math.log(valueAt(oxygen, i));
        out[place + 2] = Math.log(valueAt(burnTime, i));
        const busy = valueAt(fixed, i) * fixedPace + valueAt(timeAtWork, i);
        // Straight lines may make less than nothing of a cooling.
        out[place + 3] = Math.log(Math.max(LEAST_BUSY * busy, busy + cooled[job]!));
      });
    }
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
