/**
 * Mean Nusselt number of natural convection round a long horizontal cylinder.
 *
 * Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559 / Pr)^(9/16))^(8/27))^2, on the diameter.
 * rayleigh, prandtl [1]. Valid for Ra up to 1e12.
 * Source: Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1049. Example: Ra 5.7548e5, Pr 0.7035 give 12.447.
 * @example nusseltCylinder(5.7548e5, 0.7035) // 12.447
 */
export function nusseltCylinder(rayleigh: number, prandtl: number): number {
  const root = 0.6 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27);
  return root * root;
}
