import type { CoolingMethod, PinInBoss } from '../heat/cool-pin.ts';
import type { HeatGrid, HeatPhysics } from '../heat/heat-physics.ts';
import type { BurnPass } from '../heat/heat-into-wall.ts';
import type { SteelStrength } from './ring-steel.ts';
import { heatedPin, interferenceLeft, type HeatedPin } from './shrink-pin.ts';

/** Three levels of one uncertain thing. */
export interface Levels<T> {
  readonly low: T;
  readonly likely: T;
  readonly high: T;
}

export interface RetainedInputs {
  readonly pin: PinInBoss;
  /** Burning with little, likely and much heat into the part. */
  readonly passes: Levels<readonly BurnPass[]>;
  readonly method: CoolingMethod;
  /** Hottest part of the pin at which it is pushed [K]. */
  readonly target: number;
  /** How much hotter than the boss the pin may be on the mean when it is pushed [K]. */
  readonly evenness: number;
  /** Longest cooling followed [s]. */
  readonly longest: number;
  readonly pinSteel: SteelStrength;
  readonly bossSteel: SteelStrength;
  /** Interferences before the work to work out, on the diameter, rising [m]. */
  readonly interferences: readonly number[];
}

/** Interference before against what is left when the pin is pushed, on the diameter [m]. */
export interface RetainedInterference {
  readonly before: readonly number[];
  /** By the heat that went into the part; negative is clearance. */
  readonly after: Levels<readonly number[]>;
  /** The pin with likely heat, for one more interference. */
  readonly heated: HeatedPin;
}

/** Coarser than for a cooling time: the rings cost more than the conduction, and the range of the heat hides the rest. */
export const RETAINED_GRID: HeatGrid = { pinCells: 8, bossCells: 10, tolerance: 3 };

/**
 * What burning and cooling leave of a pin's interference, for little, likely and much heat.
 *
 * `shrinkPin` at each interference and each level of heat. It is smooth and rises with the interference before, so a
 * few of them suffice to read others off by straight lines.
 * lengths [m], temperatures [K]. Source and range as `shrinkPin`.
 */
export function retainedInterference(inputs: RetainedInputs, physics: HeatPhysics, grid: HeatGrid = RETAINED_GRID): RetainedInterference {
  const heat = (passes: readonly BurnPass[]): HeatedPin => heatedPin({ ...inputs, passes }, physics, grid);
  const level = (heated: HeatedPin): readonly number[] => inputs.interferences.map((interference) => interferenceLeft(heated, interference));
  const { low, likely, high } = inputs.passes;
  const heated = heat(likely);
  return { before: inputs.interferences, after: { low: level(heat(low)), likely: level(heated), high: level(heat(high)) }, heated };
}
