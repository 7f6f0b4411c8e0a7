import * as messages from '../messages.ts';
import { EQUATION, IDEAL, RESIDUAL, VISCOSITY } from './oxygen-coefficients.ts';

/**
 * Where the project uses the equation: gas from 222 K (-60 F, as cold as crews work) to 350 K, and to 30 MPa absolute. What users
 * enter is checked against this. The published equation runs from the freezing line to 300 K and to 80 MPa; above 300 K it is
 * an extrapolation of the same equation (the ideal-gas part dominates there). Gas that gets colder still while a cylinder is
 * drawn is inside the published range, so `isotherm` itself takes any temperature above `gasOnly`, where no liquid can form.
 */
export const OXYGEN_RANGE = {
  coldest: 222,
  hottest: 350,
  highest: 30e6,
  gasOnly: 160,
  equationHottest: 400,
  equationHighest: 80e6,
} as const;

/** Specific gas constant of oxygen in the equation [J/kg K]. */
export const OXYGEN_GAS_CONSTANT = EQUATION.gasConstant / EQUATION.molarMass;

/** Oxygen at one temperature and density. Enthalpy and energy have an arbitrary zero: only differences count. */
export interface OxygenState {
  /** [K] */
  readonly temperature: number;
  /** [Pa], absolute */
  readonly pressure: number;
  /** [kg/m3] */
  readonly density: number;
  /** Compression factor p / (rho R T). */
  readonly Z: number;
  /** [J/kg] */
  readonly enthalpy: number;
  /** [J/kg] */
  readonly internalEnergy: number;
  /** [J/kg K] */
  readonly cv: number;
  /** [J/kg K] */
  readonly cp: number;
  /** [m/s] */
  readonly speedOfSound: number;
  /** (dp/dT) at constant density [Pa/K]. */
  readonly pressureSlope: number;
}

/** The equation of state at one temperature, with its temperature powers worked out once. */
export interface Isotherm {
  readonly temperature: number;
  /** Density [kg/m3] at an absolute pressure [Pa]. */
  density(pressure: number): number;
  /** Absolute pressure [Pa] at a density [kg/m3]. */
  pressure(density: number): number;
  /** Compression factor at an absolute pressure [Pa]. */
  Z(pressure: number): number;
  /** All properties at a density [kg/m3]. */
  state(density: number): OxygenState;
}

const GROUPS = [0, 2, 4] as const;
const HIGHEST_POWER = 10;
const WIDTH = HIGHEST_POWER + 1;
const CRITICAL_MASS_DENSITY = EQUATION.criticalDensity * EQUATION.molarMass;
/** Bound of the search for density, reduced: beyond the liquid at its triple point (Stewart, Jacobsen and Wagner 1991). */
const DENSEST = 3.2;
const MOST_HALF_POWERS = 2 * Math.max(...RESIDUAL.map((row) => row[2]));

/** Powers of tau in steps of a half, from -1/2 upwards: index 2 t + 1. */
function halfPowers(tau: number): Float64Array {
  const root = Math.sqrt(tau);
  const powers = new Float64Array(MOST_HALF_POWERS + 2);
  let power = 1 / root;
  for (let i = 0; i < powers.length; i++, power *= root) powers[i] = power;
  return powers;
}

/** Rows of RESIDUAL laid flat, so that the loops below touch numbers only: where a term's coefficient goes, which power of tau it takes. */
const SLOTS = Int32Array.from(RESIDUAL, ([, d, , l]) => GROUPS.indexOf(l) * WIDTH + d);
const POWERS = Int32Array.from(RESIDUAL, ([, , t]) => 2 * t + 1);
const VALUE = Float64Array.from(RESIDUAL, ([n]) => n);
/** For tau d/d(tau) and tau^2 d2/d(tau)2. */
const ONCE_IN_TAU = Float64Array.from(RESIDUAL, ([n, , t]) => n * t);
const TWICE_IN_TAU = Float64Array.from(RESIDUAL, ([n, , t]) => n * t * (t - 1));

/** Coefficients of the three polynomials in delta, from those of the terms. */
function polynomials(powers: Float64Array, terms: Float64Array): Float64Array {
  const c = new Float64Array(GROUPS.length * WIDTH);
  for (let i = 0; i < terms.length; i++) c[SLOTS[i]!]! += terms[i]! * powers[POWERS[i]!]!;
  return c;
}

interface Derivatives {
  value: number;
  /** delta d/d(delta). */
  first: number;
  /** delta^2 d2/d(delta)2. */
  second: number;
}

