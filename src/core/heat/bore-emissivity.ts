/**
 * Emissivity that gives the wall of an open bore the radiation it loses through its two mouths.
 *
 * The wall sees itself; only the mouths, black at ambient temperature, take heat. With R = d / (2 L) the view
 * factor between the mouths is F = 1 + (1 - sqrt(4 R^2 + 1)) / (2 R^2); the wall's to both is F_w = (1 - F) R,
 * and the grey enclosure gives 1 / e' = (1 - e) / e + 1 / F_w.
 * hole, length [m], emissivity [1]; result [1], on the wall's area. For any d / L.
 * Source: view factor of coaxial equal discs and two-surface enclosure, Incropera et al., Fundamentals of Heat
 * and Mass Transfer, 6th ed., Table 13.2 and eq. 13.18. Limits: a deep bore tends to d / (2 L), a ring to e.
 * @example boreEmissivity(0.05, 0.5, 0.8) // 0.049261
 */
export function boreEmissivity(hole: number, length: number, emissivity: number): number {
  const R = hole / (2 * length);
  // (1 - F) R = (sqrt(4 R^2 + 1) - 1) / (2 R), written so that a deep bore does not cancel.
  const wall = (2 * R) / (Math.sqrt(4 * R * R + 1) + 1);
  return 1 / ((1 - emissivity) / emissivity + 1 / wall);
}
