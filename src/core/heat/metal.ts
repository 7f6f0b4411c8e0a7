/** What a metal does with heat, in tables over its heat content: straight lines between equal steps, the end slopes beyond. */
export interface MetalTable {
  /** Heat content where the tables begin, and their step [J/kg]. */
  readonly from: number;
  readonly step: number;
  /** Temperature [K], rising. */
  readonly temperatures: Float64Array;
  /** Conductivity [W/m K]. */
  readonly conductivities: Float64Array;
}

export interface Metal extends MetalTable {
  /** Density [kg/m3], constant: the mesh does not grow. */
  readonly density: number;
}

/** Laws over temperature [K]. */
export interface MetalLaws {
  /** Heat content [J/kg], rising. */
  readonly enthalpy: (temperature: number) => number;
  /** Its slope [J/kg K]. */
  readonly specificHeat: (temperature: number) => number;
  /** Conductivity [W/m K]. */
  readonly conductivity: (temperature: number) => number;
}

/**
 * Tables of so many parts from one temperature [K] to another. In steps of heat content a latent peak has as many places as its
 * heat asks for.
 */
export function metalTable(
  { enthalpy, specificHeat, conductivity }: MetalLaws,
  coldest: number,
  hottest: number,
  parts: number,
): MetalTable {
  const from = enthalpy(coldest);
  const step = (enthalpy(hottest) - from) / parts;
  const temperatures = new Float64Array(parts + 1);
  let t = coldest;
  for (let i = 0; i <= parts; i++) {
    // Newton's method from the place before.
    for (let k = 0; k < 3; k++) t += (from + i * step - enthalpy(t)) / specificHeat(t);
    temperatures[i] = t;
  }
  return { from, step, temperatures, conductivities: temperatures.map((x) => conductivity(x)) };
}

/** A metal of constant specific heat [J/kg K] and conductivity [W/m K]. */
export const plainMetal = (density: number, specificHeat: number, conductivity: number): Metal => ({
  density,
  from: 0,
  step: specificHeat,
  temperatures: Float64Array.of(0, 1),
  conductivities: Float64Array.of(conductivity, conductivity),
});

/** Heat content at a temperature [J/kg], by the table. */
export function contentAt({ from, step, temperatures }: MetalTable, temperature: number): number {
  let i = 0;
  while (i + 2 < temperatures.length && temperatures[i + 1]! <= temperature) i++;
  return from + step * (i + (temperature - temperatures[i]!) / (temperatures[i + 1]! - temperatures[i]!));
}
