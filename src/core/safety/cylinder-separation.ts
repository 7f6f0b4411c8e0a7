import { requireAtLeast } from './check.ts';
import { LIMITS, isOut } from './limits.ts';

/** A wall between the cylinders and what they are kept from. */
export interface Barrier {
  /** [m] */
  readonly height: number;
  /** Fire resistance [s]. */
  readonly rating: number;
}

export interface Separation {
  /** Whether neither the distance nor the barrier comes up to the rule. */
  readonly short: boolean;
  /** Distance asked for [m]. */
  readonly needed: number;
  /** How much the distance falls short [m]; 0 where it does not. */
  readonly missing: number;
  readonly barrierCounts: boolean;
}

/**
 * Whether stored oxygen cylinders are nearer to fuel gas or combustibles than the rule has it: 20 ft, or a
 * noncombustible barrier at least 5 ft high with a fire resistance of half an hour.
 *
 * Source: 29 CFR 1910.253(b)(4)(iii).
 *
 * @param distance [m]
 */
export function cylinderSeparation(distance: number, barrier?: Barrier): Separation {
  requireAtLeast('distance', distance, 0, 'm');
  if (barrier) {
    requireAtLeast('barrier height', barrier.height, 0, 'm');
    requireAtLeast('barrier rating', barrier.rating / 60, 0, 'min');
  }
  const barrierCounts =
    barrier !== undefined &&
    !isOut(barrier.height, LIMITS.barrierHeight) &&
    !isOut(barrier.rating, LIMITS.barrierRating);
  const needed = LIMITS.cylinderDistance.value;
  const missing = isOut(distance, LIMITS.cylinderDistance) ? needed - distance : 0;
  return { short: missing > 0 && !barrierCounts, needed, missing, barrierCounts };
}
