/** The chance that the cost and the time of a job both hold. */
import { chanceWithin, drawPercentile, shareOfDraws } from '../spread/draw-percentile.ts';
import { jobSpending, type Prices } from './job-cost.ts';
import type { Job } from './job-list.ts';
import { jobSchedule, type Crewing, type Schedule } from './job-schedule.ts';
import { acrossWorlds } from './job-worlds.ts';

/** Chances that a frontier is given for; 70 % is what large public projects are asked to hold. */
const CHANCES = [0.5, 0.7, 0.9] as const;
/** Where its points stand: by so much of the chance that the time alone fails. */
const STEPS = [0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 1] as const;

/** A cost and a time, with the chance that each holds, and that both do. */
export interface Held {
  readonly cost: number;
  /** [s] */
  readonly time: number;
  readonly costHolds: number;
  readonly timeHolds: number;
  readonly bothHold: number;
  /** Half the width of the interval that has the chance of both with 95 %, for so many draws. */
  readonly within: number;
}

export interface JobJoint {
  readonly asked: Held;
  /** What the plans come to. */
  readonly planned: Held;
  /** Costs and times that both hold with the chance, none of which is better than another: from the dearest to the cheapest. */
  readonly frontiers: readonly { readonly chance: number; readonly points: readonly Held[] }[];
  /** Each world: what it costs, and how long it takes. */
  readonly cost: Float64Array;
  readonly time: Float64Array;
  /** Pieces that fit no shift as planned: the time does not have them. */
  readonly left: Schedule['left'];
}

/** Time of shifts from the first start to the last thing done, nights left out. */
const lasting = ({ shifts, end }: Schedule, { shift }: Crewing): number =>
  shifts === 0 ? 0 : (shifts - 1) * shift + end;

/** How long the job takes in each world; without end where a piece no longer fits a shift, so that it is not done at all. */
function timesOf(job: Job, crewing: Crewing): Float64Array {
  return job.once(`times ${crewing.crews} ${crewing.shift}`, () => {
    const { left } = jobSchedule(job, crewing);
    return acrossWorlds(job, crewing, (laidOut) =>
      laidOut.left.length > left.length ? Infinity : lasting(laidOut, crewing),
    );
  });
}

/**
 * The chance that cost and time both hold, with what the plans come to and the frontiers: the least cost for each time, so that
 * both hold with 50, 70 and 90 %.
 *
 * Both are counted over the same worlds as the load, so that a slow crew or poor gas shows in both. The cost is that of what the job
 * takes, before contingency, margin and tax; the time that of the schedule. The interval of a chance p over n draws is
 * 1.96 sqrt(p (1 - p) / n), that of draws at random: evenly spread ones are nearer.
 *
 * Source: joint confidence level as large public projects state it: GAO-20-195G, Cost Estimating and Assessment Guide (2020), of
 * memory; the interval: JCGM 101:2008, 7.9.
 *
 * @example jobJoint(job, { lines: new Map([['crew', 180 / 3600]]), rods: new Map([['', 9]]), others: [],
 *   shares: new Map(), currency: '' }, { cost: 600, time: 3 * 3600 }, 0.9, crewingOf(basis)).asked.bothHold // 0.9746
 */
export function jobJoint(
  job: Job,
  prices: Prices,
  asked: { readonly cost: number; readonly time: number },
  confidence: number,
  crewing: Crewing,
): JobJoint {
  const { planned, draws: cost } = jobSpending(job, prices, confidence, crewing);
  const time = timesOf(job, crewing);
  const count = time.length;
  const share = (holds: (i: number) => boolean): number => shareOfDraws(count, holds);
  // The last digits of the arithmetic fail nobody.
  const under = (x: number, limit: number): boolean => x <= limit * (1 + 1e-9);
  const held = (point: { readonly cost: number; readonly time: number }): Held => {
    const bothHold = share((i) => under(cost[i]!, point.cost) && under(time[i]!, point.time));
    return {
      ...point,
      costHolds: share((i) => under(cost[i]!, point.cost)),
      timeHolds: share((i) => under(time[i]!, point.time)),
      bothHold,
      within: chanceWithin(bothHold, count),
    };
  };
  const frontier = (chance: number): readonly Held[] => {
    const points: Held[] = [];
    for (const step of STEPS) {
      const within = drawPercentile(time, chance + (1 - chance) * step);
      const limit = step === 1 ? Math.max(...time.filter(Number.isFinite)) : within;
      const costs = cost.filter((_, i) => under(time[i]!, limit)).sort();
      const least = costs[Math.ceil(chance * count) - 1];
      const last = points.at(-1);
      if (least === undefined || !Number.isFinite(least + limit) || (last && least >= last.cost)) continue;
      points.push(held({ cost: least, time: limit }));
    }
    return points;
  };
  const schedule = jobSchedule(job, crewing);
  return {
    asked: held(asked),
    planned: held({ cost: planned, time: lasting(schedule, crewing) }),
    frontiers: CHANCES.map((chance) => ({ chance, points: frontier(chance) })),
    cost,
    time,
    left: schedule.left,
  };
}
