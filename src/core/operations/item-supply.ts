import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { drawableContent } from '../oxygen/drawable-content.ts';
import { settingInForce, type Setting } from '../oxygen/setting-in-force.ts';
import type { Trace } from '../model/trace.ts';
import { cylinderCount } from '../oxygen/cylinder-count.ts';
import type { Sized } from './sized.ts';

/** What to set at the regulator for an item, through the hose as assumed. Throws where the hose cannot pass the flow. */
export function itemSetting(
  { pressure, flow }: Pick<Sized, 'pressure' | 'flow'>,
  basis: Basis,
  trace?: Trace,
): Setting {
  const { a, once } = basis;
  const work = (): Setting =>
    settingInForce(
      {
        tip: pressure,
        flow,
        length: a.value('hose length'),
        bore: a.value('hose bore'),
        depth: a.value('water depth'),
      },
      basis,
      trace,
    );
  return trace ? work() : once(`setting ${pressure} ${flow}`, work);
}

/**
 * Records the supply of one item by itself: regulator setting, content of a cylinder, cylinders; where there is none, why.
 * Steps `p`, `m` and `O` are recorded already.
 */
export function recordSupply(sizing: Sized, basis: Basis, trace: Trace): void {
  try {
    const { outlet } = itemSetting(sizing, basis, trace);
    const { flow, oxygen } = sizing;
    trace.add({
      name: 'delivery pressure of the regulator',
      symbol: 'p_del',
      value: outlet,
      quantity: 'pressure',
      formula: "pressure at the regulator's outlet",
      expression: 'p_out',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'flow fed by the regulator',
      symbol: 'm_feed',
      value: flow,
      quantity: 'flow',
      formula: 'mean flow through the rod',
      expression: 'm',
      kind: 'calculated',
      source: 'arithmetic',
    });
    const content = drawableContent(basis, { pressure: outlet, flow }, trace);
    trace.add({
      name: 'cylinders for this item alone',
      symbol: 'N_cyl',
      value: cylinderCount(oxygen, content, 0),
      quantity: 'count',
      formula: 'oxygen / oxygen that one cylinder serves, whole, up',
      expression: 'max(0, ceil(O / C_use - 1e-9))',
      kind: 'calculated',
      source: 'arithmetic',
    });
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    trace.add({
      name: 'oxygen supply',
      symbol: 'supply',
      value: e.message,
      quantity: 'count',
      formula: 'no supply as assumed feeds this item',
      kind: 'calculated',
      source: '',
    });
  }
}
