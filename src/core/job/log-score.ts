/** How estimates would have done on finished jobs, and whether the confidence they claim is honest. */
import type { Basis } from '../basis.ts';
import { DRAWS, wholeTowards } from '../operations/spread-item.ts';
import { drawPercentiles, percentileWork, type PercentileWork } from '../spread/draw-percentile.ts';
import { drawItem, type ItemDraws } from '../operations/draw-item.ts';
import { CHANNELS, type Channel, type LogJob } from './log-job.ts';
import { conformalRange } from '../spread/conformal.ts';
import { crps } from '../spread/crps.ts';
import { normalQuantile } from '../spread/normal.ts';
import { ownScatter, shuffled } from '../operations/own-scatter.ts';

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
  /** Mean CRPS of the estimates in parts of their middle, and of the user's own ratios of noted over estimated, each job left out in turn. */
  readonly crps: number;
  readonly crpsOfOwn: number;
  /** Between what multiples of the middle the next job comes out in eight cases of ten; undefined for fewer than nine jobs. */
  readonly vouched: readonly [number, number] | undefined;
}

/** The claims about one figure of all jobs that note it. */
interface Claims {
  readonly noted: number[];
  readonly low: number[];
  readonly middle: number[];
  readonly high: number[];
  /** CRPS of each claim in parts of its middle. */
  readonly crps: number[];
  /** ln of what might have been noted over the middle: for each world one value of every job. */
  readonly logs: Float64Array;
  /** Jobs inside low to high in each world. */
  readonly inside: Int32Array;
}

const READING = {
  rods: 'log rods scatter',
  oxygen: 'log oxygen scatter',
  burning: 'log burning scatter',
  crew: 'log crew scatter',
} as const;

const arrayOf = (draws: ItemDraws, channel: Channel): Float64Array =>
  ({ rods: draws.rods, oxygen: draws.oxygen, burning: draws.burnTime, crew: draws.crewTime })[channel];

/** What is read where x is drawn; rods are noted whole. */
function readAs(channel: Channel, x: number): number {
  return channel === 'rods' && Number.isFinite(x) ? Math.max(1, Math.round(x)) : x;
}

/** What a figure of the i-th job is multiplied by in each draw when it is read: as the log's readings are held to scatter. */
export const readingsOf = (channel: Channel, i: number, basis: Basis): Float64Array =>
  shuffled(
    basis.once(`readings ${channel}`, () => {
      const deviation = basis.a.value(READING[channel]);
      return Float64Array.from({ length: DRAWS }, (_, w) => Math.exp(deviation * normalQuantile((w + 0.5) / DRAWS)));
    }),
    1 + i * CHANNELS.length + CHANNELS.indexOf(channel),
  );

/** The claims of every figure; readings scatter besides, as the log's are held to. */
function claimsOf(jobs: readonly LogJob[], basis: Basis): ReadonlyMap<Channel, Claims> {
  const all = new Map<Channel, Claims>();
  for (const channel of CHANNELS) {
    const count = jobs.filter((job) => job.noted[channel] !== undefined).length;
    if (count > 0)
      all.set(channel, {
        noted: [],
        low: [],
        middle: [],
        high: [],
        crps: [],
        logs: new Float64Array(count * DRAWS),
        inside: new Int32Array(DRAWS),
      });
  }
  const work = percentileWork(DRAWS);
  jobs.forEach((job, i) => {
    const each = drawItem(job.sizing, DRAWS, basis, ownScatter(i, DRAWS, basis));
    CHANNELS.forEach((channel) => {
      const claims = all.get(channel);
      const noted = job.noted[channel];
      if (!claims || noted === undefined) return;
      const readings = readingsOf(channel, i, basis);
      const draws = arrayOf(each, channel).map((x, w) => readAs(channel, x * (readings[w] ?? NaN)));
      const [low = NaN, middle = NaN, high = NaN] = drawPercentiles(draws, [LOW, 0.5, HIGH], work);
      const [least, most] = channel === 'rods' ? [wholeTowards(low, LOW), wholeTowards(high, HIGH)] : [low, high];
      const at = claims.noted.length;
      const count = claims.logs.length / DRAWS;
      for (let w = 0; w < DRAWS; w++) {
        const x = draws[w] ?? NaN;
        claims.logs[w * count + at] = Math.log(x / middle);
        if (x >= least && x <= most) claims.inside[w] = (claims.inside[w] ?? 0) + 1;
      }
      claims.noted.push(noted);
      claims.low.push(least);
      claims.middle.push(middle);
      claims.high.push(most);
      claims.crps.push(crps(draws, noted) / middle);
    });
  });
  return all;
}

