import type { Basis } from '../basis.ts';
import { oxygenDensity } from './oxygen-state.ts';

/**
 * Oxygen that can be drawn from one cylinder as assumed [kg]: V (rho(p_fill) - rho(p_left)), real gas at the gas temperature.
 */
export function drawableContent({ a, once }: Basis): number {
  return once('drawable content', () => {
    const T = a.value('gas temperature');
    const air = a.value('air pressure');
    const full = oxygenDensity(T, a.value('cylinder pressure') + air);
    const left = oxygenDensity(T, a.value('leftover pressure') + air);
    return a.value('cylinder volume') * Math.max(full - left, 0);
  });
}
