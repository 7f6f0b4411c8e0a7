import { calculated, given } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { requireAtLeast } from './check.ts';
import { LIMITS, isOut, limitStep } from './limits.ts';

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
  /** How the missing distance is found: step `s_short`. */
  readonly working: Working;
}

const MISSING = new StepList(
  [
    given('s', 'separation', 'distance'),
    limitStep('s_min', LIMITS.cylinderDistance, 'least distance'),
    calculated(
      's_short',
      'distance missing',
      'distance',
      // A distance typed as the limit itself may arrive a rounding of its unit away from it.
      'if(s < s_min * (1 - 1e-9), s_min - s, 0)',
      'least distance - separation, where that is more than 0',
    ),
  ],
  ['s_short'],
);

/**
 * Whether stored oxygen cylinders are nearer to fuel gas or combustibles than the rule has it: 20 ft, or a
 * noncombustible barrier at least 5 ft high with a fire resistance of half an hour.
 *
 * Source: 29 CFR 1910.253(b)(4)(iii).
 * @example cylinderSeparation(15 * FOOT).missing / FOOT // 5.0
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
  const working = work(MISSING, { s: distance });
  const missing = working.value;
  return {
    short: missing > 0 && !barrierCounts,
    needed: LIMITS.cylinderDistance.value,
    missing,
    barrierCounts,
    working,
  };
}
