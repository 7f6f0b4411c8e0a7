import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { isMissing } from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf, Working } from '../model/working.ts';
import type { DropAir } from './drop-flight.ts';
import { DROP_RANGE, dropReach, type DropReach, type DropThrow } from './drop-reach.ts';
import { LIMITS, limitStep } from './limits.ts';

/** A drop of a size [m] and its reach. */
export type SizedDrop = DropReach & { readonly diameter: number };

export interface FireReach {
  /** Radius to clear, guard or watch [m]. */
  readonly reach: number;
  /** What sets it: the standard's radius or the drops. */
  readonly governs: 'radius' | 'drops';
  /** Each drop size with its own reach, as given. */
  readonly drops: readonly SizedDrop[];
}

/** The radius to clear. Steps before: `s_fly`, `s_bounce`. */
const reachSteps: readonly Step[] = [
  limitStep('r', LIMITS.hotWorkRadius),
  calculated(
    'reach',
    'reach',
    'distance',
    'max(r, s_fly + s_bounce)',
    'the larger of the radius and distance flown + distance bounced',
  ),
];

const REACH = new StepList(
  [given('s_fly', 'distance flown', 'distance'), given('s_bounce', 'distance bounced', 'distance'), ...reachSteps],
  ['reach'],
);

const farthestOf = (drops: readonly SizedDrop[]): SizedDrop => drops.reduce((a, b) => (b.reach > a.reach ? b : a));

/**
 * Radius round the work in which hot metal can land: the 35 ft of 29 CFR 1910.252 or the reach of falling drops,
 * whichever is larger.
 *
 * The 35 ft is a rule for work near the floor; from a height drops travel farther, and no test of it was found, so
 * drop sizes, throw and bounce are assumptions. Neither figure is a wall: 1910.252(a)(2)(iii)(A)(2) asks for a
 * watch beyond 35 ft where combustibles are easily lit.
 *
 * Height, sizes [m], density [kg/m3]. Example: no drop of 1 or 3 mm passes the 35 ft from 5 ft up.
 * @example fireReach(5 * FOOT, [0.001, 0.003], 6000, { density: 1.2, viscosity: 15e-6, wind: 0 }, { speed: 8,
 *   bounce: 0.3 }).reach / FOOT // 35.0
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
): FireReach {
  if (diameters.length === 0) throw isMissing('drop diameter');
  const drops = diameters.map((diameter) => ({ diameter, ...dropReach({ diameter, density }, air, height, thrown) }));
  const { reach, flown, bounced } = farthestOf(drops);
  return {
    reach: valueOf(REACH, { s_fly: flown, s_bounce: bounced }),
    governs: reach > LIMITS.hotWorkRadius.value ? 'drops' : 'radius',
    drops,
  };
}

/** What the flight of the three drop sizes depends on. */
const FLIGHT = ['h', 'd_low', 'd_mid', 'd_high', 'rho', 'v_0', 'e_b', 'u', 'rho_air', 'nu'] as const;

const within = (d: number): number => Math.min(Math.max(d, DROP_RANGE.smallest), DROP_RANGE.largest);

/**
 * `fireReach` from a height [m] for the low, middle and high drop size in force: step `reach`; `s_fly` and `s_bounce` are of the
 * drop that goes farthest.
 *
 * @example fireReachInForce(30 * FOOT, basis).value / FOOT // 45.9
 */
export function fireReachInForce(height: number, { a, once }: Basis): Working {
  const { low, high } = a.inForce('drop diameter');
  const followed =
    (figure: 'diameter' | 'flown' | 'bounced') =>
    (
      h: number,
      dLow: number,
      dMid: number,
      dHigh: number,
      density: number,
      speed: number,
      bounce: number,
      wind: number,
      airDensity: number,
      viscosity: number,
    ): number => {
      const sizes = [dLow, dMid, dHigh].map(within);
      const key = [h, ...sizes, density, speed, bounce, wind, airDensity, viscosity].join(' ');
      const drop = once(`farthest drop ${key}`, () =>
        farthestOf(fireReach(h, sizes, density, { density: airDensity, viscosity, wind }, { speed, bounce }).drops),
      );
      return drop[figure];
    };
  const list = new StepList(
    [
      given('h', 'height', 'distance'),
      given('d_low', 'smallest drop followed', 'length'),
      given('d_high', 'largest drop followed', 'length'),
      assumed('d_mid', 'drop diameter'),
      assumed('rho', 'drop density'),
      assumed('v_0', 'throw speed'),
      assumed('e_b', 'bounce'),
      assumed('u', 'wind'),
      assumed('rho_air', 'air density'),
      assumed('nu', 'air viscosity'),
      solved(
        'd',
        'drop that goes farthest',
        'length',
        FLIGHT,
        followed('diameter'),
        'of the sizes followed',
        'arithmetic',
      ),
      solved(
        's_fly',
        'distance flown',
        'distance',
        FLIGHT,
        followed('flown'),
        'fall with the drag of a sphere, thrown at the worst angle',
        'schiller naumann',
      ),
      solved(
        's_bounce',
        'distance bounced',
        'distance',
        FLIGHT,
        followed('bounced'),
        'bounces at the worst angle, each at bounce x the landing speed',
        'arithmetic',
      ),
      ...reachSteps,
    ],
    ['reach', 'd'],
  );
  return new Working(new Evaluation(list, { h: height, d_low: within(low), d_high: within(high) }, a), 'reach', ['d']);
}
