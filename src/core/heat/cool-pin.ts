import { airFilm } from './air-film.ts';
import { boreEmissivity } from './bore-emissivity.ts';
import { mixed, tabulated, type FluxLaw } from './flux-law.ts';
import type { HeatGrid, HeatPhysics } from './heat-physics.ts';
import type { BurnPass } from './heat-into-wall.ts';
import { layerMean } from './pin-temperatures.ts';
import { metalTable, type Metal, type MetalTable } from './metal.ts';
import { radialConduction, type Stage } from './radial-conduction.ts';
import { radialMesh, type RadialMesh } from './radial-mesh.ts';
import { steelConductivity } from './steel-conductivity.ts';
import { steelEnthalpy } from './steel-enthalpy.ts';
import { steelSpecificHeat } from './steel-specific-heat.ts';
import { waterLaw } from './water-film.ts';

export type CoolingMethod = 'air' | 'water';

/** A pin in its boss, all in m. `boss` is the boss's outside diameter, `hole` the bore burnt out. */
export interface PinInBoss {
  readonly diameter: number;
  readonly hole: number;
  readonly boss: number;
  readonly length: number;
}

export interface CoolPin {
  readonly pin: PinInBoss;
  readonly passes: readonly BurnPass[];
  readonly method: CoolingMethod;
  /** Where along the pin: 0 where the burning started, 1 where it ended, which is hottest when it ends. */
  readonly position: number;
  /** Cooling ends when no part of the pin's ring is hotter [K]; leave out to cool for `duration`. */
  readonly target?: number;
  /** With it, cooling also goes on until the pin's mean is no more than this above the boss's [K]. */
  readonly evenness?: number;
  /** Longest cooling followed [s]. */
  readonly duration: number;
}

export interface CooledPin {
  readonly mesh: RadialMesh;
  /** Time from the end of burning [s] at which the run ended. */
  readonly time: number;
  readonly reached: boolean;
  readonly temperatures: Float64Array;
  /** Heat per length [J/m]: the passes', and what the wall took. */
  readonly heatOffered: number;
  readonly heatTaken: number;
  /** Heat stored less what went in and out, over what the wall took. */
  readonly imbalance: number;
  readonly steps: number;
}

/** Told of each step, its time [s] counted from the end of burning. Copy what is to be kept of the temperatures. */
export type CoolingWatch = (time: number, temperatures: Float64Array) => void;

/** The table of a law of air reaches from ambient to beyond any wall temperature [K]. */
const TABLE_TOP = 2400;
const TABLE_STEP = 15;

/**
 * The wall takes its heat evenly over the pass, but less in this last stretch below the melting point [K] and
 * none at it: metal that melts is blown out and the wall moves outward instead of getting hotter.
 */
const MELTING_BAND = 100;

/** Times the tolerance by which steps may be off while it burns. */
const BURNING_SLACK = 10;

/** Coldest and hottest of the table of steel [K], and its parts: the heat it holds is within that of 0.11 K. */
const STEEL = { coldest: 273.15, hottest: 1873.15, parts: 160 } as const;
let tableOfSteel: MetalTable | undefined;

/** Carbon steel, its table made when it is first asked for. */
function steel(density: number): Metal {
  tableOfSteel ??= metalTable(
    { enthalpy: steelEnthalpy, specificHeat: steelSpecificHeat, conductivity: steelConductivity },
    STEEL.coldest,
    STEEL.hottest,
    STEEL.parts,
  );
  return { ...tableOfSteel, density };
}

/**
 * Heating of one section of a pin and its boss while the bore is burnt out, and its cooling afterwards.
 *
 * The burning front runs along the pin. A section at share x of the length is heated by pass p while the flame's
 * zone z passes it, dwell = duration z / L, starting x (duration - dwell) after the pass began; before and after it
 * loses heat to air. Sections differ only in when they were heated: heat along the axis is left out, except that the
 * end faces, lying closer to a short pin, are spread over its length.
 * All in SI. Geometry 0 < hole < diameter < boss. Air: natural convection and radiation outside and at the faces, the
 * bore through its mouths. Water: boiling curve in the bore, and on the wet share of the outside and the faces, the rest in air.
 * Source: radial-conduction.ts, air-film.ts, bore-emissivity.ts, water-film.ts; steel after EN 1993-1-2:2005.
 */