/** A sum of three polynomials times 1, exp(-delta^2) and exp(-delta^4), with so many of its derivatives in delta; the others mean nothing. */
function evaluate(c: Float64Array, delta: number, out: Derivatives, derivatives = 2): void {
  const square = delta * delta;
  out.value = 0;
  out.first = 0;
  out.second = 0;
  add(c, 0, delta, 0, 0, out, derivatives);
  add(c, WIDTH, delta, 2, square, out, derivatives);
  add(c, 2 * WIDTH, delta, 4, square * square, out, derivatives);
}

/** Adds the polynomial that begins at a slot, times exp(-y) with y = delta^l. Horner's rule for it and its derivatives. */
function add(
  c: Float64Array,
  start: number,
  delta: number,
  l: number,
  y: number,
  out: Derivatives,
  derivatives: number,
): void {
  let p = 0;
  let dp = 0;
  let ddp = 0;
  for (let d = HIGHEST_POWER; d > 0; d--) {
    const term = c[start + d]!;
    p = p * delta + term;
    if (derivatives === 0) continue;
    dp = dp * delta + d * term;
    if (derivatives === 2) ddp = ddp * delta + d * (d - 1) * term;
  }
  const e = l === 0 ? delta : delta * Math.exp(-y);
  const x = l * y;
  out.value += e * p;
  out.first += e * (dp - x * p);
  out.second += e * (ddp - 2 * x * dp + (x * x - x * (l - 1)) * p);
}

const IDEAL_TERMS = IDEAL.n.map((n, i) => ({ n, t: IDEAL.t[i]! }));

/** tau d/d(tau) and tau^2 d2/d(tau)2 of the ideal-gas part. */
function idealPart(tau: number): { readonly first: number; readonly second: number } {
  let first: number = IDEAL.logTau;
  let second: number = -IDEAL.logTau;
  for (const { n, t } of IDEAL_TERMS) {
    const x = t * tau;
    const grown = Math.expm1(x);
    first += (n * x) / grown;
    second -= (n * x * x * (grown + 1)) / (grown * grown);
  }
  return { first, second };
}

function within(argument: string, x: number, low: number, high: number, unit: string): void {
  if (!(x >= low)) throw messages.tooLow(argument, `${messages.shown(x)} ${unit}`, `${low} ${unit}`);
  if (x > high) throw messages.tooHigh(argument, `${messages.shown(x)} ${unit}`, `${high} ${unit}`);
}

/** Refuses a temperature [K] or absolute pressure [Pa] that a user gave outside 250 to 350 K and 30 MPa. */
export function checkOxygenRange(temperature: number, pressure: number): void {
  within('temperature', temperature, OXYGEN_RANGE.coldest, OXYGEN_RANGE.hottest, 'K');
  within('pressure', pressure, 0, OXYGEN_RANGE.highest, 'Pa absolute');
}

/**
 * The reference equation of state for oxygen at one temperature, for repeated use.
 *
 * Helmholtz energy a / (R T) = ideal(tau, delta) + residual(tau, delta), tau = Tc / T, delta = rho / rho_c;
 * Z = 1 + delta d(residual)/d(delta). Density from pressure by Newton's method kept between bounds (the pressure
 * rises with density everywhere above the critical temperature, so there is one root).
 *
 * temperature [K]: 250 to 350 for what users enter (see OXYGEN_RANGE); the function takes 160 to 400.
 * pressure [Pa]: absolute, 0 to 80 MPa. Published uncertainty: density 0.1 %, heat
 * capacities 2 %, speed of sound 1 %, to 300 K and 80 MPa.
 *
 * Source: Schmidt and Wagner 1985; Stewart, Jacobsen and Wagner 1991.
 * Example: isotherm(300).density(15e6) is 203.58 kg/m3.
 */
