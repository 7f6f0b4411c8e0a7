import type { Basis } from '../basis.ts';
import { cylinderContent, contentPressure } from './cylinder-content.ts';
import { fullCylinder } from './full-cylinder.ts';

/**
 * What the gauge of a cylinder as assumed reads [Pa], at rest at the gas temperature, once it has served a mass [kg].
 *
 * p = p(V, m_full - m_loss - m_served, T) - p_air: what was lost in putting it on is gone too. While it is drawn fast it is
 * colder and reads less. Source: as `cylinderContent`.
 *
 * @param served [kg], from 0 to what `drawableContent` gives
 * @example gaugeAfter(100 * SCF, basis) / PSI // 1292
 */
export function gaugeAfter(served: number, basis: Basis): number {
  const { a } = basis;
  const { volume, pressure, temperature } = basis.once('full cylinder', () => fullCylinder(a));
  const full = basis.once('content of the full cylinder', () => cylinderContent(volume, pressure, temperature));
  const left = Math.max(0, full - a.value('cylinder change loss') - served);
  return contentPressure(volume, left, temperature) - a.value('air pressure');
}
