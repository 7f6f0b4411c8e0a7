import { checkOxygenRange, isotherm } from './oxygen-state.ts';

/**
 * Absolute pressure [Pa] of the same oxygen in the same cylinder at another temperature [K].
 *
 * The density stays: p2 = p(T2, rho(T1, p1)). The steel's own expansion is left out (below 0.1 %).
 * Range: 250 to 350 K, to 30 MPa. Example: 2200 psig at 70 F reads 1783 psig at 0 F and 2377 at 100 F.
 *
 * @example cylinderGauge(2214.7 * PSI, 294.26, 266.48) / PSI // 1917
 */
export function cylinderGauge(pressure: number, temperature: number, newTemperature: number): number {
  checkOxygenRange(temperature, pressure);
  checkOxygenRange(newTemperature, 0);
  const reading = isotherm(newTemperature).pressure(isotherm(temperature).density(pressure));
  checkOxygenRange(newTemperature, reading);
  return reading;
}
