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
 * A law read from a table with equal steps, so that a costly correlation is worked out once a pin, and only where a wall gets to.
 * Straight lines between points; the end slopes go on outside.
 */
export function tabulated(law: (surface: number) => number, from: number, to: number, step: number): FluxLaw {
  const last = Math.ceil((to - from) / step) - 1;
  const table = new Float64Array(last + 2).fill(NaN);
  /** Cell of the table, its points worked out. */
  const at = (surface: number): number => {
    const i = Math.min(last, Math.max(0, Math.floor((surface - from) / step)));
    if (Number.isNaN(table[i]!)) table[i] = law(from + i * step);
    if (Number.isNaN(table[i + 1]!)) table[i + 1] = law(from + (i + 1) * step);
    return i;
  };
  return {
    flux: (surface) => {
      const i = at(surface);
      return table[i]! + ((table[i + 1]! - table[i]!) / step) * (surface - from - i * step);
    },
    slope: (surface) => {
      const i = at(surface);
      return (table[i + 1]! - table[i]!) / step;
    },
  };
}
