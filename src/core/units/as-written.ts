import { fromSi, plainUnit } from './parse-quantity.ts';
import type { QuantityName, UnitSystem } from './quantities.ts';

/** Figures that a person would write at most. */
const FIGURES = 12;
/** How far a number may stand beside such a one, relative: some units in its last place, which a conversion leaves. */
const SLIP = 4e-15;

/**
 * A number as a person would write it: where it stands beside a decimal number of up to 12 figures by nothing but the last bits
 * of its binary form, that number; any other as it is.
 *
 * `size`: what the bits are of, where it is more than the number, as an offset that was taken off it.
 *
 * @example asWritten(11.999999999999998) // 12
 * @example asWritten(8.123456789012345) // 8.123456789012345
 */
export function asWritten(x: number, size = Math.abs(x)): number {
  if (Number.isInteger(x) || !Number.isFinite(x)) return x;
  const slip = SLIP * size;
  // Scaled to 12 figures, a written number is whole. A cheap look, since most numbers are none.
  const places = FIGURES - 1 - Math.floor(Math.log10(size));
  if (places > 300) return x;
  const scaled = places >= 0 ? x * 10 ** places : x / 10 ** -places;
  if (Math.abs(scaled - Math.round(scaled)) > 10 ** FIGURES * SLIP) return x;
  const written =
    size > Math.abs(x) ? Number(x.toFixed(Math.min(Math.max(places, 0), 100))) : Number(x.toPrecision(FIGURES));
  return Math.abs(written - x) <= slip ? written + 0 : x;
}

/**
 * An SI value in the plain unit of a system, or in `unit`, as a person would write it.
 *
 * @example writtenFromSi(0.1016, 'length', 'US') // 4
 */
export function writtenFromSi(
  si: number,
  name: QuantityName,
  system: UnitSystem,
  unit = plainUnit(name, system),
): number {
  const x = fromSi(si, name, system, unit);
  // A temperature's bits are those of its distance from absolute zero.
  const offset = Math.abs(fromSi(0, name, system, unit));
  return asWritten(x, Math.max(Math.abs(x), Number.isFinite(offset) ? offset : 0));
}
