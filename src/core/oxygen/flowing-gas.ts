import { isotherm, OXYGEN_GAS_CONSTANT, oxygenViscosity, type Isotherm } from './oxygen-state.ts';

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
  return flowingOn(isotherm(temperature), pressure);
}

/** The same on an isotherm already at hand. */
export function flowingOn(oxygen: Isotherm, pressure: number): FlowingGas {
  const { temperature } = oxygen;
  const { Z, speedOfSound, density } = oxygen.state(oxygen.density(pressure));
  const zrt = Z * OXYGEN_GAS_CONSTANT * temperature;
  return { zrt, viscosity: oxygenViscosity(temperature, density), exponent: speedOfSound ** 2 / zrt };
}
