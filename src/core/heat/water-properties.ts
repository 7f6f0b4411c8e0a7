/** Liquid water at one atmosphere. */
export interface WaterProperties {
  /** Density [kg/m3]. */
  readonly density: number;
  /** Dynamic viscosity [Pa s]. */
  readonly viscosity: number;
  /** Thermal conductivity [W/m K]. */
  readonly conductivity: number;
  /** Volume expansion [1/K]. */
  readonly expansion: number;
  readonly prandtl: number;
}

/** Specific heat of liquid water [J/kg K], constant within 0.5 % from 0 to 100 C. */
const SPECIFIC_HEAT = 4190;

const density = (celsius: number): number =>
  1000 * (1 - ((celsius + 288.9414) * (celsius - 3.9863) ** 2) / (508929.2 * (celsius + 68.12963)));

/**
 * Density, viscosity, conductivity, expansion and Prandtl number of liquid water at one atmosphere.
 *
 * mu = sum a (T / 300)^b and k = sum c (T / 300)^d over four terms each; density from a rational fit in C.
 * temperature [K]. Valid from 0 to 100 C.
 * Source: viscosity and conductivity, IAPWS SR6-08(2011) on water at 0.1 MPa, constants from memory and
 * confirmed against 853.7 uPa s and 0.6095 W/m K at 300 K; density, Gill 1982 form of Kell's equation.
 * @example waterProperties(300).conductivity // 0.60949
 */
export function waterProperties(temperature: number): WaterProperties {
  const r = temperature / 300;
  const viscosity = 1e-6 * (280.68 * r ** -1.9 + 511.45 * r ** -7.7 + 61.131 * r ** -19.6 + 0.45903 * r ** -40);
  const conductivity = 1.663 * r ** -1.15 - 1.7781 * r ** -3.4 + 1.1567 * r ** -6 - 0.432115 * r ** -7.6;
  const celsius = temperature - 273.15;
  const rho = density(celsius);
  return {
    density: rho,
    viscosity,
    conductivity,
    expansion: (density(celsius - 0.5) - density(celsius + 0.5)) / rho,
    prandtl: (viscosity * SPECIFIC_HEAT) / conductivity,
  };
}
