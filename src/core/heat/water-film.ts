import { GRAVITY } from '../units/quantities.ts';
import { BOILING_POINT, criticalHeatFlux, filmBoilingFlux, nucleateBoilingFlux } from './boiling.ts';
import { switched, tabulated, type FluxLaw } from './flux-law.ts';
import { nusseltCylinder } from './nusselt-cylinder.ts';
import { waterProperties } from './water-properties.ts';

/** What decides the heat a wet wall gives to water. */
export interface Wetting {
  /** Temperature of the water [K], below boiling. */
  readonly water: number;
  /** Surface factor C_sf of nucleate boiling. */
  readonly surfaceFactor: number;
  /** Largest nucleate flux over that of still boiling water; cold and running water raise it. */
  readonly fluxFactor: number;
  /** Wall temperature above which a film of steam stands [K]. */
  readonly filmLimit: number;
  readonly emissivity: number;
}

/** Natural convection from a wall to water below its boiling point [W/m2]. */
function convectionFlux(surface: number, diameter: number, water: number): number {
  const difference = surface - water;
  if (difference === 0) return 0;
  const { density, viscosity, conductivity, expansion, prandtl } = waterProperties(
    (Math.min(surface, BOILING_POINT) + water) / 2,
  );
  const nu = viscosity / density;
  const rayleigh = (GRAVITY * Math.max(expansion, 0) * Math.abs(difference) * diameter ** 3 * prandtl) / nu ** 2;
  return (nusseltCylinder(rayleigh, prandtl) * conductivity * difference) / diameter;
}

/** Steps of the tables [K] and the wall temperature they reach [K]. */
const WET_STEP = 2;
const FILM_STEP = 20;
const TABLE_TOP = 2400;

/**
 * Heat flux from a wall under water over its temperature: the boiling curve of a wall that cools.
 *
 * Below boiling: natural convection. Nucleate: Rohsenow's flux on top of convection to the cold water, up to the
 * critical flux times `fluxFactor`; a hotter wall stays at that flux as long as it is wet. From `filmLimit` up a film
 * of steam keeps the water off: film boiling with radiation, plus convection from the film to the cold water.
 * The fall between the peak and the film is left out, since a cooling wall jumps over it when the film breaks.
 * diameter [m]; the law takes the wall temperature [K] and gives [W/m2]. It has one jump, at `filmLimit`.
 * Valid for open water at one atmosphere that keeps the wall covered; not for steam locked in a bore closed at an end.
 * Source: the parts as named in boiling.ts; their joining is this project's.
 * @example waterLaw(0.1, { water: 293.15, surfaceFactor: 0.013, fluxFactor: 1, filmLimit: 650,
 *   emissivity: 0.8 }).flux(473.15) / 1e6 // 1.1056
 */
export function waterLaw(diameter: number, wetting: Wetting): FluxLaw {
  const { water, surfaceFactor, fluxFactor, filmLimit, emissivity } = wetting;
  const critical = fluxFactor * criticalHeatFlux();
  const toColdWater = convectionFlux(BOILING_POINT, diameter, water);
  const nucleate = (surface: number): number =>
    convectionFlux(surface, diameter, water) +
    (surface > BOILING_POINT ? nucleateBoilingFlux(surface - BOILING_POINT, surfaceFactor) : 0);
  // The flux rises with the wall temperature, so the first step at or past the peak is found by halving.
  let below = -1;
  let peak = Math.ceil((filmLimit - water) / WET_STEP);
  while (peak - below > 1) {
    const middle = (below + peak) >> 1;
    if (nucleate(water + middle * WET_STEP) < critical) below = middle;
    else peak = middle;
  }
  const wet = tabulated(
    (surface) => Math.min(nucleate(surface), critical),
    water,
    water + (peak + 1) * WET_STEP,
    WET_STEP,
  );
  const film = tabulated(
    (surface) => filmBoilingFlux(surface, diameter, emissivity) + toColdWater,
    filmLimit,
    TABLE_TOP,
    FILM_STEP,
  );
  return switched(filmLimit, wet, film);
}
