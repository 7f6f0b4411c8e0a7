import * as messages from '../messages.ts';
import { GRAVITY } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { integrate } from './integrate.ts';
import { checkOxygenRange, isotherm, OXYGEN_RANGE, oxygenViscosity } from './oxygen-state.ts';

/** The steel round the gas. */
export interface CylinderWall {
  /** Steel over water volume [kg/m3]. */
  readonly massPerVolume: number;
  /** Inside diameter [m]. */
  readonly diameter: number;
  /** Specific heat [J/kg K]. */
  readonly specificHeat: number;
  /** Factor on the natural convection inside; 1 is the correlation. */
  readonly insideFactor: number;
  /** Heat transfer outside, air and radiation [W/m2 K]. */
  readonly outsideFilm: number;
}

export interface CylinderState {
  /** Oxygen in it [kg]. */
  readonly mass: number;
  /** Absolute pressure [Pa]. */
  readonly pressure: number;
  /** Of the gas [K]. */
  readonly temperature: number;
  /** Of the steel [K]. */
  readonly wall: number;
}

export interface Draw {
  /** Water volume of one cylinder [m3]. */
  readonly volume: number;
  readonly wall: CylinderWall;
  /** Absolute pressure at the start [Pa]. */
  readonly pressure: number;
  /** Gas, steel and air at the start, and the air throughout [K]. */
  readonly temperature: number;
  /** Absolute pressure [Pa] at which the draw ends. */
  readonly leftover: number;
  /** Flow out of this one cylinder [kg/s] as a function of its absolute pressure [Pa]. */
  readonly flow: (pressure: number) => number;
  /** Longest time of the draw [s]; absent: until the leftover pressure. */
  readonly time?: number;
}

export interface Drawn extends CylinderState {
  /** [s] */
  readonly time: number;
  /** Oxygen drawn [kg]. */
  readonly drawn: number;
  /** Whether the leftover pressure was reached. */
  readonly starved: boolean;
}

/** Prandtl number of a diatomic gas, 4 k / (9 k - 5) with k = 7/5: Eucken's relation (1913). */
const PRANDTL = 14 / 19;

/**
 * Nusselt number of natural convection at a vertical wall, on its height:
 * (0.825 + 0.387 Ra^(1/6) / (1 + (0.492 / Pr)^(9/16))^(8/27))^2. Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323.
 */
function nusseltWall(rayleigh: number): number {
  return (0.825 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.492 / PRANDTL) ** (9 / 16)) ** (8 / 27)) ** 2;
}

/**
 * A cylinder drawn fast: pressure, temperatures and content when the draw ends.
 *
 * Gas, lumped: m cv dT/dt = Q - mdot T (dp/dT)_rho / rho, the energy balance of an open volume with the enthalpy
 * leaving; Q = h A (Tw - T) by natural convection inside. Steel, lumped: M c dTw/dt = h_o A (Ta - Tw) - Q.
 * Real gas throughout. Steps controlled to 1 mK.
 *
 * Range: start at 250 to 350 K, to 30 MPa; the gas may cool to the end of the equation. The gas is taken as mixed:
 * in a standing cylinder it layers, so a reading may lag a little.
 * Sources: energy balance; equation of state as `isotherm`; Churchill and Chu 1975.
 */
export function drawCylinder(draw: Draw): Drawn {
  const { volume, wall, temperature: air } = draw;
  if (!(volume > 0)) throw messages.blankOrZero('water volume');
  checkOxygenRange(air, draw.pressure);
  const section = (Math.PI / 4) * wall.diameter ** 2;
  const height = volume / section;
  const area = Math.PI * wall.diameter * height + 2 * section;
  const steel = wall.massPerVolume * volume * wall.specificHeat;
  const full = volume * isotherm(air).density(draw.pressure);

  const pressureOf = (mass: number, temperature: number): number => isotherm(temperature).pressure(mass / volume);
  const rates = (_: number, [mass, gas, steelTemperature]: readonly number[]): readonly number[] => {
    if (!(mass! > 0 && gas! >= OXYGEN_RANGE.gasOnly && gas! <= OXYGEN_RANGE.equationHottest)) return [NaN, NaN, NaN];
    const density = mass! / volume;
    const { cv, cp, pressure, pressureSlope } = isotherm(gas!).state(density);
    const flow = draw.flow(pressure);
    const viscosity = oxygenViscosity(gas!, density);
    const difference = steelTemperature! - gas!;
    const conductivity = (viscosity * cp) / PRANDTL;
    const rayleigh = ((GRAVITY / gas!) * Math.abs(difference) * height ** 3 * density ** 2 * PRANDTL) / viscosity ** 2;
    const inside = (wall.insideFactor * nusseltWall(rayleigh) * conductivity) / height;
    const heat = inside * area * difference;
    return [
      -flow,
      (heat - (flow * gas! * pressureSlope) / density) / (mass! * cv),
      (wall.outsideFilm * area * (air - steelTemperature!) - heat) / steel,
    ];
  };

  const first = draw.flow(draw.pressure);
  const longest = draw.time ?? (first > 0 ? (20 * full) / first : 0);
  const coldest = OXYGEN_RANGE.gasOnly + 1;
  const end = integrate(rates, [full, air, air], longest, [1e-6 * full, 1e-3, 1e-3], ([mass, gas]) =>
    gas! > coldest ? pressureOf(mass!, gas!) - draw.leftover : 0,
  );
  const [mass, temperature, wallTemperature] = end.y as [number, number, number];
  if (end.stopped && temperature <= coldest + 0.1) throw messages.drawnTooFast();
  if (!end.stopped && end.time < longest) throw messages.drawnTooSlowly(showQuantity(end.time, 'hours', 'US'));
  return {
    time: end.time,
    mass,
    pressure: pressureOf(mass, temperature),
    temperature,
    wall: wallTemperature,
    drawn: full - mass,
    starved: end.stopped,
  };
}
