import { coolPin, type CoolingMethod, type PinInBoss } from '../heat/cool-pin.ts';
import type { HeatGrid, HeatPhysics } from '../heat/heat-physics.ts';
import type { RadialMesh } from '../heat/radial-mesh.ts';
import type { BurnPass } from '../heat/heat-into-wall.ts';
import { ringSteel, type SteelStrength } from './ring-steel.ts';
import { ringMetal, Rings, type RingLoad, type RingMaterial, type RingState } from './ring-solver.ts';

export interface ShrinkPin {
  readonly pin: PinInBoss;
  readonly passes: readonly BurnPass[];
  readonly method: CoolingMethod;
  /** Hottest part of the pin at which it is pushed [K]. */
  readonly target: number;
  /** How much hotter than the boss the pin may be on the mean when it is pushed [K]. */
  readonly evenness: number;
  /** Longest cooling followed [s]. */
  readonly longest: number;
  /** Interference of the pin before the work, on the diameter [m]; negative is clearance. */
  readonly interference: number;
  readonly pinSteel: SteelStrength;
  readonly bossSteel: SteelStrength;
}

/** How the pin sits at one moment. */
export interface Fit {
  /** Contact pressure [Pa]. */
  readonly pressure: number;
  /** Interference left, on the diameter [m]; negative is clearance. */
  readonly interference: number;
  /** What burning and cooling took off the interference [m]. */
  readonly loosening: number;
}

export interface FitPoint {
  /** From the end of burning, negative while it burns [s]. */
  readonly time: number;
  /** Temperatures of the cells, pin and boss from the inside out [K]. */
  readonly temperatures: ArrayLike<number>;
  /** Contact pressure [Pa]. */
  readonly pressure: number;
  /** Clearance on the diameter [m]. */
  readonly clearance: number;
}

/** Why the pin loosens, or does not. */
export type ShrinkReason = 'pin yielded' | 'boss yielded' | 'pin and boss yielded' | 'stayed elastic' | 'still too hot';

export interface Shrink {
  /** Contact pressure of the bored pin before it is heated [Pa]. */
  readonly pressureBored: number;
  /** Largest contact pressure while hot [Pa]. */
  readonly pressureMost: number;
  /** When the pin has cooled to the target and is even with its boss; time from the end of burning [s]. */
  readonly pushed: Fit & { readonly time: number };
  /** When pin and boss are all at ambient again. */
  readonly cold: Fit;
  readonly reason: ShrinkReason;
  /** Largest equivalent stress over yield strength in pin and boss, 1 where they yielded. */
  readonly pinUtilisation: number;
  readonly bossUtilisation: number;
  readonly history: readonly FitPoint[];
}

/** Loosening within 1 % of itself, or of the interference, of a grid and steps many times finer; bosses up to 30 pin diameters. */
export const SHRINK_GRID: HeatGrid = { pinCells: 22, bossCells: 28, tolerance: 0.3 };

/** Between two mechanical steps no cell changes by more than this [K]. */
const LARGEST_CHANGE = 60;
/** Steps that change no cell by as much [K] are taken together, but for that at which the bore is hottest. */
const SMALL_CHANGE = 3;
/** Less plastic strain than this counts as none: it loosens a 4 in pin by less than a ten-thousandth of an inch. */
const PLASTIC = 2e-5;

/**
 * Contact pressure and loosening of a pin in its boss, from before burning until it is cold.
 *
 * The temperatures of `coolPin` load `rings`: pin ring and boss as generalized plane strain, each free along the axis.
 * A ring hotter than the boss presses against it, yields in compression, and on cooling ends smaller than it was; a
 * boss that yields ends wider. Where neither yields everything returns and nothing loosens for good, only while the
 * pin is colder than the boss. The bored ring starts with the interference of the solid pin, which is exact while
 * elastic.
 * Lengths [m], temperatures [K], pressures [Pa]. For carbon and low-alloy steel; no creep, no hardening transformation.
 * Source: radial-conduction.ts, ring-solver.ts; strength after EN 1993-1-2:2005, Table 3.1.
 */
export function shrinkPin(inputs: ShrinkPin, physics: HeatPhysics, grid: HeatGrid = SHRINK_GRID): Shrink {
  return shrinkFit(heatedPin(inputs, physics, grid), inputs.interference);
}

/** A step on the way of the rings from cold to pushed. */
interface Move extends RingLoad {
  /** Where it ends a step of the conduction: the moment, from the end of burning [s]. */
  readonly time?: number;
}

/** Pin and boss from the start of burning until the target, as loads of their rings, for one or more fits. */
export interface HeatedPin {
  readonly mesh: RadialMesh;
  readonly materials: readonly RingMaterial[];
  /** Temperature before the work [K]. */
  readonly ambient: number;
  readonly cold: RingLoad;
  readonly moves: readonly Move[];
  /** From the end of burning to the target [s]. */
  readonly time: number;
  readonly reached: boolean;
}

