import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import type { HeatGrid, HeatPhysics } from '../heat/heat-physics.ts';
import type { BurnPass } from '../heat/heat-into-wall.ts';
import type { SteelStrength } from './ring-steel.ts';
import { heatedPin, interferenceLeft } from './shrink-pin.ts';

/** Three levels of one uncertain thing. */
export interface Levels<T> {
  readonly low: T;
  readonly likely: T;
  readonly high: T;
}

export interface RetainedInputs {
  readonly pin: PinInBoss;
  /** Burning that leaves a heat per mass removed [J/kg], at a pace [kg/s]. */
  passes(heat: number, pace: number): readonly BurnPass[];
  /** Ranges of that heat and pace. */
  readonly heat: Levels<number>;
  readonly pace: Levels<number>;
  readonly method: CoolingMethod;
  /** Hottest part of the pin at which it is pushed [K]. */
  readonly target: number;
  /** How much hotter than the boss the pin may be on the mean when it is pushed [K]. */
  readonly evenness: number;
  /** Longest cooling followed [s]. */
  readonly longest: number;
  readonly pinSteel: SteelStrength;
  readonly bossSteel: SteelStrength;
  /** Largest interference before the work, on the diameter [m]. */
  readonly most: number;
}

/**
 * Interference left when the pin is pushed, on the diameter [m], for one before the work [m], a heat per mass [J/kg] and a
 * pace [kg/s], the three within their ranges. Where it is 0 or less, only that is known: nothing is left.
 */
export type RetainedInterference = (interference: number, heat: number, pace: number) => number;

/** Coarser than for one loosening: it is followed many times over, and the ranges of heat and pace hide the rest. */
const RETAINED_GRID: HeatGrid = { pinCells: 5, bossCells: 8, tolerance: 6 };
/** Smaller changes of temperature are taken together [K]. */
const LEAST_CHANGE = 10;
/** Pins heated with the same heat x pace^this loosen about alike: it lies between that of a ring that keeps its heat, 0, and that of one that passes it on, 1. */
const PACE_POWER = 0.65;
/** Severities worked out at each pace; paces lie halfway from the likely one to the ends. */
const SEVERITIES = 7;
/** Interferences worked out, over the largest. */
const TRIED = [0.2, 1] as const;

/**
 * What burning and cooling leave of a pin's interference, for any heat into the part and any pace of burning within their ranges.
 *
 * `heatedPin` and its rings at two paces, at each for severities s = heat x pace^0.65 over the range, and for two
 * interferences. Between and beyond them straight lines of sqrt(loosening) over interference, log s and log pace: loosening
 * sets in where the ring yields and then grows about with the square. A row of severities ends where nothing is left of the
 * largest interference.
 * lengths [m]. Off direct solutions by 1 to 2 % of the largest interference in the root mean square with the default assumptions
 * and by 15 % at most; with others within their ranges by up to 8 % and 25 %, most where cold water chills the bore ahead of the boss.
 * Source and range as `shrinkPin`.
 */
export function retainedInterference(
  inputs: RetainedInputs,
  physics: HeatPhysics,
  grid: HeatGrid = RETAINED_GRID,
): RetainedInterference {
  const { heat, pace, most } = inputs;
  const slow = (pace.low + pace.likely) / 2;
  const fast = (pace.likely + pace.high) / 2;
  const mild = Math.log(heat.low * slow ** PACE_POWER);
  const step = (Math.log(heat.high * fast ** PACE_POWER) - mild) / (SEVERITIES - 1);
  const tried = most > 0 ? TRIED.map((share) => share * most) : [0];
  let least = Infinity;

  /** Roots of the loosening of each interference tried, by severity. */
  const rowAt = (p: number): readonly (readonly number[])[] => {
    const row: (readonly number[])[] = [];
    for (let k = 0; k < SEVERITIES; k++) {
      const pin = heatedPin(
        { ...inputs, passes: inputs.passes(Math.exp(mild + k * step) / p ** PACE_POWER, p) },
        physics,
        grid,
        LEAST_CHANGE,
      );
      const left = tried.map((delta) => interferenceLeft(pin, delta));
      const roots = left.map((kept, i) => root((tried[i] ?? 0) - kept));
      least = Math.min(least, ...roots);
      row.push(roots);
      if (!(step > 0) || (k > 0 && (left.at(-1) ?? 0) <= 0)) break;
    }
    return row;
  };
  const rows = slow < fast ? [rowAt(slow), rowAt(fast)] : [rowAt(slow)];
  const apart = Math.log(fast / slow);

  const share = (interference: number): number =>
    tried.length > 1 ? (interference / most - TRIED[0]) / (TRIED[1] - TRIED[0]) : 0;
  return (interference, h, p) => {
    const across = share(interference);
    const severity = step > 0 ? Math.max(0, (Math.log(h * p ** PACE_POWER) - mild) / step) : 0;
    const [a = 0, b = a] = rows.map((row) =>
      alongLine(row.length, (k) => alongLine(tried.length, (i) => row[k]?.[i] ?? NaN, across), severity),
    );
    const loosening = Math.max(least, a + (slow < fast ? Math.log(p / slow) / apart : 0) * (b - a));
    return interference - loosening * Math.abs(loosening);
  };
}

const root = (x: number): number => Math.sign(x) * Math.sqrt(Math.abs(x));

/** Straight lines through a number of values at 0, 1, 2 and so on; the first and last go on outside. */
function alongLine(count: number, value: (i: number) => number, at: number): number {
  const i = Math.max(0, Math.min(count - 2, Math.floor(at)));
  const from = value(i);
  return count > 1 ? from + (at - i) * (value(i + 1) - from) : from;
}
