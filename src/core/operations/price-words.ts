import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { rodNames, type Rod } from '../burn/rods.ts';
import { toFigures } from '../units/as-written.ts';
import type { QuantityName } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

/** A cost as a reason tells it: to the figure that still decides anything. */
export const showCost = (cost: number): string => String(toFigures(cost, cost < 100 ? 3 : 4));

/** The prices that ways and rods are weighed by, in words. */
export function pricesOf(rod: Rod, a: Assumptions): string {
  const { price } = rodNames(rod);
  const shown = (name: NumberName, quantity: QuantityName): string =>
    showQuantity(a.value(name), quantity, a.system, 4);
  return [
    `crew ${shown('crew price', 'moneyPerTime')}`,
    `rods ${shown(price, 'moneyPerSteel')}`,
    `oxygen ${shown('oxygen price', 'moneyPerMass')}`,
  ].join(', ');
}
