import type { Basis } from '../basis.ts';
import { drawItem } from './draw-item.ts';
import { drawPercentiles, percentileWork } from '../spread/draw-percentile.ts';
import type { Sized } from './sized.ts';

/** Draws for each estimate: a power of two, converged to some 2 % of the value. */
export const DRAWS = 1024;
const LOW = 0.1;
const HIGH = 0.9;
const ENDS = [LOW, HIGH] as const;

/** Low (P10) and high (P90) of one item; SI, rods whole. */
export interface Spread {
  readonly lowOxygen: number;
  readonly highOxygen: number;
  readonly lowRods: number;
  readonly highRods: number;
  readonly lowCrewTime: number;
  readonly highCrewTime: number;
}

/** Whole counts on the safe side of a percentile: down below the middle, up above. */
export function wholeTowards(count: number, p: number): number {
  if (!Number.isFinite(count)) return count;
  return p < 0.5 ? Math.floor(count + 1e-9) : Math.ceil(count - 1e-9);
}

/**
 * How far one item may depart: P10 and P90 of oxygen, rods and crew time over quasi-random draws of the
 * process factors with the item's own scatter. Rod and method stay as planned. A draw in which the heat does not
 * suffice counts as more than any other; where more than a tenth do, the high is Infinity.
 */
export function spreadItem(item: Sized, basis: Basis): Spread {
  const work = basis.once(
    `percentile work ${item.operation.id}`,
    () => [percentileWork(DRAWS), percentileWork(DRAWS), percentileWork(DRAWS)] as const,
  );
  const { oxygen, rods, used, crewTime } = drawItem(item, DRAWS, basis);
  const [lowOxygen = NaN, highOxygen = NaN] = drawPercentiles(oxygen, ENDS, work[0]);
  // Rods not rounded are the quicker to rank: no two draws have the same.
  const rodsAt = (unrounded: number): number => rods[used.indexOf(unrounded)] ?? NaN;
  const [lowRods = NaN, highRods = NaN] = drawPercentiles(used, ENDS, work[1], rodsAt);
  const [lowCrewTime = NaN, highCrewTime = NaN] = drawPercentiles(crewTime, ENDS, work[2]);
  return {
    lowOxygen,
    highOxygen,
    lowRods: wholeTowards(lowRods, LOW),
    highRods: wholeTowards(highRods, HIGH),
    lowCrewTime,
    highCrewTime,
  };
}
