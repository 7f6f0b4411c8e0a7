import type { Basis } from '../basis.ts';
import { rodName, type Rod } from '../burn/rods.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';

/** A rod of a definite length. */
export interface FittedRod {
  readonly rod: Rod;
  readonly length: number;
  readonly coupled: boolean;
  /** Why the picker chose it; empty where the user named it. */
  readonly reason: string;
}

/** Counts are whole and safe: up, after a tolerance for sums that are whole but for the last bit. */
export function wholeUp(x: number): number {
  return Math.max(1, Math.ceil(x - 1e-9));
}

/** Length of a single rod [m] that burns where the tip works down to `reach` [m]: what neither stays as stub nor bridges the way to the face. */
function burnedLength(length: number, reach: number, { a }: Basis): number {
  return length - a.value('stub') - (a.value('reach loss') * reach) / 2;
}

/** Whether a single rod gets to `reach` [m] with its stub left. */
export function reaches(length: number, reach: number, basis: Basis): boolean {
  return length - basis.a.value('stub') >= reach * (1 - 1e-12) && burnedLength(length, reach, basis) > 0;
}

/** Rods, not rounded: coupled rods lose one stub and one reach a string, single ones one each. */
export function rodsFor(consumed: number, { rod, length, coupled }: FittedRod, reach: number, basis: Basis): number {
  const { a } = basis;
  const burned = burnedLength(length, reach, basis);
  if (coupled) return (consumed + length - burned) / length;
  if (!reaches(length, reach, basis)) {
    const shown = (x: number): string => showQuantity(x, 'length', a.system);
    throw messages.rodTooShort(rodName(rod, length, false), shown(length - a.value('stub')), shown(reach));
  }
  return consumed / burned;
}

/** Refuses a named rod that is wider than the work lets it be. */
export function checkOpening(opening: { readonly width: number; readonly name: string } | undefined, rod: Rod, basis: Basis): void {
  if (!opening) return;
  const needs = basis.a.value('pierce width') * rod.outsideDiameter;
  if (needs <= opening.width * (1 + 1e-9)) return;
  const shown = (x: number): string => showQuantity(x, 'length', basis.a.system);
  throw messages.rodTooWide(opening.name, shown(opening.width), rod.name, shown(needs));
}
