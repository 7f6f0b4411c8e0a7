import { isMissing } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import type { DropAir } from './drop-flight.ts';
import { dropReach, type DropReach, type DropThrow } from './drop-reach.ts';
import { LIMITS } from './limits.ts';

/** Symbols of the steps expected before: sizes, height, drop and air. */
const FLIGHT = 'd_low, d_mid, d_high, h, rho, v_0, e_b, u, rho_air, nu';

export interface FireReach {
  /** Radius to clear, guard or watch [m]. */
  readonly reach: number;
  /** What sets it: the standard's radius or the drops. */
  readonly governs: 'radius' | 'drops';
  /** Each drop size with its own reach, as given. */
  readonly drops: readonly (DropReach & { readonly diameter: number })[];
}

/**
 * Radius round the work in which hot metal can land: the 35 ft of 29 CFR 1910.252 or the reach of falling drops,
 * whichever is larger.
 *
 * The 35 ft is a rule for work near the floor; from a height drops travel farther, and no test of it was found, so
 * drop sizes, throw and bounce are assumptions. Neither figure is a wall: 1910.252(a)(2)(iii)(A)(2) asks for a
 * watch beyond 35 ft where combustibles are easily lit.
 *
 * @param height of the work above the lowest place drops can fall to [m]
 * @param diameters drop sizes to follow [m], such as the low, middle and high of the assumption
 * @param density of the drops [kg/m3]
 */
export function fireReach(
  height: number,
  diameters: readonly number[],
  density: number,
  air: DropAir,
  thrown: DropThrow,
  trace?: Trace,
): FireReach {
  if (diameters.length === 0) throw isMissing('drop diameter');
  const drops = diameters.map((diameter) => ({ diameter, ...dropReach({ diameter, density }, air, height, thrown) }));
  const farthest = drops.reduce((a, b) => (b.reach > a.reach ? b : a));
  const radius = LIMITS.hotWorkRadius;
  const reach = Math.max(radius.value, farthest.reach);
  if (trace) {
    trace.add({
      name: 'drop that goes farthest',
      symbol: 'd',
      value: farthest.diameter,
      quantity: 'length',
      formula: 'of the sizes followed',
      expression: `solve(${FLIGHT})`,
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'distance flown',
      symbol: 's_fly',
      value: farthest.flown,
      quantity: 'distance',
      formula: 'fall with the drag of a sphere, thrown at the worst angle',
      expression: `solve(d, ${FLIGHT})`,
      kind: 'calculated',
      source: 'schiller naumann',
    });
    trace.add({
      name: 'distance bounced',
      symbol: 's_bounce',
      value: farthest.bounced,
      quantity: 'distance',
      formula: 'bounces at the worst angle, each at bounce x the landing speed',
      expression: `solve(d, ${FLIGHT})`,
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: radius.name,
      symbol: 'r',
      value: radius.value,
      quantity: 'distance',
      formula: radius.clause,
      kind: 'published',
      source: radius.source,
    });
    trace.add({
      name: 'reach',
      symbol: 'reach',
      value: reach,
      quantity: 'distance',
      formula: 'the larger of the radius and distance flown + distance bounced',
      expression: 'max(r, s_fly + s_bounce)',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return { reach, governs: farthest.reach > radius.value ? 'drops' : 'radius', drops };
}
