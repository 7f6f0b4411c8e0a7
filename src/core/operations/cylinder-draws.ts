import type { Basis } from '../basis.ts';
import { deliveryInForce, drawnCylinder, type Delivery } from '../oxygen/drawable-content.ts';
import { FILL_TEMPERATURE } from '../oxygen/gauge-reading.ts';
import { isotherm } from '../oxygen/oxygen-state.ts';
import { drawsOfShared } from './draw-item.ts';

/**
 * Oxygen that one cylinder serves in each world [kg], by the draws of its fill at 70 F and of what is left in it; the cold of a
 * fast draw and the loss of a change are those in force (`drawableContent`). `delivery`: what the
 * regulator delivers; more may have to be left for it.
 */
export function cylinderDraws(
  count: number,
  basis: Basis,
  { pressure, flow }: Delivery = deliveryInForce(basis.a),
): Float64Array {
  return basis.once(`cylinder draws ${count} ${pressure} ${flow}`, () => {
    const { a } = basis;
    const air = a.value('air pressure');
    const [filled, now] = [isotherm(FILL_TEMPERATURE), isotherm(a.value('gas temperature'))];
    const cylinder = drawnCylinder(basis, { pressure, flow });
    const inForce = cylinder.number('p_left');
    const forRegulator = inForce > a.value('leftover pressure') ? inForce : 0;
    const share = cylinder.number('share_cyl');
    const left = drawsOfShared('leftover pressure', count, basis);
    return drawsOfShared('cylinder pressure', count, basis).map((p, i) => {
      const drawn = filled.density(p + air) - now.density(Math.max(left[i] ?? NaN, forRegulator) + air);
      return Math.max(0, a.value('cylinder volume') * drawn * share - a.value('cylinder change loss'));
    });
  });
}
