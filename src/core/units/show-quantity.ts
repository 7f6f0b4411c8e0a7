import { shown } from '../messages.ts';
import { fromSi, plainUnit } from './parse-quantity.ts';
import type { QuantityName, UnitSystem } from './quantities.ts';

/** An SI value as a text in the user's plain unit, for messages and labels: `5 in`, `103.2 psi`; `digits` significant figures at most. */
export function showQuantity(value: number, name: QuantityName, system: UnitSystem, digits = 6): string {
  const unit = plainUnit(name, system);
  return `${shown(fromSi(value, name, system), digits)}${unit === '' ? '' : unit === '%' ? '%' : ` ${unit}`}`;
}