/** Share of a normal distribution that lies below one standard deviation under its mean. */
const ONE_DEVIATION = 0.158655;

interface Shown {
  readonly bias: number;
  /** Half the width of the middle 68 percent: the standard deviation of a normal distribution, and little moved by a wild job. */
  readonly spread: number;
  readonly inside: number;
}

/** What a set of figures, noted or drawn, shows against the claims, from their ln over the middle. */
function shows(logs: Float64Array, inside: number, work: PercentileWork): Shown {
  const [under = NaN, middle = NaN, over = NaN] = drawPercentiles(logs, [ONE_DEVIATION, 0.5, 1 - ONE_DEVIATION], work);
  return { bias: Math.exp(middle), spread: (over - under) / 2, inside };
}

/** Mean CRPS of each figure held against the others. */
const ofTheOthers = (figures: readonly number[]): number =>
  mean(
    figures.map((figure, i) =>
      crps(
        figures.filter((_, k) => k !== i),
        figure,
        true,
      ),
    ),
  );

const mean = (figures: readonly number[]): number => figures.reduce((sum, x) => sum + x, 0) / figures.length;

function scoreOf(channel: Channel, { noted, low, middle, high, crps: each, logs, inside }: Claims): ChannelScore {
  const jobs = noted.length;
  const ratios = noted.map((x, i) => x / middle[i]!);
  const work = percentileWork(jobs);
  const underShare = (limits: readonly number[]): number =>
    noted.filter((x, i) => x <= (limits[i] ?? NaN)).length / jobs;
  const actual = shows(
    Float64Array.from(ratios, Math.log),
    noted.filter((x, i) => x >= (low[i] ?? NaN) && x <= (high[i] ?? NaN)).length / jobs,
    work,
  );
  // Each world is a log that would have been noted had the claims been honest: its jobs share crew and gas, as the real ones do.
  const honest = Array.from({ length: DRAWS }, (_, w) =>
    shows(logs.subarray(w * jobs, (w + 1) * jobs), (inside[w] ?? NaN) / jobs, work),
  ).filter((h) => Number.isFinite(h.bias));
  const between = (
    of: (h: Shown) => number,
    shares: readonly number[] = [TAIL, 1 - TAIL],
  ): readonly [number, number] => {
    const [least = NaN, most = NaN] = drawPercentiles(Float64Array.from(honest, of), shares);
    return [least, most];
  };
  const [leastBias, mostBias] = between((h) => h.bias);
  const [honestLeast, honestMost] = between((h) => h.inside);
  const [leastSpread, mostSpread] = between((h) => h.spread);
  const verdict: Verdict =
    jobs < FEW_JOBS
      ? 'too few jobs'
      : actual.bias > mostBias
        ? 'too low'
        : actual.bias < leastBias
          ? 'too high'
          : actual.inside < honestLeast || actual.spread > mostSpread
            ? 'too narrow'
            : actual.inside > honestMost || actual.spread < leastSpread
              ? 'too wide'
              : 'as claimed';
  return {
    channel,
    jobs,
    bias: actual.bias,
    spread: actual.spread,
    claimedSpread: between((h) => h.spread, [0.5])[0],
    underLow: underShare(low),
    underMiddle: underShare(middle),
    underHigh: underShare(high),
    inside: actual.inside,
    honestLeast,
    honestMost,
    verdict,
    crps: mean(each),
    crpsOfOwn: ofTheOthers(ratios),
    vouched: conformalRange(ratios, HIGH - LOW),
  };
}

/**
 * Scores the estimates that the assumptions in force make for finished jobs: one line for each figure that is noted.
 *
 * The claim for a job is its low to high (P10 to P90) with the scatter of reading. Jobs of one log share crew and gas, so
 * that honest estimates may all be off to the same side: what the log shows is held against what each world of the
 * draws would have shown, not against a binomial count. `too low` and `too high` are said of the estimates: the typical
 * job took more, or less, than 98 in 100 honest logs would show. `too narrow` and `too wide` are said of low and high.
 *
 * Against a plain reference class the estimates are scored as whole distributions (CRPS): the user's own ratios of noted over estimated,
 * those of the other jobs for each job. From nine jobs on the same ratios vouch for a range that rests on no model.
 */
export function logScore(jobs: readonly LogJob[], basis: Basis): readonly ChannelScore[] {
  return [...claimsOf(jobs, basis)].map(([channel, claims]) => scoreOf(channel, claims));
}
