import { pert, pertCdf, pertQuantile, pertQuantiles } from '../spread/pert.ts';
import { pertDraws, drawsOf } from '../spread/draws.ts';
import { sobolColumn } from '../spread/sobol.ts';
import { interpolate } from '../heat/interpolate.ts';
import { gripBeyondPriors, notAbove } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { checkPressFit, fitCompliance, type PressFit } from './press-fit.ts';
import type { Levels, RetainedInterference } from './retained-interference.ts';

/** What is believed of the joint before anything was tried, each from low over likely to high. */
export interface GripPriors {
  /** Interference on the diameter [m], 0 or more. */
  readonly interference: Levels<number>;
  readonly friction: Levels<number>;
  /** Shear strength that rust adds [Pa]. */
  readonly bond: Levels<number>;
  /** Share of the rust's strength left after heating and cooling, 0 to 1. */
  readonly bondLeft: Levels<number>;
  /** Heat that burning leaves in the part for each kilogram removed [J/kg]. */
  readonly heat: Levels<number>;
  /** Metal removed over time, as far as heating goes [kg/s]. */
  readonly pace: Levels<number>;
}

export interface GripAfterInputs {
  /** The bored pin in its boss; before the work it was solid. */
  readonly fit: PressFit;
  readonly length: number;
  /** Push that did not move it [N]; 0 where none was tried. */
  readonly tried: number;
  readonly priors: GripPriors;
  readonly retained: RetainedInterference;
  /** Number of draws, a power of two, and the seed that picks them. */
  readonly draws: number;
  readonly seed: number;
}

export interface GripAfter {
  /** Force to start the pin before the work, given that the tried push did not [N]: 10, 50 and 90 in 100 are less. */
  readonly before: Levels<number>;
  /** Force after burning and cooling [N], likewise. */
  readonly after: Levels<number>;
  /** Share of the priors' cases that agree with the push that did not move it. */
  readonly agreement: number;
  /** Chance that a push of that force moves the pin after burning and cooling, 0 to 1. */
  chance(force: number): number;
}

/** Steps that the draws rest on; what is drawn from are the ranges of those that have one. */
const DRAWN = 'solve(D, d, L, D_o, T, i, mu, tau, left, h_part, pace)';

/** Points of the table that turns probabilities into bond strengths. */
const BOND_POINTS = 64;

/**
 * Grip of a pin before and after its core is burnt out, from a push that did not move it.
 *
 * Each draw takes interference delta, friction mu, heat and pace of burning from their ranges (PERT). Before, F = pi D L (mu p + tau) with
 * Lame's p of the solid pin; that the pin held at the tried force T means tau > T / (pi D L) - mu p, so the draw counts
 * with the probability of that and its tau is drawn from what is left of the range. After, p is that of the bored pin
 * with the interference retained, and tau is multiplied by the share left: F' = pi D L (mu p' + s tau).
 * Percentiles and chances are weighted over the draws (self-normalised importance sampling on scrambled Sobol points,
 * so the same call gives the same numbers).
 * lengths [m], forces [N], stresses [Pa]. Elastic before the work; ranges independent of one another.
 * Source: Bayes' rule; contact-pressure.ts, grip-force.ts, retained-interference.ts.
 */
