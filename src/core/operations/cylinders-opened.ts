import type { Basis } from '../basis.ts';
import { cylinderCounts } from '../oxygen/cylinder-count.ts';
import { deliveryInForce, drawableContent, type Delivery } from '../oxygen/drawable-content.ts';

/** An item of a list that shares cylinders. */
export interface SuppliedItem {
  /** [kg] */
  readonly oxygen: number;
  /** [kg/s] */
  readonly flow: number;
  /** Gauge pressure set at the regulator [Pa]; undefined where the hose cannot feed it. */
  readonly setting: number | undefined;
}

/** Where a list stands after one of its items. */
export interface CylindersSoFar {
  /** Full cylinders opened up to and with this item. */
  readonly opened: number;
  /** What the last of them still serves [kg]. */
  readonly left: number;
}

/**
 * Full cylinders opened along a list that shares them, in its order; the last item has those of the whole list.
 *
 * A cylinder is changed at the pressure that the most demanding item of the list needs, and each change costs its loss:
 * opened = ceil(sum of oxygen / oxygen that one cylinder serves), left = opened x that - the sum.
 *
 * @example cylindersOpened([item], basis)[0].opened // 1
 */
export function cylindersOpened(items: readonly SuppliedItem[], basis: Basis): readonly CylindersSoFar[] {
  const opened = openedAlong(items, basis);
  return items.map(({ oxygen }) => opened(oxygen));
}

/** The same, told of one item's oxygen [kg] after the other; of the list itself it takes the highest setting and flow. */
export function openedAlong(
  items: Iterable<Omit<SuppliedItem, 'oxygen'>>,
  basis: Basis,
): (oxygen: number) => CylindersSoFar {
  const content = drawableContent(basis, sharedDelivery(items, basis));
  const count = cylinderCounts(content, 0);
  let sum = 0;
  return (oxygen) => {
    sum += oxygen;
    const opened = count(sum);
    return { opened, left: Math.max(0, opened * content - sum) };
  };
}

/** What the regulator delivers to a list: the highest setting and the highest flow of its items. */
export function sharedDelivery(items: Iterable<Omit<SuppliedItem, 'oxygen'>>, basis: Basis): Delivery {
  const standard = deliveryInForce(basis.a);
  let [pressure, most]: (number | undefined)[] = [];
  for (const { setting, flow } of items) {
    if (setting !== undefined) pressure = Math.max(pressure ?? setting, setting);
    most = Math.max(most ?? flow, flow);
  }
  return { pressure: pressure ?? standard.pressure, flow: most ?? standard.flow };
}
