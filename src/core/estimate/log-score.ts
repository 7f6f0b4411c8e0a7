/** How estimates would have done on finished jobs, and whether the confidence they claim is honest. */
import type { Basis } from '../basis.ts';
import { DRAWS, wholeTowards } from '../operations/spread-item.ts';
import { drawItem, emptyDraws, type ItemDraws } from './draw-item.ts';
import { CHANNELS, type Channel, type LogJob } from './log-job.ts';
import { normalQuantile } from './normal.ts';
import { ownScatter, shuffled } from './own-scatter.ts';
import { percentileOfSorted } from './percentile.ts';

/** Fewer jobs than this say nothing of honesty. */
export const FEW_JOBS = 5;
/** Each tail of what honest estimates show by chance: three things are looked at, so that each must be rare. */
const TAIL = 0.01;
const LOW = 0.1;
const HIGH = 0.9;

export type Verdict = 'as claimed' | 'too low' | 'too high' | 'too narrow' | 'too wide' | 'too few jobs';

/** Score of one figure over the jobs that note it. */
export interface ChannelScore {
  readonly channel: Channel;
  readonly jobs: number;
  /** Typical figure noted over the middle of its estimate: median. */
  readonly bias: number;
  /** Spread of noted over estimated: half the width of the middle 68 % of its logarithm, and the like for honest estimates. */
  readonly spread: number;
  readonly claimedSpread: number;
  /** Shares of jobs at or under low (P10), middle (P50) and high (P90). */
  readonly underLow: number;
  readonly underMiddle: number;
  readonly underHigh: number;
  /** Share inside low to high, and the least and most that honest estimates show in 98 logs of 100. */
  readonly inside: number;
  readonly honestLeast: number;
  readonly honestMost: number;
  readonly verdict: Verdict;
}

interface Claim {
  readonly noted: number;
  /** What might have been noted in each world. */
  readonly draws: Float64Array;
  readonly sorted: Float64Array;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

const arrayOf = (draws: ItemDraws, channel: Channel): Float64Array =>
  ({ rods: draws.rods, oxygen: draws.oxygen, burning: draws.burnTime, crew: draws.crewTime })[channel];

const median = (values: ArrayLike<number>): number => percentileOfSorted(Float64Array.from(values).sort(), 0.5);

/** Share of a normal distribution that lies below one standard deviation under its mean. */
const ONE_DEVIATION = 0.158655;

/** Half the width of the middle 68 percent: the standard deviation of a normal distribution, and little moved by a wild job. */
function robustDeviation(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  return (percentileOfSorted(sorted, 1 - ONE_DEVIATION) - percentileOfSorted(sorted, ONE_DEVIATION)) / 2;
}

/** The claims about one figure of every job that notes it; readings scatter besides, as the log's are held to. */
function claims(channel: Channel, jobs: readonly LogJob[], basis: Basis): readonly Claim[] {
  const c = CHANNELS.indexOf(channel);
  const reading = basis.a.value((['log rods scatter', 'log oxygen scatter', 'log burning scatter', 'log crew scatter'] as const)[c] ?? 'log rods scatter');
  const strata = Float64Array.from({ length: DRAWS }, (_, i) => Math.exp(reading * normalQuantile((i + 0.5) / DRAWS)));
  const each = emptyDraws(DRAWS);
  return jobs.flatMap((job, i): readonly Claim[] => {
    const noted = job.noted[channel];
    if (noted === undefined) return [];
    drawItem(job.operation, job.sizing, basis, each, ownScatter(i, DRAWS, basis));
    const readings = shuffled(strata, 1 + i * CHANNELS.length + c);
    const draws = arrayOf(each, channel).map((x, w) => {
      const read = x * (readings[w] ?? NaN);
      return channel === 'rods' && Number.isFinite(read) ? Math.max(1, Math.round(read)) : read;
    });
    const sorted = Float64Array.from(draws).sort();
    const at = (p: number): number => (channel === 'rods' ? wholeTowards(percentileOfSorted(sorted, p), p) : percentileOfSorted(sorted, p));
    return [{ noted, draws, sorted, low: at(LOW), middle: percentileOfSorted(sorted, 0.5), high: at(HIGH) }];
  });
}

/** What a set of figures, noted or drawn, shows against the claims. */
function shows(all: readonly Claim[], figure: (claim: Claim) => number): { readonly bias: number; readonly inside: number; readonly spread: number } {
  const logs = all.map((claim) => Math.log(figure(claim) / claim.middle));
  const inside = all.filter((claim) => figure(claim) >= claim.low && figure(claim) <= claim.high).length / all.length;
  return { bias: Math.exp(median(logs)), inside, spread: robustDeviation(logs) };
}

function scoreOf(channel: Channel, all: readonly Claim[]): ChannelScore {
  const under = (limit: (claim: Claim) => number): number => all.filter((claim) => claim.noted <= limit(claim)).length / all.length;
  const actual = shows(all, (claim) => claim.noted);
  // Each world is a log that would have been noted had the claims been honest: its jobs share crew and gas, as the real ones do.
  const honest = Array.from({ length: DRAWS }, (_, w) => shows(all, (claim) => claim.draws[w] ?? NaN)).filter((h) => Number.isFinite(h.bias));
  const between = (of: (h: (typeof honest)[number]) => number): readonly [number, number] => {
    const sorted = Float64Array.from(honest, of).sort();
    return [percentileOfSorted(sorted, TAIL), percentileOfSorted(sorted, 1 - TAIL)];
  };
  const [leastBias, mostBias] = between((h) => h.bias);
  const [honestLeast, honestMost] = between((h) => h.inside);
  const [leastSpread, mostSpread] = between((h) => h.spread);
  const verdict: Verdict =
    all.length < FEW_JOBS ? 'too few jobs'
    : actual.bias > mostBias ? 'too low'
    : actual.bias < leastBias ? 'too high'
    : actual.inside < honestLeast || actual.spread > mostSpread ? 'too narrow'
    : actual.inside > honestMost || actual.spread < leastSpread ? 'too wide'
    : 'as claimed';
  return {
    channel, jobs: all.length, bias: actual.bias, spread: actual.spread, claimedSpread: median(honest.map((h) => h.spread)),
    underLow: under((claim) => claim.low), underMiddle: under((claim) => claim.middle), underHigh: under((claim) => claim.high),
    inside: actual.inside, honestLeast, honestMost, verdict,
  };
}

/**
 * Scores the estimates that the assumptions in force make for finished jobs: one line for each figure that is noted.
 *
 * The claim for a job is its low to high (P10 to P90) with the scatter of reading. Jobs of one log share crew and gas, so
 * that honest estimates may all be off to the same side: what the log shows is held against what each world of the
 * draws would have shown, not against a binomial count. `too low` and `too high` are said of the estimates: the typical
 * job took more, or less, than 98 in 100 honest logs would show. `too narrow` and `too wide` are said of low and high.
 */
export function logScore(jobs: readonly LogJob[], basis: Basis): readonly ChannelScore[] {
  return CHANNELS.flatMap((channel): readonly ChannelScore[] => {
    const all = claims(channel, jobs, basis);
    return all.length > 0 ? [scoreOf(channel, all)] : [];
  });
}