export function isotherm(temperature: number): Isotherm {
  if (latest?.temperature === temperature) return latest;
  within('temperature', temperature, OXYGEN_RANGE.gasOnly, OXYGEN_RANGE.equationHottest, 'K');
  const tau = EQUATION.criticalTemperature / temperature;
  const powers = halfPowers(tau);
  const c = polynomials(powers, VALUE);
  const rt = OXYGEN_GAS_CONSTANT * temperature;
  const scale = rt * CRITICAL_MASS_DENSITY;
  const work: Derivatives = { value: 0, first: 0, second: 0 };

  const density = (pressure: number): number => {
    within('pressure', pressure, 0, OXYGEN_RANGE.equationHighest, 'Pa absolute');
    const target = pressure / scale;
    let delta = target;
    let low = 0;
    let high: number = DENSEST;
    for (let i = 0; i < 60; i++) {
      evaluate(c, delta, work);
      const miss = delta * (1 + work.first) - target;
      if (miss > 0) high = delta;
      else low = delta;
      let next = delta - miss / (1 + 2 * work.first + work.second);
      if (!(next >= low && next <= high)) next = (low + high) / 2;
      const step = Math.abs(next - delta);
      delta = next;
      // Newton doubles the correct digits: a step of 1e-7 leaves an error near 1e-14.
      if (step <= 1e-7 * delta) break;
    }
    return delta * CRITICAL_MASS_DENSITY;
  };

  const pressure = (rho: number): number => {
    const delta = rho / CRITICAL_MASS_DENSITY;
    evaluate(c, delta, work, 1);
    return scale * delta * (1 + work.first);
  };

  const Z = (p: number): number => (p === 0 ? 1 : p / (density(p) * rt));

  let caloric:
    | { readonly once: Float64Array; readonly twice: Float64Array; readonly ideal: ReturnType<typeof idealPart> }
    | undefined;
  const state = (rho: number): OxygenState => {
    caloric ??= {
      once: polynomials(powers, ONCE_IN_TAU),
      twice: polynomials(powers, TWICE_IN_TAU),
      ideal: idealPart(tau),
    };
    const { ideal } = caloric;
    const delta = rho / CRITICAL_MASS_DENSITY;
    const once: Derivatives = { value: 0, first: 0, second: 0 };
    const twice: Derivatives = { value: 0, first: 0, second: 0 };
    evaluate(c, delta, work);
    evaluate(caloric.once, delta, once, 1);
    evaluate(caloric.twice, delta, twice, 0);
    const factor = 1 + work.first;
    const energy = ideal.first + once.value;
    const heat = -(ideal.second + twice.value);
    const thermal = 1 + work.first - once.first;
    const stiffness = 1 + 2 * work.first + work.second;
    const cp = heat + (thermal * thermal) / stiffness;
    return {
      temperature,
      pressure: scale * delta * factor,
      density: rho,
      Z: factor,
      enthalpy: rt * (factor + energy),
      internalEnergy: rt * energy,
      cv: OXYGEN_GAS_CONSTANT * heat,
      cp: OXYGEN_GAS_CONSTANT * cp,
      speedOfSound: Math.sqrt((rt * stiffness * cp) / heat),
      pressureSlope: OXYGEN_GAS_CONSTANT * rho * thermal,
    };
  };

  latest = { temperature, density, pressure, Z, state };
  return latest;
}

/** The one asked for last: a cylinder that is drawn asks for the state and then the pressure at one temperature. */
let latest: Isotherm | undefined;

/**
 * Density of oxygen [kg/m3] at a temperature [K] and an absolute pressure [Pa]: see `isotherm`.
 *
 * @example oxygenDensity(300, 10e6) // 134.6
 */
export function oxygenDensity(temperature: number, pressure: number): number {
  return isotherm(temperature).density(pressure);
}

/** All properties of oxygen at a temperature [K] and an absolute pressure [Pa]: see `isotherm`. */
export function oxygenState(temperature: number, pressure: number): OxygenState {
  const line = isotherm(temperature);
  return line.state(line.density(pressure));
}

/**
 * Viscosity of oxygen [Pa s] at a temperature [K] and a density [kg/m3].
 *
 * eta = dilute(T) + residual(tau, delta). Range and inputs as `isotherm`.
 * Source: Lemmon and Jacobsen 2004. Example: 300 K, 0 kg/m3: 20.6307e-6 Pa s.
 *
 * @example oxygenViscosity(300, 1.3) * 1e6 // 20.65
 */
export function oxygenViscosity(temperature: number, density: number): number {
  const tau = EQUATION.criticalTemperature / temperature;
  const delta = density / CRITICAL_MASS_DENSITY;
  const x = Math.log(temperature / VISCOSITY.epsilonOverK);
  const [a0, a1, a2, a3, a4] = VISCOSITY.collision;
  const omega = Math.exp(a0 + x * (a1 + x * (a2 + x * (a3 + x * a4))));
  let eta = (VISCOSITY.dilute * Math.sqrt(1e3 * EQUATION.molarMass * temperature)) / (VISCOSITY.sigma ** 2 * omega);
  for (const [n, d, t, l] of VISCOSITY.residual)
    eta += n * delta ** d * tau ** t * (l === 0 ? 1 : Math.exp(-(delta ** l)));
  return eta;
}
