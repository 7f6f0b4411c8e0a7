/** What the schedule of a job says in each world of its draws. */
import type { Job } from './job-list.ts';
import { jobSchedule, type Crewing, type Schedule } from './job-schedule.ts';

/** Pieces of a job up to which it is laid out at so many paces of its work: the more pieces, the longer a lay-out takes. */
const PACES = [
  [20, 17],
  [150, 7],
  [Infinity, 3],
] as const;
/** Shares of the worlds that cool faster than each of the coolings it is laid out with, at every pace. */
const COOLINGS = [0.1, 0.5, 0.95] as const;

/** Where a value stands between two nodes. */
interface Between {
  readonly under: number;
  readonly over: number;
  /** Share of the way from the one to the other. */
  readonly way: number;
}

/** The place of a value among sorted nodes; outside them that of the nearest. */
function placeAmong(nodes: readonly number[], x: number): Between {
  const over = nodes.findIndex((node) => node >= x);
  if (over < 0) return { under: nodes.length - 1, over: nodes.length - 1, way: 0 };
  if (over === 0) return { under: 0, over: 0, way: 0 };
  return { under: over - 1, over, way: (x - nodes[over - 1]!) / (nodes[over]! - nodes[over - 1]!) };
}

const sorted = (values: Float64Array): Float64Array => values.filter(Number.isFinite).sort();
const apart = (values: readonly number[]): readonly number[] => [...new Set(values)];

/** How long each world works and cools, over the plan, and the nodes among them. */
function worldsOf(job: Job): {
  readonly pace: Float64Array;
  readonly cooling: Float64Array;
  readonly paces: readonly number[];
  readonly coolings: readonly number[];
} {
  return job.once('worlds', () => {
    const { workTime, crewTime } = job.needs;
    const planned = crewTime.plain - workTime.plain;
    const pace = workTime.draws.map((time) => time / workTime.plain);
    const cooling = crewTime.draws.map((time, i) => (planned > 0 ? (time - workTime.draws[i]!) / planned : 1));
    const [, paces] = PACES.find(([pieces]) => job.pieces <= pieces)!;
    const [busy, cools] = [sorted(pace), sorted(cooling)];
    return {
      pace,
      cooling,
      // The quickest and the slowest world are among the paces.
      paces: apart(Array.from({ length: paces }, (_, k) => busy[Math.round((k / (paces - 1)) * (busy.length - 1))]!)),
      coolings: apart(COOLINGS.map((share) => cools[Math.floor(share * cools.length)]!)),
    };
  });
}

/**
 * A figure of the schedule in each world. The job is laid out at some paces of the work with some times of cooling, and between
 * them the figure is read off straight lines; Infinity where the work is without end, or where the figure is at a node beside it.
 *
 * @param figure of a schedule [unit of the result]
 * @example acrossWorlds(job, crewingOf(basis), ({ shifts }) => shifts)[0] // 1
 */
export function acrossWorlds(job: Job, crewing: Crewing, figure: (schedule: Schedule) => number): Float64Array {
  const { pace, cooling, paces, coolings } = worldsOf(job);
  const at = paces.map((p) => coolings.map((c) => figure(jobSchedule(job, crewing, p, c))));
  const straight = (from: number, to: number, way: number): number =>
    way === 0 ? from : way === 1 ? to : Number.isFinite(to - from) ? from + way * (to - from) : Infinity;
  return pace.map((p, i) => {
    if (!Number.isFinite(p)) return Infinity;
    const [work, cool] = [placeAmong(paces, p), placeAmong(coolings, cooling[i]!)];
    const along = (k: number): number => straight(at[k]![cool.under]!, at[k]![cool.over]!, cool.way);
    const [under, over] = [along(work.under), along(work.over)];
    return under === Infinity || over === Infinity ? Infinity : straight(under, over, work.way);
  });
}
