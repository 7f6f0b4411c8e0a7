import { mustBeLess, notAbove } from '../messages.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { PinInBoss } from './cool-pin.ts';

/** Refuses a pin whose bore, surface, boss and length do not fit each other. */
export function checkPin({ diameter, hole, boss, length }: PinInBoss, system: UnitSystem = 'US', bushing = 0): void {
  const show = (x: number): string => showQuantity(x, 'length', system);
  const positive = (name: string, x: number): void => {
    if (!(x > 0) || x === Infinity) throw notAbove(name, show(x), show(0));
  };
  positive('diameter', diameter);
  positive('hole', hole);
  positive('length', length);
  if (hole >= diameter) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(boss > diameter) || boss === Infinity) throw notAbove('boss', show(boss), `the pin's ${show(diameter)}`);
  if (!(boss > diameter + 2 * bushing))
    throw notAbove(
      'boss',
      show(boss),
      `the ${show(diameter + 2 * bushing)} of the pin with a bushing wall of ${show(bushing)}`,
    );
}
