import type { Basis } from '../basis.ts';
import { cylinderCount } from '../oxygen/cylinder-count.ts';
import { deliveryInForce, drawableContent } from '../oxygen/drawable-content.ts';

/** An item of a list that shares cylinders. */
export interface SuppliedItem {
  /** [kg] */
  readonly oxygen: number;
  /** [kg/s] */
  readonly flow: number;
  /** Gauge pressure set at the regulator [Pa]; undefined where the hose cannot feed it. */
  readonly setting: number | undefined;
}

/**
 * Full cylinders opened for each item of a list that shares them, in order; they add up to the cylinders of the list.
 *
 * A cylinder is changed at the pressure that the most demanding item of the list needs, and each change costs its loss:
 * the numbers opened are the rises of ceil(sum of oxygen / oxygen that one cylinder serves).
 */
export function cylindersOpened(items: readonly SuppliedItem[], basis: Basis): readonly number[] {
  const most = (of: (item: SuppliedItem) => number | undefined): number | undefined =>
    items.reduce<number | undefined>(
      (max, item) => (max === undefined ? of(item) : Math.max(max, of(item) ?? max)),
      undefined,
    );
  const standard = deliveryInForce(basis.a);
  const content = drawableContent(basis, {
    pressure: most((i) => i.setting) ?? standard.pressure,
    flow: most((i) => i.flow) ?? standard.flow,
  });
  let sum = 0;
  let opened = 0;
  return items.map(({ oxygen }) => {
    sum += oxygen;
    const all = cylinderCount(sum, content, 0);
    const now = all - opened;
    opened = all;
    return now;
  });
}
