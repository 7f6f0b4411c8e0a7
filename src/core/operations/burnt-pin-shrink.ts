import type { Basis } from '../basis.ts';
import { shrinkInForce } from '../fit/shrink-in-force.ts';
import type { Shrink } from '../fit/shrink-pin.ts';
import type { PinInBoss } from '../heat/cool-pin.ts';
import { paceOf, type Cooled } from './burnt-pin.ts';
import { PIN } from './pin.ts';
import { sized } from './sized.ts';

/** How a pin in its boss loosens after its own burning, moment by moment. */
export function burntPinShrink(pin: PinInBoss, { method, target }: Omit<Cooled, 'decidedBy'>, basis: Basis): Shrink {
  const { diameter, hole, length } = pin;
  const item = sized({ operation: PIN, sizes: { diameter, hole, length }, basis });
  return shrinkInForce(pin, method, paceOf(item), basis.a, target);
}
