import { GRAVITY } from '../units/quantities.ts';
import { airProperties } from './air-properties.ts';
import { nusseltCylinder } from './nusselt-cylinder.ts';

/** Stefan-Boltzmann constant [W/m2 K4], exact by the SI of 2019. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

export interface AirFilm {
  readonly rayleigh: number;
  readonly nusselt: number;
  /** Coefficient of natural convection [W/m2 K]. */
  readonly convection: number;
  /** Coefficient of radiation [W/m2 K]. */
  readonly radiation: number;
}

/**
 * Heat transfer from a horizontal cylinder to still air and surroundings of one temperature.
 *
 * h = Nu k / D with Ra = g (Ts - Ta) D^3 Pr / (Tf nu^2), air at the mean of both temperatures;
 * h_r = emissivity sigma (Ts + Ta) (Ts^2 + Ta^2).
 * diameter [m], surface and ambient [K], emissivity [1]. Valid for Ra up to 1e12 and air up to 1500 K.
 * Source: Churchill & Chu 1975; Stefan-Boltzmann law for a small grey body in large surroundings.
 * Example: 100 mm, 200 C in air at 20 C, emissivity 0.8: 7.63 and 10.77 W/m2 K.
 * @example airFilm(0.1, 473.15, 293.15, 0.8).convection // 7.6313
 */
export function airFilm(diameter: number, surface: number, ambient: number, emissivity: number): AirFilm {
  const film = (surface + ambient) / 2;
  const { viscosity, conductivity, prandtl } = airProperties(film);
  const rayleigh = ((GRAVITY / film) * Math.abs(surface - ambient) * diameter ** 3 * prandtl) / viscosity ** 2;
  const nusselt = nusseltCylinder(rayleigh, prandtl);
  const radiation = emissivity * STEFAN_BOLTZMANN * (surface + ambient) * (surface * surface + ambient * ambient);
  return { rayleigh, nusselt, convection: (nusselt * conductivity) / diameter, radiation };
}