export function gripAfter(inputs: GripAfterInputs, system: UnitSystem = 'US', trace?: Trace): GripAfter {
  const { fit, length, tried, priors, retained, draws: count, seed } = inputs;
  checkPressFit(fit, system);
  if (!(length > 0))
    throw notAbove('length', showQuantity(length, 'length', system), showQuantity(0, 'length', system));
  const area = Math.PI * fit.diameter * length;
  const solid = fitCompliance({ ...fit, hole: 0 });
  const bored = fitCompliance(fit);
  const bond = pert(priors.bond.low, priors.bond.likely, priors.bond.high);
  const most = area * ((priors.friction.high * priors.interference.high) / solid + bond.high);
  if (!(most > tried))
    throw gripBeyondPriors(showQuantity(tried, 'force', system), showQuantity(most, 'force', system));

  const factor = (name: string, range: Levels<number>) => ({ name, ...range });
  const drawn = pertDraws(
    [
      factor('interference', priors.interference),
      factor('friction', priors.friction),
      factor('bond left', priors.bondLeft),
      factor('heat', priors.heat),
    ],
    count,
    seed,
  );
  const delta = drawsOf(drawn, 'interference');
  const mu = drawsOf(drawn, 'friction');
  const left = drawsOf(drawn, 'bond left');
  const heat = drawsOf(drawn, 'heat');
  const even = sobolColumn(4, count, seed);
  const pace = pertQuantiles(pert(priors.pace.low, priors.pace.likely, priors.pace.high), sobolColumn(5, count, seed));
  const probabilities = Array.from({ length: BOND_POINTS + 1 }, (_, i) => i / BOND_POINTS);
  const strengths = probabilities.map((p) => pertQuantile(bond, p));

  const before = new Float64Array(count);
  const after = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const held = (mu[i]! * delta[i]!) / solid;
    const least = tried / area - held;
    const below = tried > 0 ? pertCdf(bond, least) : 0;
    weights[i] = 1 - below;
    const tau = Math.max(least, interpolate(probabilities, strengths, below + even[i]! * (1 - below)));
    const kept = retained(delta[i]!, heat[i]!, pace[i]!);
    before[i] = area * (held + tau);
    after[i] = area * ((mu[i]! * Math.max(0, kept)) / bored + left[i]! * tau);
  }
  const agreement = weights.reduce((sum, w) => sum + w, 0) / count;
  if (!(agreement > 0))
    throw gripBeyondPriors(showQuantity(tried, 'force', system), showQuantity(most, 'force', system));
  const levels = (values: Float64Array): Levels<number> => {
    const read = weighted(values, weights);
    return { low: read(0.1), likely: read(0.5), high: read(0.9) };
  };
  const result = {
    before: levels(before),
    after: levels(after),
    agreement,
    chance: (force: number): number =>
      after.reduce((sum, f, i) => sum + (f <= force ? weights[i]! : 0), 0) / (agreement * count),
  };
  trace?.add({
    name: 'area of the joint',
    symbol: 'A',
    value: area,
    quantity: 'area',
    formula: 'pi x diameter x length',
    expression: 'PI * D * L',
    kind: 'calculated',
    source: 'arithmetic',
  });
  trace?.add({
    name: 'least mean shear that held',
    symbol: 'tau_min',
    value: tried / area,
    quantity: 'stress',
    formula: 'push that did not move it / area of the joint',
    expression: 'T / A',
    kind: 'calculated',
    source: 'arithmetic',
  });
  trace?.add({
    name: 'share of cases that agree with the push',
    symbol: 'w',
    value: agreement,
    quantity: 'ratio',
    formula: `of ${count} draws of interference, friction and rust bond`,
    expression: DRAWN,
    kind: 'calculated',
    source: 'importance sampling',
  });
  trace?.add({
    name: 'force before, middle of the cases',
    symbol: 'F_0',
    value: result.before.likely,
    quantity: 'force',
    formula: 'area x (friction x pressure of the solid pin + rust bond), weighted by agreement',
    expression: DRAWN,
    kind: 'calculated',
    source: 'importance sampling',
  });
  trace?.add({
    name: 'force after, middle of the cases',
    symbol: 'F_1',
    value: result.after.likely,
    quantity: 'force',
    formula:
      'area x (friction x pressure of the bored pin with what the heat and the pace of burning leave of its interference + share of the rust bond left), all drawn from their ranges, weighted by agreement',
    expression: DRAWN,
    kind: 'calculated',
    source: 'importance sampling',
  });
  return result;
}

/** Reads the value that a share of the weight does not exceed. */
function weighted(values: Float64Array, weights: Float64Array): (share: number) => number {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  const total = weights.reduce((sum, w) => sum + w, 0);
  return (share) => {
    let sum = 0;
    for (const i of order) {
      sum += weights[i]!;
      if (sum >= share * total) return values[i]!;
    }
    return values[order[order.length - 1]!]!;
  };
}