export function coolPin(inputs: CoolPin, physics: HeatPhysics, grid: HeatGrid, watch?: CoolingWatch): CooledPin {
  const { pin, passes, method, position } = inputs;
  const mesh = meshOf(pin, grid, physics.bushing);
  const zone = Math.min(physics.zone, pin.length);
  const still = airLaws(pin, physics);
  const stages: Stage[] = [];
  // Where only the end is asked for, what burning does has long evened out by then.
  const slack = watch ? 1 : BURNING_SLACK;
  const hair = grid.hair ?? (watch ? 0 : grid.tolerance / 10);
  const whileBurning = { ...still, watched: false, slack, coolest: watch ? physics.ambient - hair : -Infinity };
  passes.forEach((pass, p) => {
    const dwell = (pass.duration * zone) / pin.length;
    const next = passes[p + 1];
    const ahead = next ? pass.pause + position * next.duration * (1 - zone / pin.length) : 0;
    const rest = (1 - position) * (pass.duration - dwell) + ahead;
    // What an earlier pass heated evens out until the next.
    const spread = next && grid.hasty ? rest : 0;
    const heated = dwell + spread;
    const bore = heatingLaw(pass.heat / (Math.PI * pin.hole * heated), physics.meltingPoint);
    stages.push({ ...whileBurning, duration: heated, bore }, { ...whileBurning, duration: rest - spread });
  });
  const burning = stages.reduce((sum, stage) => sum + stage.duration, 0);
  const sink = method === 'water' ? Math.min(physics.water, physics.ambient) : physics.ambient;
  stages.push({
    duration: inputs.duration,
    coolest: sink - hair,
    ...(method === 'water' ? waterLaws(pin, physics, still) : still),
  });

  const { target, evenness } = inputs;
  const ahead = (t: Float64Array): number => layerMean(mesh, t, 0) - layerMean(mesh, t, 1);
  const hottest = (t: Float64Array): number => {
    let most = t[1]!;
    for (let i = 2; i <= grid.pinCells; i++) if (t[i]! > most) most = t[i]!;
    return most;
  };
  let heatTaken = 0;
  const result = radialConduction(
    mesh,
    steel(physics.density),
    physics.ambient,
    stages,
    { contact: physics.contact, tolerance: grid.tolerance, hasty: grid.hasty ?? false },
    {
      step: ({ time, temperatures, throughBore }) => {
        if (time <= burning) heatTaken = throughBore;
        watch?.(time - burning, temperatures);
      },
      ...(target !== undefined && {
        until: (t) => Math.max(hottest(t) - target, evenness === undefined ? -Infinity : ahead(t) - evenness),
      }),
    },
  );
  return {
    mesh,
    time: Math.max(0, result.time - burning),
    reached: result.stopped,
    temperatures: result.temperatures,
    heatOffered: passes.reduce((sum, pass) => sum + pass.heat, 0),
    heatTaken,
    imbalance: (result.stored - result.throughBore + result.throughOutside + result.throughEnds) / heatTaken,
    steps: result.steps,
  };
}

/** Cells of a bushing. */
const BUSHING_CELLS = 3;

/** Rings of pin and boss. A bushing belongs to the boss, in which it is pressed; what it adds is a joint that heat has to cross. */
function meshOf({ hole, diameter, boss }: PinInBoss, grid: HeatGrid, bushing = 0): RadialMesh {
  const pin = { inner: hole / 2, outer: diameter / 2, cells: grid.pinCells };
  const seat = diameter / 2 + bushing;
  const rest = { inner: seat, outer: boss / 2, cells: grid.bossCells, graded: 'outward' } as const;
  if (!(bushing > 0)) return radialMesh([pin, rest]);
  const mesh = radialMesh([pin, { inner: diameter / 2, outer: seat, cells: BUSHING_CELLS }, rest]);
  const whole = { inner: diameter / 2, outer: boss / 2, cells: BUSHING_CELLS + grid.bossCells };
  return { ...mesh, layers: [pin, whole] };
}

/** Flux of a pass into the wall, fading as the wall nears its melting point. */
function heatingLaw(flux: number, meltingPoint: number): FluxLaw {
  const fade = (surface: number): number => (meltingPoint - surface) / MELTING_BAND;
  return {
    flux: (surface) => -flux * Math.min(1, Math.max(0, fade(surface))),
    slope: (surface) => (fade(surface) > 0 && fade(surface) < 1 ? flux / MELTING_BAND : 0),
  };
}

type Laws = Pick<Stage, 'bore' | 'outside' | 'ends'>;

/** The laws made last, and of what: many cases of one pin differ in nothing that these rest on. */
let lastLaws: { readonly of: string; readonly laws: Laws } | undefined;

function airLaws(pin: PinInBoss, { ambient, emissivity }: HeatPhysics): Laws {
  const of = [pin.boss, pin.hole, pin.length, ambient, emissivity].join(' ');
  if (lastLaws?.of === of) return lastLaws.laws;
  const law = (diameter: number, emits: number): FluxLaw =>
    tabulated(
      (surface) => {
        const { convection, radiation } = airFilm(diameter, surface, ambient, emits);
        return (convection + radiation) * (surface - ambient);
      },
      ambient,
      TABLE_TOP,
      TABLE_STEP,
    );
  const outside = law(pin.boss, emissivity);
  const laws: Laws = {
    bore: law(pin.hole, boreEmissivity(pin.hole, pin.length, emissivity)),
    outside,
    ends: { law: outside, length: pin.length },
  };
  lastLaws = { of, laws };
  return laws;
}

function waterLaws(pin: PinInBoss, physics: HeatPhysics, dry: Laws): Laws {
  const outside = mixed(physics.wetShare, waterLaw(pin.boss, physics), dry.outside);
  return { bore: waterLaw(pin.hole, physics), outside, ends: { law: outside, length: pin.length } };
}
