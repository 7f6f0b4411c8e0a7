/** How far a plan's low and high must stand from the plan so that finished jobs come out between them as often as they claim. */
import { Assumptions, type Override } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { Basis } from '../basis.ts';
import { drawItem } from '../operations/draw-item.ts';
import { ownScatter } from '../operations/own-scatter.ts';
import { DRAWS } from '../operations/spread-item.ts';
import { conformalSize } from '../spread/conformal.ts';
import { drawPercentile } from '../spread/draw-percentile.ts';
import { readingsOf } from './log-score.ts';
import { CHANNELS, logNoted, type Channel, type LogJob } from './log-job.ts';

/** What widens or narrows the range of each figure. */
export const RANGE_OF = {
  rods: 'range of rods',
  oxygen: 'range of oxygen',
  burning: 'range of burning',
  crew: 'range of crew time',
} as const satisfies Record<Channel, NumberName>;

/** What it is called of an item, planned and drawn. */
const FIGURE = { rods: 'used', oxygen: 'oxygen', burning: 'burnTime', crew: 'crewTime' } as const;
/** One or two rods, noted whole, say next to nothing of the length burned. */
const FEWEST_RODS = 3;

export interface VouchedRange {
  readonly channel: Channel;
  readonly jobs: number;
  /** What the assumption is to be; undefined for fewer than nine jobs, Infinity where no widening reaches them. */
  readonly by: number | undefined;
}

/**
 * Widens or narrows low and high by finished jobs, for each figure that they note.
 *
 * A job's distance is |ln noted/planned| over |ln end/planned|, the end low or high (P10 or P90), whichever is on its side. The next job
 * of the kind has a distance of at most their conformal size, in eight cases of ten, whatever the model: so all draws are taken so many
 * times as far from the plan, and its figure as noted comes out between low and high. Whole rods stand for the middle of the
 * lengths that round up to them, and jobs of one or two are not counted. What is in force already does not count.
 *
 * Source: split conformal prediction with a normalised score: Lei and others, Journal of the American Statistical Association 113 (2018)
 * 1094, from memory.
 */
export function vouchedRanges(jobs: readonly LogJob[], basis: Basis): readonly VouchedRange[] {
  const asDrawn = CHANNELS.map((channel): Override => ({ name: RANGE_OF[channel], value: 1, kind: 'your value' }));
  const plain = new Basis(Assumptions.from(asDrawn, basis.a));
  const sizes: Record<Channel, number[]> = { rods: [], oxygen: [], burning: [], crew: [] };
  jobs.forEach((job, i) => {
    const { sizing, noted } = job;
    const drawn = drawItem(sizing, DRAWS, plain, ownScatter(i, DRAWS, plain));
    for (const channel of CHANNELS) {
      if (!(noted[channel]! >= (channel === 'rods' ? FEWEST_RODS : 0))) continue;
      const figure = FIGURE[channel];
      const off = logNoted(job, channel) - Math.log(sizing[figure]);
      const read = readingsOf(channel, i, plain);
      const end = drawPercentile(
        drawn[figure].map((x, w) => x * read[w]!),
        off > 0 ? 0.9 : 0.1,
      );
      const size = off / Math.log(end / sizing[figure]);
      // Where the plan stands outside its low to high, or these are certain, no widening brings them to the job.
      sizes[channel].push(size >= 0 ? size : Infinity);
    }
  });
  return CHANNELS.filter((channel) => sizes[channel].length > 0).map((channel) => ({
    channel,
    jobs: sizes[channel].length,
    by: conformalSize(sizes[channel], 0.8),
  }));
}
