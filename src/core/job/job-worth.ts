/** What it is worth to measure an assumption before a job is quoted. */
import type { NumberName } from '../assumptions/registry.ts';
import { jobPlaces, placesOf, scoresKey, scoresOf } from '../operations/draw-item.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';
import { drawnWith } from '../spread/drawn-together.ts';
import { residuals } from '../spread/regression.ts';
import { jobSpending, type Prices } from './job-cost.ts';
import type { Job } from './job-list.ts';
import type { Crewing } from './job-schedule.ts';

/** Worth less than this share of knowing everything, an assumption is left out: so much is chance. */
const CHANCE = 0.01;

export interface Worth {
  /** Those that are measured together, since one tells the others; most times one. */
  readonly names: readonly NumberName[];
  /** In the money of the prices. */
  readonly worth: number;
  /** Of what it would be worth to know the cost to the last coin, 0 to 1. */
  readonly share: number;
}

export interface JobWorth {
  /** Best first. */
  readonly each: readonly Worth[];
  /** What it is worth to know everything. */
  readonly everything: number;
}

/**
 * What a quote is expected to lose for not knowing better: what is missing where the job costs more, and where it costs less
 * so much of what is too high that `confidence` is the right share of jobs to cover.
 */
function expectedLoss(cost: Float64Array, confidence: number): number {
  const quote = drawPercentile(cost, confidence);
  const tooHigh = (1 - confidence) / confidence;
  return cost.reduce((sum, c) => sum + (c > quote ? c - quote : tooHigh * (quote - c)), 0) / cost.length;
}

/**
 * What it is worth, in money, to measure each assumption before bidding: the expected value of partial perfect information.
 *
 * A quote covers the cost with the confidence: each unit of money that the job costs more is lost, each that it costs less counts
 * (1 - confidence) / confidence, which makes that quote the best. worth = expected loss now - expected loss of quotes made once the
 * assumption is known. What is known then is the cost less a cubic regression, over the worlds of the draws, on the normal score of the
 * assumption; assumptions that are drawn together are known together. Costs are those of what the job takes, before
 * contingency, margin and tax; worlds without a solution are left out. Gains add up to less, or more, than their sum.
 *
 * Source: Strong, Oakley and Brennan, Medical Decision Making 34 (2014) 311, EVPPI by regression on a probabilistic sample;
 * the loss: Koenker and Bassett, Econometrica 46 (1978) 33.
 */
export function jobWorth(job: Job, prices: Prices, confidence: number, crewing: Crewing): JobWorth {
  const { basis, items } = job;
  const all = jobSpending(job, prices, confidence, crewing).draws;
  const solved = Array.from(all.keys()).filter((i) => Number.isFinite(all[i]!));
  const only = (column: Float64Array): Float64Array => Float64Array.from(solved, (i) => column[i]!);
  const cost = only(all);
  const everything = expectedLoss(cost, confidence);
  if (!(everything > 0)) return { each: [], everything: 0 };
  const groups = new Map<NumberName, { names: Set<NumberName>; scores: Map<string, Float64Array> }>();
  const places = [
    ...items.flatMap((item) => placesOf(item.sized, item.basis).map((placed) => ({ ...placed, on: item.basis }))),
    ...jobPlaces(basis).map((placed) => ({ ...placed, on: basis })),
  ];
  for (const { on, ...factor } of places) {
    const { name } = factor;
    const { low, high } = on.a.inForce(name);
    if (!(low < high)) continue;
    const first = drawnWith(name, basis.a).name;
    const group = groups.get(first) ?? { names: new Set(), scores: new Map() };
    groups.set(first, group);
    group.names.add(name);
    group.scores.set(scoresKey(factor, all.length), scoresOf(factor, all.length, basis));
  }
  const each = [...groups.values()].map(({ names, scores }): Worth => {
    const known = residuals(cost, [...scores.values()].map(only));
    const worth = known ? Math.max(0, everything - expectedLoss(known, confidence)) : 0;
    return { names: [...names], worth, share: worth / everything };
  });
  return { each: each.filter(({ share }) => share >= CHANCE).sort((x, y) => y.worth - x.worth), everything };
}
