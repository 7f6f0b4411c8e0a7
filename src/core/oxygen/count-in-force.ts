import type { Basis } from '../basis.ts';
import { distinct } from '../model/distinct.ts';
import type { Trace } from '../model/trace.ts';
import { cylinderCount } from './cylinder-count.ts';
import { deliveryInForce, drawableContent, drawnShare, served } from './drawable-content.ts';
import { fullCylinder } from './full-cylinder.ts';
import { leftoverInForce } from './leftover-in-force.ts';

/**
 * Whole cylinders for an amount of oxygen [kg] at the work, with the assumptions in force.
 *
 * content [kg]: what can be drawn slowly from one cylinder; worked out from the cylinder as assumed where left out. Out of it
 * comes what the cold of a fast draw does not hold back, less what is lost in putting a cylinder on; lighting and idle losses are
 * in the oxygen already. Step `O` is recorded already.
 * Example: 1000 scf in cylinders of 43 L at 2200 psig and 70 F: 5 cylinders.
 */
export function countInForce(oxygen: number, content: number | undefined, basis: Basis, trace?: Trace): number {
  const { a } = basis;
  const steps = distinct(trace);
  const delivery = deliveryInForce(a, steps);
  const each = (): number => {
    if (content === undefined) return drawableContent(basis, delivery, steps);
    steps?.add({
      name: 'content',
      symbol: 'C',
      value: content,
      quantity: 'oxygen',
      formula: 'given',
      kind: 'input',
      source: '',
    });
    // What comes out at the draw flow is that of a full cylinder as assumed.
    fullCylinder(a, steps);
    const leftover = leftoverInForce(a, delivery.pressure, delivery.flow, steps);
    return served(content, drawnShare(basis, leftover, steps), a, steps);
  };
  const count = cylinderCount(oxygen, each(), 0);
  steps?.add({
    name: 'cylinders',
    symbol: 'N_cyl',
    value: count,
    quantity: 'count',
    formula: 'oxygen / oxygen that one cylinder serves, whole, up',
    expression: 'max(0, ceil(O / C_use - 1e-9))',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return count;
}
