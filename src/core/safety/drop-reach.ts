import { requireAbove, requireAtLeast, requireAtMost } from './check.ts';
import { dropFlight, type Drop, type DropAir, type Landing } from './drop-flight.ts';

/** How drops leave the work and what they do on landing. All assumptions. */
export interface DropThrow {
  /** Speed at which the oxygen jet throws a drop out [m/s]. */
  readonly speed: number;
  /** Speed after a bounce over the speed before it, 0 to less than 1. */
  readonly bounce: number;
}

export interface DropReach {
  /** Level distance to the first landing, thrown at the angle that carries farthest [m]. */
  readonly flown: number;
  /** All that bounces add [m]. */
  readonly bounced: number;
  /** The two together [m]. */
  readonly reach: number;
  /** Speed at the first landing [m/s]. */
  readonly landingSpeed: number;
}

/** Sizes and heights the flight is followed for. */
export const DROP_RANGE = { smallest: 0.3e-3, largest: 20e-3, highest: 200, fastest: 100, windiest: 40 } as const;
const MOST_BOUNCES = 12;
/** A bounce shorter than this is not followed [m]. */
const SHORTEST_BOUNCE = 0.01;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The flight at the angle that carries farthest, by golden section; the distance has one top between the ends. */
function farthest(drop: Drop, air: DropAir, height: number, speed: number): Landing {
  const fly = (angle: number): Landing => dropFlight(drop, air, height, speed, angle);
  if (speed === 0) return fly(0);
  let low = -Math.PI / 6;
  let high = (Math.PI / 2) * 0.95;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [fly(left), fly(right)];
  while (high - low > 0.01) {
    if (atLeft.distance > atRight.distance) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = fly(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = fly(right);
    }
  }
  return atLeft.distance > atRight.distance ? atLeft : atRight;
}

/**
 * How far from the work a hot drop of one size can end up: thrown out at the worst angle, falling with drag, then
 * bouncing, each bounce again at the worst angle.
 *
 * The drop is taken to be still hot wherever it stops and the ground to be level, hard and bare. A ledge on the way
 * down counts as ground. See drop-flight.ts for the flight.
 *
 * @param drop diameter [m], 0.3 to 20 mm, and density [kg/m3]
 * @param height of the work above the lowest place drops can fall to [m], 0 to 200
 */
export function dropReach(drop: Drop, air: DropAir, height: number, thrown: DropThrow): DropReach {
  requireAtLeast('drop diameter', drop.diameter * 1e3, DROP_RANGE.smallest * 1e3, 'mm');
  requireAtMost('drop diameter', drop.diameter * 1e3, DROP_RANGE.largest * 1e3, 'mm');
  requireAbove('drop density', drop.density, air.density, 'kg/m3');
  requireAbove('air density', air.density, 0, 'kg/m3');
  requireAbove('air viscosity', air.viscosity, 0, 'm2/s');
  requireAtLeast('wind', air.wind, 0, 'm/s');
  requireAtMost('wind', air.wind, DROP_RANGE.windiest, 'm/s');
  requireAtLeast('height', height, 0, 'm');
  requireAtMost('height', height, DROP_RANGE.highest, 'm');
  requireAtLeast('throw speed', thrown.speed, 0, 'm/s');
  requireAtMost('throw speed', thrown.speed, DROP_RANGE.fastest, 'm/s');
  requireAtLeast('bounce', thrown.bounce, 0);
  requireAtMost('bounce', thrown.bounce, 0.9);
  const first = farthest(drop, air, height, thrown.speed);
  let bounced = 0;
  let landing = first;
  for (let n = 0; n < MOST_BOUNCES; n++) {
    landing = farthest(drop, air, 0, thrown.bounce * landing.speed);
    bounced += landing.distance;
    if (landing.distance < SHORTEST_BOUNCE) break;
  }
  return { flown: first.distance, bounced, reach: first.distance + bounced, landingSpeed: first.speed };
}
