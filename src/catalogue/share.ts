import type { Basis } from '../core/basis.ts';
import type { QuantityKind } from './declaration.ts';

/** One percent. */
const PERCENT = 0.01;

/** A share that is typed as 90, 90% or 0.9. */
export const CONFIDENCE: QuantityKind = { kind: 'quantity', quantity: 'percent', above: 0, max: 0.99 };

/**
 * The share [-] that a percent cell means: a cell formatted as a percentage holds 0.9 where 90% is shown, so that what
 * would be less than 1% is taken as a share already.
 */
export function shareOf(percent: number): number {
  // Rounded, so that 90 and 0.9 mean the same to the last bit.
  return Number((percent < PERCENT ? percent / PERCENT : percent).toPrecision(12));
}

/** The confidence that a job is loaded for; that of the assumptions where none is given. */
export const loadConfidence = ({ a }: Basis, given = a.value('load confidence')): number => shareOf(given);
