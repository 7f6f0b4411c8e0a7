/** What the heating and cooling of a pin rests on besides its geometry. All SI, temperatures in K. */
export interface HeatPhysics {
  /** Air, surroundings, and pin and boss before the work [K]. */
  readonly ambient: number;
  /** Cooling water [K]. */
  readonly water: number;
  /** Emissivity of scaled steel. */
  readonly emissivity: number;
  /** Conductance of the seized joint between pin and boss [W/m2 K]. */
  readonly contact: number;
  /** Share of the boss's outside and end faces that water cooling keeps wet; the bore always is. */
  readonly wetShare: number;
  /** Surface factor C_sf of nucleate boiling. */
  readonly surfaceFactor: number;
  /** Largest nucleate flux over that of still boiling water. */
  readonly fluxFactor: number;
  /** Wall temperature above which a film of steam stands [K]. */
  readonly filmLimit: number;
  /** Melting point of the pin: its wall gets no hotter [K]. */
  readonly meltingPoint: number;
  /** Density of pin and boss [kg/m3]. */
  readonly density: number;
  /** Length of wall that the rod's flame and its slag heat at a time [m]. */
  readonly zone: number;
  /** Wall of a steel bushing round the pin, which lies in the boss with one more joint; 0 or none where there is none [m]. */
  readonly bushing?: number;
}

/** How finely the conduction is solved. */
export interface HeatGrid {
  readonly pinCells: number;
  readonly bossCells: number;
  /** Error allowed in one step [K]. */
  readonly tolerance: number;
  /** How far below all that cools it an error may bring a cell [K]; where left out, not at all if the steps are looked at. */
  readonly hair?: number;
  /** `hasty` of the conduction; what an earlier pass heats is spread evenly over the time until the next. */
  readonly hasty?: boolean;
}

/**
 * Cooling times within 3 %, half of them within 1 %, of a grid and steps many times finer, in a few milliseconds; bosses up to 20 pin
 * diameters. Water, which boils in the bore, asks for finer cells.
 */
export const ESTIMATE_GRIDS = {
  air: { pinCells: 5, bossCells: 7, tolerance: 1.5 },
  water: { pinCells: 8, bossCells: 10, tolerance: 1.5 },
} as const satisfies Readonly<Record<string, HeatGrid>>;
