import { mustBeLess, notAbove, tooLow } from '../messages.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { INCH } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

export interface GuardedPin {
  /** Pin's diameter, planned bore, depth pierced from one end [m]. */
  readonly diameter: number;
  readonly hole: number;
  readonly depth: number;
  /** Outside diameter of the rod [m], tip pressure [Pa]. */
  readonly rod: number;
  readonly pressure: number;
}

export interface GuardRules {
  /** Base plate beyond the pin on each side, and its thickness [m]. */
  readonly baseMargin: number;
  readonly baseThickness: number;
  /** Side of the shield over the pin's diameter, its least side, and its thickness [m]. */
  readonly shieldRatio: number;
  readonly shieldLeast: number;
  readonly shieldThickness: number;
  /** Guide hole over the rod's diameter [m]. */
  readonly guideClearance: number;
  /** Push of the operator on the rod [N]. */
  readonly thrust: number;
  /** Tensile strength of the weld metal [Pa] and a further factor on the load. */
  readonly weldStrength: number;
  readonly weldFactor: number;
  /** Drift off the axis over the depth: least, likely, most. */
  readonly drift: { readonly low: number; readonly likely: number; readonly high: number };
}

export type Drift = 'stays in the pin' | 'may reach the boss' | 'reaches the boss';

export interface GuardPlates {
  /** Square base plate on the pin's axis: side, thickness, guide hole [m]. */
  readonly base: { readonly side: number; readonly thickness: number; readonly guideHole: number };
  /** Square shield between the operator and the mouth of the pierce: side, thickness [m]. */
  readonly shield: { readonly side: number; readonly thickness: number };
  /** Force on the plates [N]: push on the rod and oxygen shut in by slag over the whole bore. */
  readonly force: number;
  /** Fillet weld of each plate: leg and whole length [m]. */
  readonly weld: { readonly leg: number; readonly length: number };
  /** Off the axis at the far end [m]. */
  readonly offset: { readonly low: number; readonly likely: number; readonly high: number };
  /** Wall left on the thin side at the far end [m], least with most drift; negative where the bore leaves the pin. */
  readonly wall: { readonly low: number; readonly likely: number; readonly high: number };
  readonly drift: Drift;
}

/** A shield is at least a quarter inch thick: common practice, no source. */
export const LEAST_SHIELD = 0.25 * INCH;

/** Smallest fillet for a plate thickness [m]: AWS D1.1, minimum fillet weld sizes (from memory; 1/8 in confirmed). */
const LEAST_FILLET = [
  [0.25 * INCH, 0.125 * INCH],
  [0.5 * INCH, 0.1875 * INCH],
  [0.75 * INCH, 0.25 * INCH],
  [Infinity, 0.3125 * INCH],
] as const;
/** Allowable shear on the throat over tensile strength, and throat over leg: AWS D1.1. */
const ALLOWABLE = 0.3;
const THROAT = Math.SQRT1_2;
/** A weld that counts is at least this many legs long, one on each of four sides. */
const LEAST_RUN = 4;
const SIDES = 4;

/**
 * Plates that hold the rod on the pin's axis and shield the operator, their weld, and the drift of the pierce.
 *
 * Base side = D + 2 margin; shield side = max(ratio D, least); force = push + p pi / 4 d^2;
 * weld length = factor force / (0.3 strength 0.707 leg), at least four legs on each of four sides;
 * offset = drift depth, wall = (D - d) / 2 - offset.
 * lengths [m], pressure [Pa], force [N]. Straight drift; a rod that follows a crack or a weld inside can leave it.
 * Source: common practice for sizes and drift; AWS D1.1 for the weld.
 */
export function guardPlates(pin: GuardedPin, rules: GuardRules, system: UnitSystem = 'US'): GuardPlates {
  const { diameter, hole, depth, rod, pressure } = pin;
  const show = (x: number): string => showQuantity(x, 'length', system);
  if (!(diameter > 0)) throw notAbove('diameter', show(diameter), show(0));
  if (!(depth > 0)) throw notAbove('length', show(depth), show(0));
  if (!(hole < diameter)) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(rules.shieldThickness >= LEAST_SHIELD * (1 - 1e-9)))
    throw tooLow('shield thickness', show(rules.shieldThickness), show(LEAST_SHIELD));

  const force = rules.thrust + (Math.max(0, pressure) * Math.PI * hole * hole) / 4;
  const thickest = Math.max(rules.baseThickness, rules.shieldThickness);
  const leg = LEAST_FILLET.find(([limit]) => thickest <= limit * (1 + 1e-9))![1];
  const needed = (rules.weldFactor * force) / (ALLOWABLE * rules.weldStrength * THROAT * leg);
  const { low, likely, high } = rules.drift;
  const offset = { low: low * depth, likely: likely * depth, high: high * depth };
  const room = (diameter - hole) / 2;
  const wall = { low: room - offset.high, likely: room - offset.likely, high: room - offset.low };
  return {
    base: {
      side: diameter + 2 * rules.baseMargin,
      thickness: rules.baseThickness,
      guideHole: rod + rules.guideClearance,
    },
    shield: { side: Math.max(rules.shieldRatio * diameter, rules.shieldLeast), thickness: rules.shieldThickness },
    force,
    weld: { leg, length: Math.max(needed, SIDES * LEAST_RUN * leg) },
    offset,
    wall,
    drift: wall.likely <= 0 ? 'reaches the boss' : wall.low <= 0 ? 'may reach the boss' : 'stays in the pin',
  };
}
