import { conversion, plainUnit } from './parse-quantity.ts';
import type { QuantityName, UnitSystem } from './quantities.ts';

/** Figures that a person would write at most. */
const FIGURES = 12;
/** How far a number may stand beside such a one, relative: some units in its last place, which a conversion leaves. */
const SLIP = 4e-15;
/** Lists of many numbers spend their time in powers otherwise. */
const TENS = Array.from({ length: 40 }, (_, i) => 10 ** i);
const ten = (power: number): number => TENS[power] ?? 10 ** power;

/**
 * A number to so many significant figures, as `Number(x.toPrecision(digits))`.
 *
 * Of everyday numbers it is found without writing them, which lists of many notes spend their time in: scaled to whole figures
 * and rounded. Where that is near a half, so that the last bits decide, they are written.
 *
 * @example toFigures(93.2449, 4) // 93.24
 */
export function toFigures(x: number, digits: number): number {
  if (x >= 1e-3 && x < 1e6) {
    const power = digits - 1 - Math.floor(Math.log10(x));
    const scaled = x * ten(power);
    const whole = Math.round(scaled);
    // The logarithm may be a bit off beside a power of ten.
    if (
      power >= 0 &&
      whole >= ten(digits - 1) &&
      whole < ten(digits) &&
      Math.abs(Math.abs(scaled - whole) - 0.5) > 1e-6
    )
      return whole / ten(power);
  }
  return Number(x.toPrecision(digits));
}

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
  const scaled = places >= 0 ? x * ten(places) : x / ten(-places);
  if (Math.abs(scaled - Math.round(scaled)) > 10 ** FIGURES * SLIP) return x;
  const written =
    size > Math.abs(x) ? Number(x.toFixed(Math.min(Math.max(places, 0), 100))) : Number(x.toPrecision(FIGURES));
  return Math.abs(written - x) <= slip ? written + 0 : x;
}

/** Turns SI values into the plain unit of a system, or into `unit`, as a person would write them. */
export function fromSiWritten(
  name: QuantityName,
  system: UnitSystem,
  unit = plainUnit(name, system),
): (si: number) => number {
  const { factor, offset } = conversion(name, unit);
  // A temperature's bits are those of its distance from absolute zero.
  const least = Math.abs(offset / factor);
  return (si) => {
    const x = (si - offset) / factor;
    return asWritten(x, Math.max(Math.abs(x), least));
  };
}

/**
 * An SI value in the plain unit of a system, or in `unit`, as a person would write it.
 *
 * @example writtenFromSi(0.1016, 'length', 'US') // 4
 */
export const writtenFromSi = (si: number, name: QuantityName, system: UnitSystem, unit?: string): number =>
  fromSiWritten(name, system, unit)(si);
