import type { Basis } from '../basis.ts';
import { overSimplex } from '../model/simplex.ts';
import { COOLED_IN_AIR_BY } from './cooling-draws.ts';
import { coolingTime } from './cooling-time.ts';
import { kept, rounded, type Places } from './kept.ts';
import { KEPT_TABLE } from './kept-times.ts';
import { bossInForce, coolingInForce, lengthened, methodInForce, physicsInForce } from './heat-in-force.ts';

/** Steps of the table in the logarithm of the diameter, in hole over diameter, and in the logarithms of length over diameter and of the pace of burning [kg/s]. */
const STEPS = { size: 0.5, bore: 0.025, slimness: Math.LN2, pace: Math.LN2 } as const;
/** Smallest and largest of each that has an entry; beyond, the nearest stands for it. */
const RANGE = {
  size: [Math.log(0.004), Math.log(2.5)],
  bore: [0.1, 0.975],
  slimness: [Math.log(0.25), Math.log(32)],
  pace: [Math.log(1e-4), Math.log(1)],
} as const;
/** Cooling goes about as this power of the diameter, between the pin's own conduction (2) and the air round the boss (1). */
const POWER = 1.5;

type Axis = keyof typeof STEPS;

/**
 * Cooling time of a pin in its assumed boss, read from a table that is filled where it is needed.
 *
 * Entries are `coolingTime` over diameter^1.5; between them straight lines over the simplex that holds the pin, so that a
 * pin costs five entries at most and two pins of one shape share them. A pin gets the same alone as in a list.
 * diameter, hole, length [m], pace of burning [kg/s]; result [s]. Of pins of 0.25 to 12 in, 98 of 100 lie within 10 % or 2 minutes of `coolingTime`,
 * whichever is more, and all within 6 minutes or 10 %; the worst is where the hole grows so large that pin and boss cool in air
 * together instead of pin into boss. Of a pin under 1 in with a thin wall, which cools in seconds or in minutes, that can be all.
 * Source: as `coolingTime`.
 * @example tabulatedCoolingTime({ diameter: 0.1, hole: 0.06, length: 0.25 }, 0.006, basis) / 60 // 5.6175
 */
export function tabulatedCoolingTime(
  pin: { readonly diameter: number; readonly hole: number; readonly length: number },
  burnt: number,
  basis: Basis,
): number {
  const { diameter, hole, length } = pin;
  const { a, once } = basis;
  const longer = (time: number): number => lengthened(time, diameter, methodInForce(a), a);
  // The table is of solid pins without bushing: others are solved each for itself.
  if (a.value('existing bore') > 0 || a.value('bushing wall') > 0)
    return longer(
      once(`cooling of ${diameter} ${hole} ${length} ${burnt}`, () =>
        coolingTime(
          coolingInForce({ ...pin, boss: bossInForce(diameter, a) }, methodInForce(a), undefined, burnt, a),
          physicsInForce(a),
          undefined,
          a.system,
        ),
      ),
    );
  const at = (axis: Axis, x: number): number => {
    const [least, most] = RANGE[axis];
    // A hair of rounding must not call for one more entry.
    return Math.round((Math.min(most, Math.max(least, x)) / STEPS[axis]) * 1e9) / 1e9;
  };
  const place = [
    at('size', Math.log(diameter)),
    at('bore', hole / diameter),
    at('slimness', Math.log(length / diameter)),
    at('pace', Math.log(burnt)),
  ];
  const entries = basis.reading('cooling entries', () => new Map<number, number>());
  let sum = 0;
  overSimplex(place, (corner, weight) => {
    let key = 0;
    for (let i = 0; i < corner.length; i++) key = key * 256 + corner[i]! + 128;
    let value = entries.get(key);
    if (value === undefined) entries.set(key, (value = entry(corner, basis)));
    sum += weight * value;
    return true;
  });
  return longer(sum * diameter ** POWER);
}

function entry(corner: readonly number[], basis: Basis): number {
  return basis.once(`cooling ${corner.join(' ')}`, () => {
    const [time] = kept(KEPT_TABLE, KEPT, corner, 1, COOLED_IN_AIR_BY, basis) ?? solvedEntry(corner, basis);
    return time! / Math.exp(corner[0]! * STEPS.size) ** POWER;
  });
}

/** Entries that are kept: the usual ones, as assumed in air. Size, bore, slimness, pace. */
export const KEPT: Places = [
  [-8, -2],
  [24, 26],
  [-1, 3],
  [-10, -7],
];

/** Time of an entry, solved [s]. */
export function solvedEntry(corner: readonly number[], { a }: Basis): Float64Array {
  const [size, bore, slimness, pace] = corner as readonly [number, number, number, number];
  const diameter = Math.exp(size * STEPS.size);
  const pin = {
    diameter,
    hole: Math.min(bore * STEPS.bore, 0.985) * diameter,
    boss: bossInForce(diameter, a),
    length: Math.exp(slimness * STEPS.slimness) * diameter,
  };
  const asked = coolingInForce(pin, methodInForce(a), undefined, Math.exp(pace * STEPS.pace), a);
  return rounded([coolingTime(asked, physicsInForce(a), undefined, a.system)]);
}
