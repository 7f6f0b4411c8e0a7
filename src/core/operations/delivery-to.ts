import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { itemSetting } from './item-supply.ts';
import type { Sized } from './sized.ts';
import { deliveryInForce, type Delivery } from '../oxygen/drawable-content.ts';

/**
 * What the regulator delivers to the most demanding item, as `cylindersOpened` takes it for a plan: the setting is sought
 * for the items of the highest pressure and of the highest flow; as assumed where the hose cannot feed them.
 */
export function deliveryTo(sizings: readonly Sized[], basis: Basis): Delivery {
  const standard = deliveryInForce(basis.a);
  const most = (of: (s: Sized) => number): Sized | undefined =>
    sizings.reduce<Sized | undefined>((max, s) => (max === undefined || of(s) > of(max) ? s : max), undefined);
  const demanding = [most((s) => s.pressure), most((s) => s.flow)].flatMap((s) => s ?? []);
  try {
    return {
      pressure: Math.max(...demanding.map((s) => itemSetting(s, basis).gauge)),
      flow: Math.max(...demanding.map((s) => s.flow)),
    };
  } catch (e) {
    if (e instanceof CalcError) return standard;
    throw e;
  }
}
