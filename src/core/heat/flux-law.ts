/** Heat flux leaving a surface [W/m2] and its slope [W/m2 K], over the surface temperature [K]. */
export interface FluxLaw {
  flux(surface: number): number;
  slope(surface: number): number;
}

/** No heat passes. */
export const INSULATED: FluxLaw = { flux: () => 0, slope: () => 0 };

/** Newton's law of cooling: q = h (T - ambient). */
export function constantFilm(coefficient: number, ambient: number): FluxLaw {
  return { flux: (surface) => coefficient * (surface - ambient), slope: () => coefficient };
}

/**
 * A law read from a table with equal steps, so that a costly correlation is worked out once a pin.
 * Straight lines between points; the end slopes go on outside.
 */
export function tabulated(law: (surface: number) => number, from: number, to: number, step: number): FluxLaw {
  const count = Math.ceil((to - from) / step) + 1;
  const table = Float64Array.from({ length: count }, (_, i) => law(from + i * step));
  const at = (surface: number): number => Math.min(count - 2, Math.max(0, Math.floor((surface - from) / step)));
  const rise = (i: number): number => (table[i + 1]! - table[i]!) / step;
  return {
    flux: (surface) => {
      const i = at(surface);
      return table[i]! + rise(i) * (surface - from - i * step);
    },
    slope: (surface) => rise(at(surface)),
  };
}
