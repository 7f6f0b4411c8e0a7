import type { Basis } from '../basis.ts';
import { rodName, rodNames, type Rod } from '../burn/rods.ts';
import type { CalcError } from '../errors.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { Opening } from './operation.ts';

/** A rod of a definite length. */
export interface FittedRod {
  readonly rod: Rod;
  readonly length: number;
  readonly coupled: boolean;
  /** Why the picker chose it; empty where the user named it. */
  readonly reason: string;
}

/**
 * Counts are whole and safe: up, after a tolerance for sums that are whole but for the last bit.
 *
 * @example wholeUp(3.0000000001) // 3
 */
export function wholeUp(x: number): number {
  return Math.max(1, Math.ceil(x - 1e-9));
}

/**
 * Length [m] of a rod that is left and thrown away.
 *
 * @example stubOf(item.rod.rod, basis) / INCH // 3
 */
export function stubOf(rod: Rod, { a }: Basis): number {
  return a.value(rodNames(rod).stub);
}

/** Longest that is burned at a time: one rod, or a string of coupled ones; Infinity where as many are coupled as it takes. */
function longestOf({ length, coupled }: FittedRod, { a }: Basis): number {
  if (!coupled) return length;
  const most = a.value('string rods');
  return most > 0 ? most * length : Infinity;
}

/** How deep a rod, or a string of them, gets with its stub left [m]. */
export const farthest = (fitted: FittedRod, basis: Basis): number =>
  longestOf(fitted, basis) - stubOf(fitted.rod, basis);

/** Whether a rod, or a string of them, gets to `reach` [m] with its stub left, and something of itself to burn there. */
export const reaches = (fitted: FittedRod, reach: number, basis: Basis): boolean =>
  farthest(fitted, basis) > reach * (1 + 1e-9);

/** The error of a rod, or a string, that does not reach. */
export function tooShort(fitted: FittedRod, reach: number, basis: Basis): CalcError {
  const { rod, length, coupled } = fitted;
  const longest = longestOf(fitted, basis);
  const shown = (x: number): string => showQuantity(x, 'length', basis.a.system);
  const name = rodName(rod, length, false);
  return messages.rodTooShort(
    coupled ? `string of ${messages.shown(longest / length)} ${name}` : name,
    shown(longest - stubOf(rod, basis)),
    shown(reach),
  );
}

/** Width that rods make in an opening over their own. */
const madeOver = ({ ratio = 'pierce width' }: Opening, { a }: Basis): number => a.value(ratio);

/** Width a rod makes in an opening [m]. */
export const widthMade = (rod: Rod, opening: Opening, basis: Basis): number =>
  madeOver(opening, basis) * rod.outsideDiameter;

/** Whether what a rod makes is no wider than the opening. */
export function passing(opening: Opening, basis: Basis): (rod: Rod) => boolean {
  const over = madeOver(opening, basis);
  const most = opening.width * (1 + 1e-9);
  return ({ outsideDiameter }) => over * outsideDiameter <= most;
}

/** Refuses a named rod that is wider than the work lets it be. */
export function checkOpening(opening: Opening | undefined, rod: Rod, basis: Basis): void {
  if (!opening || passing(opening, basis)(rod)) return;
  const shown = (x: number): string => showQuantity(x, 'length', basis.a.system);
  throw messages.rodTooWide(
    opening.name,
    shown(opening.width),
    rod.name,
    opening.does ?? 'pierces',
    shown(widthMade(rod, opening, basis)),
  );
}
