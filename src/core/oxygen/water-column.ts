import * as messages from '../messages.ts';

/**
 * Pressure of a column of water [Pa]: gradient times depth.
 *
 * depth [m], 0 or more; gradient [Pa/m]: salt water 0.445 psi/ft, fresh water its weight.
 * Source: US Navy Diving Manual (0.445 psi per foot of sea water). Example: 60 ft of sea water, 26.7 psi.
 */
export function waterColumn(depth: number, gradient: number): number {
  if (!(depth >= 0)) throw messages.tooLow('depth', `${messages.shown(depth)} m`, '0 m');
  return depth * gradient;
}
