import { GRAVITY } from '../units/quantities.ts';
import { STEFAN_BOLTZMANN } from './air-film.ts';

/** Boiling point of water at one atmosphere [K]. */
export const BOILING_POINT = 373.15;

/**
 * Saturated water and steam at one atmosphere, as printed in the example of the reference library
 * CalebBell/ht, boiling_nucleic.Rohsenow (rounded steam-table values).
 */
export const SATURATED_WATER = {
  liquidDensity: 957.854,
  vapourDensity: 0.595593,
  viscosity: 2.79e-4,
  conductivity: 0.68,
  specificHeat: 4217,
  latentHeat: 2.257e6,
  surfaceTension: 0.0589,
} as const;

export interface Saturated {
  readonly liquidDensity: number;
  readonly vapourDensity: number;
  readonly viscosity: number;
  readonly specificHeat: number;
  readonly latentHeat: number;
  readonly surfaceTension: number;
  readonly prandtl: number;
}

/** Water at its boiling point at one atmosphere. */
export const WATER_AT_BOILING: Saturated = {
  ...SATURATED_WATER,
  prandtl: (SATURATED_WATER.viscosity * SATURATED_WATER.specificHeat) / SATURATED_WATER.conductivity,
};

/**
 * Heat flux of nucleate pool boiling of water.
 *
 * q = mu h_fg sqrt(g (rho_l - rho_v) / sigma) (c dT / (C_sf h_fg Pr))^3.
 * superheat [K] over the boiling point, surfaceFactor C_sf [1]; result [W/m2]. Below the critical flux.
 * Source: Rohsenow 1952, as in Kreith, Manglik & Bohn, Principles of Heat Transfer, 7th ed., eq. 10.2.
 * Example (10.1 there): polished stainless steel, 6 K over boiling: 29,669 W/m2.
 * @example nucleateBoilingFlux(6, 0.0132) // 29731
 */
export function nucleateBoilingFlux(
  superheat: number,
  surfaceFactor: number,
  water: Saturated = WATER_AT_BOILING,
): number {
  const { liquidDensity, vapourDensity, viscosity, specificHeat, latentHeat, surfaceTension, prandtl } = water;
  const ratio = (specificHeat * superheat) / (surfaceFactor * latentHeat * prandtl);
  return viscosity * latentHeat * Math.sqrt((GRAVITY * (liquidDensity - vapourDensity)) / surfaceTension) * ratio ** 3;
}

/**
 * Largest heat flux of nucleate pool boiling of water at its boiling point.
 *
 * q = (pi / 24) h_fg sqrt(rho_v) (sigma g (rho_l - rho_v))^(1/4); result [W/m2].
 * Source: Zuber 1958, as in Kreith, Manglik & Bohn, 7th ed., eq. 10.4. Example (10.1 there): 1.107e6 W/m2.
 * @example criticalHeatFlux() / 1e6 // 1.1056
 */
export function criticalHeatFlux(water: Saturated = WATER_AT_BOILING): number {
  const { liquidDensity, vapourDensity, latentHeat, surfaceTension } = water;
  return (
    (Math.PI / 24) *
    latentHeat *
    Math.sqrt(vapourDensity) *
    (surfaceTension * GRAVITY * (liquidDensity - vapourDensity)) ** 0.25
  );
}

/** Steam at one atmosphere. */
export interface Steam {
  readonly density: number;
  readonly viscosity: number;
  readonly conductivity: number;
  readonly specificHeat: number;
}

/** Specific heat of steam at one atmosphere [J/kg K]; 1980 to 2100 between 400 and 900 K. */
const STEAM_SPECIFIC_HEAT = 2010;

/**
 * Density, viscosity and conductivity of steam at one atmosphere.
 *
 * Ideal-gas density; zero-density terms mu = 100 sqrt(T_r) / sum(H_i / T_r^i) uPa s and
 * k = sqrt(T_r) / sum(L_i / T_r^i) mW/m K with T_r = T / 647.096.
 * temperature [K]. Valid from 373 to 1200 K.
 * Source: IAPWS R12-08 and R15-11, first factors; constants from memory, confirmed in the tests against a handbook example.
 * @example 1e6 * steamProperties(600).viscosity // 21.433
 */
export function steamProperties(temperature: number): Steam {
  const r = temperature / 647.096;
  const root = Math.sqrt(r);
  return {
    density: (101325 * 0.01801527) / (8.314462618 * temperature),
    viscosity: (1e-4 * root) / (1.67752 + (2.20462 + (0.6366564 - 0.241605 / r) / r) / r),
    conductivity:
      (1e-3 * root) / (2.443221e-3 + (1.323095e-2 + (6.770357e-3 + (-3.454586e-3 + 4.096266e-4 / r) / r) / r) / r),
    specificHeat: STEAM_SPECIFIC_HEAT,
  };
}

/**
 * Heat flux of film boiling on a horizontal cylinder in water at its boiling point.
 *
 * h_c = 0.62 [k_v^3 rho_v (rho_l - rho_v) g (h_fg + 0.4 c_v dT) / (mu_v D dT)]^(1/4), steam at the mean of wall and
 * boiling point; with radiation q = (h_c + 3/4 h_r) dT.
 * surface [K], diameter [m], emissivity [1]; result [W/m2]. Wall above the film-boiling limit.
 * Source: Bromley 1950, as in Cengel & Ghajar, Heat and Mass Transfer, eq. 10-5. Example (problem 10-47E of its
 * solution manual): 0.5 in, 988 F: 25,147 Btu/h ft2 without radiation, with the steam properties given there.
 * @example filmBoilingFlux(800, 0.0127, 0.8) // 90537
 */
export function filmBoilingFlux(
  surface: number,
  diameter: number,
  emissivity: number,
  water: Saturated = WATER_AT_BOILING,
  steam?: Steam,
): number {
  const superheat = surface - BOILING_POINT;
  const { density, viscosity, conductivity, specificHeat } = steam ?? steamProperties((surface + BOILING_POINT) / 2);
  const latent = water.latentHeat + 0.4 * specificHeat * superheat;
  const convection =
    0.62 *
    ((conductivity ** 3 * density * (water.liquidDensity - density) * GRAVITY * latent) /
      (viscosity * diameter * superheat)) **
      0.25;
  const radiation = (emissivity * STEFAN_BOLTZMANN * (surface ** 4 - BOILING_POINT ** 4)) / superheat;
  return (convection + 0.75 * radiation) * superheat;
}
