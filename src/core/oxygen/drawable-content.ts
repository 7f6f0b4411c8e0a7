import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { cylinderYield } from './cylinder-yield.ts';
import { contentAtRest, fullCylinder } from './full-cylinder.ts';
import { leftoverInForce } from './leftover-in-force.ts';
import { wallInForce } from './supply-in-force.ts';

/** What the regulator delivers while cylinders are drawn: gauge pressure at its outlet [Pa] and flow [kg/s]. */
export interface Delivery {
  readonly pressure: number;
  readonly flow: number;
}

/** The delivery assumed where no plan says more. */
export function deliveryInForce(a: Assumptions, trace?: Trace): Delivery {
  return {
    pressure: a.record('delivery pressure', 'p_del', trace),
    flow: a.record('cylinder draw flow', 'm_feed', trace),
  };
}

/**
 * Share of what a full cylinder as assumed holds above a leftover gauge pressure [Pa] that comes out at the assumed draw flow,
 * the rest being held back by the cold: gas drawn fast is denser at the same gauge reading (`cylinderYield`).
 */
export function drawnShare({ a, once }: Basis, leftover: number, trace?: Trace): number {
  a.record('cylinder draw flow', 'm_draw', trace);
  a.record('cylinders on manifold', 'n_man', trace);
  wallInForce(a, trace);
  const end = once(`yield ${leftover}`, () => {
    const { volume, pressure, temperature } = fullCylinder(a);
    return cylinderYield(
      volume,
      wallInForce(a),
      pressure,
      temperature,
      leftover + a.value('air pressure'),
      a.value('cylinder draw flow'),
      a.value('cylinders on manifold'),
    );
  });
  trace?.add({
    name: 'gas temperature in the cylinder when it is changed',
    symbol: 'T_cold',
    value: end.temperature,
    quantity: 'temperature',
    formula: 'energy balance of the gas with heat from the wall, at the draw flow',
    expression: 'solve(V_cyl, w_cyl, d_cyl, c_cyl, h_in, h_out, p_full, T_gas, p_left, p_air, m_draw, n_man)',
    kind: 'calculated',
    source: 'churchill chu wall',
  });
  const share = end.atRest > 0 ? end.drawn / end.atRest : 1;
  trace?.add({
    name: 'share of it that comes out at the draw flow',
    symbol: 'share_cyl',
    value: share,
    quantity: 'ratio',
    formula: 'oxygen drawn at that temperature / oxygen that can be drawn slowly',
    expression: 'solve(V_cyl, w_cyl, d_cyl, c_cyl, h_in, h_out, p_full, T_gas, p_left, p_air, m_draw, n_man)',
    kind: 'calculated',
    source: 'oxygen equation of state',
  });
  return share;
}

/** Oxygen [kg] that one cylinder serves out of a content [kg] that can be drawn slowly: less what the cold holds back and what is lost in putting it on. */
export function served(content: number, share: number, a: Assumptions, trace?: Trace): number {
  const loss = a.record('cylinder change loss', 'C_loss', trace);
  const value = content * share - loss;
  const shown = (x: number): string => showQuantity(x, 'oxygen', a.system);
  if (!(value > 0))
    throw messages.notAbove(
      'content',
      shown(content),
      `the ${shown(loss / share)} that the cold holds back and that is lost in putting a cylinder on`,
    );
  trace?.add({
    name: 'oxygen that one cylinder serves',
    symbol: 'C_use',
    value,
    quantity: 'oxygen',
    formula: 'content x share that comes out - cylinder change loss',
    expression: 'C * share_cyl - C_loss',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return value;
}

/**
 * Oxygen [kg] that one full cylinder as assumed serves: drawn from its fill at 70 F, brought to the gas temperature, down to
 * the leftover pressure, with the gas cooling as it is drawn, less what is lost in putting the cylinder on.
 *
 * delivery: what the regulator delivers; more may have to be left for it (`leftoverInForce`). Steps `p_del` and `m_feed` hold it.
 * Example: 43 L at 2200 psig and 70 F, drawn at 10 scfm to 250 psig: 212 of 244 scf.
 */
export function drawableContent(basis: Basis, delivery: Delivery = deliveryInForce(basis.a), trace?: Trace): number {
  const { a, once } = basis;
  const work = (): number => {
    const cylinder = fullCylinder(a, trace);
    const leftover = leftoverInForce(a, delivery.pressure, delivery.flow, trace);
    const content = contentAtRest(cylinder, leftover, a, trace);
    trace?.add({
      name: 'content',
      symbol: 'C',
      value: content,
      quantity: 'oxygen',
      formula: 'oxygen that can be drawn slowly',
      expression: 'C_rest',
      kind: 'calculated',
      source: 'arithmetic',
    });
    return served(content, drawnShare(basis, leftover, trace), a, trace);
  };
  return trace ? work() : once(`drawable ${delivery.pressure} ${delivery.flow}`, work);
}
