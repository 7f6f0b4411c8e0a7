/** Properties of still air at one atmosphere. */
export interface AirProperties {
  /** Kinematic viscosity [m2/s]. */
  readonly viscosity: number;
  /** Thermal conductivity [W/m K]. */
  readonly conductivity: number;
  readonly prandtl: number;
}

const COLLISION = [0.431, -0.4623, 0.08406, 0.005341, -0.00331];
/** Specific gas constant of dry air [J/kg K], from 8.314462618 J/mol K and 28.9586 g/mol. */
const GAS = 287.1151;
const ATMOSPHERE = 101325;

/**
 * Viscosity, conductivity and Prandtl number of air at one atmosphere.
 *
 * Dilute-gas equations: eta = 0.0266958 sqrt(M T) / (sigma^2 Omega(T / 103.3)) in uPa s, and
 * k = 1.308 eta + 1.405 tau^-1.1 - 1.036 tau^-0.3 in mW/m K with tau = 132.6312 / T; nu = eta R T / p.
 * cp = 1002.5 + 2.75e-4 (T - 200)^2 J/kg K, a fit that gives the Prandtl number within 0.5 % from 330 to 690 K.
 * temperature [K]. Valid from 200 to 1500 K; the Prandtl number is held above 1000 K.
 * Source: Lemmon & Jacobsen, Int. J. Thermophysics 25 (2004) 21; the density correction is left out (below 0.1 %).
 * @example 1000 * airProperties(300).conductivity // 26.353
 */
export function airProperties(temperature: number): AirProperties {
  const logT = Math.log(temperature / 103.3);
  const omega = Math.exp(COLLISION.reduceRight((sum, b) => sum * logT + b, 0));
  const eta = (0.0266958 * Math.sqrt(28.9586 * temperature)) / (0.36 * 0.36 * omega);
  const tau = 132.6312 / temperature;
  const k = 1.308 * eta + 1.405 * tau ** -1.1 - 1.036 * tau ** -0.3;
  const above = Math.min(temperature, 1000) - 200;
  const cp = 1002.5 + 2.75e-4 * above * above;
  return {
    viscosity: (eta * 1e-6 * GAS * temperature) / ATMOSPHERE,
    conductivity: k * 1e-3,
    prandtl: (eta * cp * 1e-3) / k,
  };
}
