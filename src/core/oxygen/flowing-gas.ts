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
export function flowingOn(oxygen: Isotherm | FlowTable, pressure: number): FlowingGas {
  return 'flowing' in oxygen ? oxygen.flowing(pressure) : worked(oxygen, pressure);
}

function worked(oxygen: Isotherm, pressure: number): FlowingGas {
  const { temperature } = oxygen;
  const { Z, speedOfSound, density } = oxygen.state(oxygen.density(pressure));
  const zrt = Z * OXYGEN_GAS_CONSTANT * temperature;
  return { zrt, viscosity: oxygenViscosity(temperature, density), exponent: speedOfSound ** 2 / zrt };
}

/** An isotherm with its flow properties tabulated, for a search that asks for them again and again. */
export interface FlowTable extends Isotherm {
  flowing(pressure: number): FlowingGas;
}

/** Enough for nine digits to 10 MPa and eleven to 4 MPa: the properties are smooth in pressure. */
const DEGREE = 7;

/** Coefficients of the Chebyshev polynomials through values at the points cos(pi (i + 1/2) / n). */
function chebyshev(values: readonly number[]): readonly number[] {
  const n = values.length;
  return values.map(
    (_, k) =>
      ((k === 0 ? 1 : 2) / n) * values.reduce((sum, v, i) => sum + v * Math.cos((Math.PI * k * (i + 0.5)) / n), 0),
  );
}

/** Clenshaw's sum of Chebyshev polynomials at x from -1 to 1. */
function sumChebyshev(c: readonly number[], x: number): number {
  let b = 0;
  let after = 0;
  for (let k = c.length - 1; k > 0; k--) {
    const next = 2 * x * b - after + c[k]!;
    after = b;
    b = next;
  }
  return x * b - after + c[0]!;
}

/** The flow properties of an isotherm as polynomials from vacuum to an absolute pressure [Pa]; above it they are worked out. A table is given back as it is. */
export function flowTable(oxygen: Isotherm | FlowTable, highest: number): FlowTable {
  if ('flowing' in oxygen) return oxygen;
  const points = Array.from({ length: DEGREE + 1 }, (_, i) =>
    worked(oxygen, (highest / 2) * (1 + Math.cos((Math.PI * (i + 0.5)) / (DEGREE + 1)))),
  );
  const [zrt, viscosity, exponent] = [
    points.map((p) => p.zrt),
    points.map((p) => p.viscosity),
    points.map((p) => p.exponent),
  ].map(chebyshev) as [readonly number[], readonly number[], readonly number[]];
  const flowing = (pressure: number): FlowingGas => {
    if (!(pressure <= highest)) return worked(oxygen, pressure);
    const x = (2 * pressure) / highest - 1;
    return { zrt: sumChebyshev(zrt, x), viscosity: sumChebyshev(viscosity, x), exponent: sumChebyshev(exponent, x) };
  };
  return { ...oxygen, flowing };
}
