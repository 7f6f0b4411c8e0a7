import { coolPin, type CoolingMethod, type PinInBoss } from '../heat/cool-pin.ts';
import { ESTIMATE_GRID, type HeatGrid, type HeatPhysics } from '../heat/heat-physics.ts';
import type { RadialMesh } from '../heat/radial-mesh.ts';
import type { BurnPass } from '../heat/heat-into-wall.ts';
import { ringSteel, type SteelStrength } from './ring-steel.ts';
import { rings, type RingState } from './ring-solver.ts';

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

/** Between two mechanical steps no cell changes by more than this [K]. */
const LARGEST_CHANGE = 60;
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
export function shrinkPin(inputs: ShrinkPin, physics: HeatPhysics, grid: HeatGrid = ESTIMATE_GRID): Shrink {
  return shrinkHeated(heatedPin(inputs, physics, grid), inputs, physics.ambient);
}

/** Temperatures of a pin and its boss from the start of burning until the target, for one or more fits. */
export interface HeatedPin {
  readonly mesh: RadialMesh;
  readonly fields: readonly { readonly time: number; readonly cells: Float64Array }[];
  /** From the end of burning to the target [s]. */
  readonly time: number;
  readonly reached: boolean;
}

/** The thermal half of `shrinkPin`, which does not depend on the fit. */
export function heatedPin({ pin, passes, method, target, evenness, longest }: Omit<ShrinkPin, keyof FitInputs>, physics: HeatPhysics, grid: HeatGrid): HeatedPin {
  const fields: { time: number; cells: Float64Array }[] = [];
  const { mesh, time, reached } = coolPin({ pin, passes, method, position: 1, target, evenness, duration: longest }, physics, grid, (at, temperatures) => {
    fields.push({ time: at, cells: temperatures.slice(1, -1) });
  });
  return { mesh, fields, time, reached };
}

export type FitInputs = Pick<ShrinkPin, 'interference' | 'pinSteel' | 'bossSteel'>;

/** The mechanical half of `shrinkPin`. */
export function shrinkHeated({ mesh, fields, time: pushedAt, reached }: HeatedPin, { interference, pinSteel, bossSteel }: FitInputs, ambient: number): Shrink {
  const cold = new Float64Array(mesh.count).fill(ambient);
  const solver = rings(mesh, { materials: [ringSteel(pinSteel), ringSteel(bossSteel)], interference: interference / 2, reference: ambient, ends: 'free' });
  const fit = ({ pressures }: RingState, temperatures: Float64Array): Fit => {
    const left = -2 * solver.freeGaps({ temperatures })[0]!;
    return { pressure: pressures[0]!, interference: left, loosening: interference - left };
  };

  let state = solver.advance({ temperatures: cold });
  const pressed = state;
  const pressureBored = state.pressures[0]!;
  let pressureMost = pressureBored;
  let last: Float64Array = cold;
  const history = fields.map(({ time, cells }): FitPoint => {
    let change = 0;
    for (let i = 0; i < cells.length; i++) change = Math.max(change, Math.abs(cells[i]! - last[i]!));
    const parts = Math.max(1, Math.ceil(change / LARGEST_CHANGE));
    const from = last;
    for (let part = 1; part <= parts; part++) {
      state = solver.advance({ temperatures: part === parts ? cells : from.map((t, i) => t + (part / parts) * (cells[i]! - t)) });
      pressureMost = Math.max(pressureMost, state.pressures[0]!);
    }
    last = cells;
    return { time, pressure: state.pressures[0]!, clearance: 2 * state.gaps[0]! };
  });
  const pushed = { time: pushedAt, ...fit(state, last) };
  const [pinHot = 0, bossHot = 0] = state.plastic.map((most, layer) => most - pressed.plastic[layer]!);
  for (const share of [0.5, 1]) state = solver.advance({ temperatures: last.map((t) => t + share * (ambient - t)) });
  return {
    pressureBored, pressureMost, pushed, cold: fit(state, cold), reason: reached ? reasonOf(pinHot > PLASTIC, bossHot > PLASTIC) : 'still too hot',
    pinUtilisation: Math.min(1, state.utilisation[0]!), bossUtilisation: Math.min(1, state.utilisation[1]!), history,
  };
}

function reasonOf(pin: boolean, boss: boolean): ShrinkReason {
  if (pin) return boss ? 'pin and boss yielded' : 'pin yielded';
  return boss ? 'boss yielded' : 'stayed elastic';
}
