import type { Basis } from '../basis.ts';
import { drawItem, type Drawable } from './draw-item.ts';
import { drawPercentiles, percentileWork } from '../spread/draw-percentile.ts';

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

/**
 * Whole counts on the safe side of a percentile: down below the middle, up above.
 *
 * @example wholeTowards(4.4, 0.9) // 5
 */
export function wholeTowards(count: number, p: number): number {
  if (!Number.isFinite(count)) return count;
  return p < 0.5 ? Math.floor(count + 1e-9) : Math.ceil(count - 1e-9);
}

/** P10 and P90 of one item; SI. Rods in the draws below and above them, not rounded, beside the whole ones. */
export interface SpreadEnds extends Omit<Spread, 'lowRods' | 'highRods'> {
  readonly rods: readonly [low: number, high: number];
  readonly used: readonly [low: number, high: number];
}

/** What `spreadItem` is read from. */
export function spreadEnds(item: Drawable, basis: Basis): SpreadEnds {
  const work = basis.once(
    `percentile work ${item.operation.id}`,
    () => [percentileWork(DRAWS), percentileWork(DRAWS), percentileWork(DRAWS)] as const,
  );
  const { oxygen, rods, used, crewTime } = drawItem(item, DRAWS, basis);
  const [lowOxygen = NaN, highOxygen = NaN] = drawPercentiles(oxygen, ENDS, work[0]);
  const ranked: number[] = [];
  // Rods not rounded are the quicker to rank: no two draws have the same.
  const rodsAt = (unrounded: number): number => {
    ranked.push(unrounded);
    return rods[used.indexOf(unrounded)] ?? NaN;
  };
  const [lowRods = NaN, highRods = NaN] = drawPercentiles(used, ENDS, work[1], rodsAt);
  const [lowCrewTime = NaN, highCrewTime = NaN] = drawPercentiles(crewTime, ENDS, work[2]);
  return {
    lowOxygen,
    highOxygen,
    rods: [lowRods, highRods],
    used: [ranked[0]!, ranked.at(-1)!],
    lowCrewTime,
    highCrewTime,
  };
}

/**
 * How far one item may depart: P10 and P90 of oxygen, rods and crew time over quasi-random draws of the
 * process factors with the item's own scatter. Rod and method stay as planned. A draw in which the heat does not
 * suffice counts as more than any other; where more than a tenth do, the high is Infinity.
 *
 * @example spreadItem(item, basis).highRods // 9
 */
export function spreadItem(item: Drawable, basis: Basis): Spread {
  const { rods, used: _, ...ends } = spreadEnds(item, basis);
  return { ...ends, lowRods: wholeTowards(rods[0], LOW), highRods: wholeTowards(rods[1], HIGH) };
}
