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

/** How much of each rod burns where the tip works down to `reach` [m]; errors where it cannot get there. */
export function usableLength(fitted: FittedRod, reach: number, basis: Basis): number {
  const { a } = basis;
  const stub = a.value('stub');
  const { length } = fitted;
  const shown = (x: number): string => showQuantity(x, 'length', a.system);
  if (stub >= length) throw messages.stubTooLong(shown(stub), shown(length));
  if (fitted.coupled) return length;
  const usable = length - stub - (a.value('reach loss') * reach) / 2;
  if (length - stub < reach * (1 - 1e-12) || usable <= 0) throw messages.rodTooShort(rodName(fitted.rod, length, false), shown(length - stub), shown(reach));
  return usable;
}

/** Rods, not rounded: coupled rods lose one stub and one reach a string, single ones one each. */
export function rodsFor(consumed: number, fitted: FittedRod, reach: number, basis: Basis): number {
  const usable = usableLength(fitted, reach, basis);
  const { a } = basis;
  return fitted.coupled ? (consumed + a.value('stub') + (a.value('reach loss') * reach) / 2) / usable : consumed / usable;
}

/** Refuses a named rod that is wider than the work lets it be. */
export function checkOpening(opening: { readonly width: number; readonly name: string } | undefined, rod: Rod, basis: Basis): void {
  if (!opening) return;
  const needs = basis.a.value('pierce width') * rod.outsideDiameter;
  if (needs <= opening.width * (1 + 1e-9)) return;
  const shown = (x: number): string => showQuantity(x, 'length', basis.a.system);
  throw messages.rodTooWide(opening.name, shown(opening.width), rod.name, shown(needs));
}