/** The half of `shrinkPin` that does not depend on the interference. Steps that change no cell by as much as `least` [K] are taken together, larger ones than `most` in parts. */
export function heatedPin(
  { pin, passes, method, target, evenness, longest, pinSteel, bossSteel }: Omit<ShrinkPin, 'interference'>,
  physics: HeatPhysics,
  grid: HeatGrid,
  least = SMALL_CHANGE,
  most = LARGEST_CHANGE,
): HeatedPin {
  const { ambient } = physics;
  const fields: { time: number; cells: Float64Array }[] = [];
  const { mesh, time, reached } = coolPin(
    { pin, passes, method, position: 1, target, evenness, duration: longest },
    physics,
    grid,
    (at, temperatures) => {
      fields.push({ time: at, cells: temperatures.slice(1, -1) });
    },
  );
  const materials = [ringSteel(pinSteel), ringSteel(bossSteel)];
  const load = (temperatures: Float64Array): RingLoad => ({
    temperatures,
    metal: ringMetal(mesh, materials, ambient, temperatures),
  });
  const cold = load(new Float64Array(mesh.count).fill(ambient));
  const moves: Move[] = [];
  let last = cold.temperatures;
  const hottest = fields.reduce((most, { cells }, i) => (cells[0]! > fields[most]!.cells[0]! ? i : most), 0);
  fields.forEach(({ time: at, cells }, i) => {
    let change = 0;
    for (let c = 0; c < cells.length; c++) change = Math.max(change, Math.abs(cells[c]! - last[c]!));
    if (change < least && i !== hottest && i < fields.length - 1) return;
    const parts = Math.max(1, Math.ceil(change / most));
    for (let part = 1; part < parts; part++) moves.push(load(between(last, cells, part / parts)));
    moves.push({ ...load(cells), time: at });
    last = cells;
  });
  return { mesh, materials, ambient, cold, moves, time, reached };
}

const between = (from: ArrayLike<number>, to: Float64Array, share: number): Float64Array =>
  to.map((t, i) => from[i]! + share * (t - from[i]!));

interface Followed {
  readonly solver: Rings;
  /** As pressed in, before it is heated. */
  readonly pressed: RingState;
  /** When pushed. */
  readonly last: RingState;
  readonly load: RingLoad;
}

function follow(
  { mesh, materials, ambient, cold, moves }: HeatedPin,
  interference: number,
  watch: (state: RingState, move: Move) => void,
): Followed {
  const solver = new Rings(mesh, { materials, interference: interference / 2, reference: ambient, ends: 'free' });
  const pressed = solver.advance(cold);
  let last = pressed;
  for (const move of moves) {
    last = solver.advance(move);
    watch(last, move);
  }
  return { solver, pressed, last, load: moves.at(-1) ?? cold };
}

/** Interference left on the diameter when a heated pin is pushed [m], negative is clearance, and whether neither ring yielded on the way: cells are looked at in their middle. */
export function interferenceLeft(
  { mesh, materials, ambient, cold, moves }: HeatedPin,
  interference: number,
): { readonly left: number; readonly elastic: boolean } {
  const options = { materials, interference: interference / 2, reference: ambient, ends: 'free' } as const;
  const solver = new Rings(mesh, { ...options, points: 1 });
  // Pressed in as they are first heated: as long as nothing yields the way there is all one.
  for (const move of moves) solver.bring(move);
  return { left: -2 * solver.freeGaps(moves.at(-1) ?? cold)[0]!, elastic: solver.mostPlastic === 0 };
}

/** `shrinkPin` for one more interference of a pin that was heated before. */
export function shrinkFit(heated: HeatedPin, interference: number): Shrink {
  const history: FitPoint[] = [];
  let pressureMost = 0;
  const { solver, pressed, last, load } = follow(
    heated,
    interference,
    ({ pressures, gaps }, { time, temperatures }) => {
      pressureMost = Math.max(pressureMost, pressures[0]!);
      if (time !== undefined) history.push({ time, temperatures, pressure: pressures[0]!, clearance: 2 * gaps[0]! });
    },
  );
  const fit = ({ pressures }: RingState, at: RingLoad): Fit => {
    const left = -2 * solver.freeGaps(at)[0]!;
    return { pressure: pressures[0]!, interference: left, loosening: interference - left };
  };
  const pressureBored = pressed.pressures[0]!;
  const pushed = { time: heated.time, ...fit(last, load) };
  const [pinHot = 0, bossHot = 0] = last.plastic.map((most, layer) => most - pressed.plastic[layer]!);
  const { cold, ambient, mesh } = heated;
  solver.advance({ temperatures: between(load.temperatures, new Float64Array(mesh.count).fill(ambient), 0.5) });
  const end = solver.advance(cold);
  return {
    pressureBored,
    pressureMost: Math.max(pressureBored, pressureMost),
    pushed,
    cold: fit(end, cold),
    reason: heated.reached ? reasonOf(pinHot > PLASTIC, bossHot > PLASTIC) : 'still too hot',
    pinUtilisation: Math.min(1, end.utilisation[0]!),
    bossUtilisation: Math.min(1, end.utilisation[1]!),
    history,
  };
}

function reasonOf(pin: boolean, boss: boolean): ShrinkReason {
  if (pin) return boss ? 'pin and boss yielded' : 'pin yielded';
  return boss ? 'boss yielded' : 'stayed elastic';
}
