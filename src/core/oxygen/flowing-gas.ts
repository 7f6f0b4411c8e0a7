import { isotherm, OXYGEN_GAS_CONSTANT, oxygenViscosity } from './oxygen-state.ts';

/** What a flow calculation needs of the gas, taken once at mean conditions. */
export interface FlowingGas {
  /** Z R T with R per kg [J/kg]. */
  readonly zrt: number;
  /** [Pa s] */
  readonly viscosity: number;
  /** Isentropic exponent of the real gas, (d ln p / d ln rho) at constant entropy. */
  readonly exponent: number;
}

/**
 * Oxygen for a flow calculation at a temperature [K] and a mean absolute pressure [Pa].
 *
 * exponent = w^2 / (Z R T) with the speed of sound w; for an ideal gas it is cp / cv. Range as `isotherm`.
 */
export function flowingOxygen(temperature: number, pressure: number): FlowingGas {
  const line = isotherm(temperature);
  const { Z, speedOfSound, density } = line.state(line.density(pressure));
  const zrt = Z * OXYGEN_GAS_CONSTANT * temperature;
  return { zrt, viscosity: oxygenViscosity(temperature, density), exponent: speedOfSound ** 2 / zrt };
}
