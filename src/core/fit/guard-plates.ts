import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { mustBeLess, notAbove, tooLow } from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
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

export type Drift = 'stays in the pin' | 'may reach the boss' | 'reaches the boss';

interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

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
  readonly offset: Range;
  /** Wall left on the thin side at the far end [m], least with most drift; negative where the bore leaves the pin. */
  readonly wall: Range;
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

const leastFillet = (thickness: number): number =>
  LEAST_FILLET.find(([limit]) => thickness <= limit * (1 + 1e-9))?.[1] ?? NaN;

/** Steps of `guardPlates`; `D`, `d`, the depth `x`, `d_rod` and `p` stand before. */
export const guardSteps: readonly Step[] = [
  assumed('margin', 'base plate margin'),
  assumed('t_base', 'base plate thickness'),
  assumed('k_shield', 'shield plate over pin'),
  assumed('s_least', 'shield plate least side'),
  assumed('t_shield', 'shield plate thickness'),
  assumed('c_guide', 'guide hole clearance'),
  assumed('F_rod', 'rod thrust'),
  assumed('f_weld', 'weld metal strength'),
  assumed('k_weld', 'plate weld factor'),
  assumed('drift', 'pierce drift'),
  calculated('S_base', 'base plate side', 'length', 'D + 2 * margin', 'diameter + 2 x margin'),
  calculated('d_guide', 'guide hole', 'length', 'd_rod + c_guide', 'outside diameter of the rod + clearance'),
  calculated(
    'S_shield',
    'shield plate side',
    'length',
    'max(k_shield * D, s_least)',
    'shield plate over pin x diameter, at least the least side',
  ),
  calculated(
    'F',
    'force on the plates',
    'force',
    'F_rod + max(0, p) * PI * d * d / 4',
    'push on the rod + tip pressure over the whole bore, shut in by slag',
  ),
  solved(
    'leg',
    'weld leg',
    'length',
    ['t_base', 't_shield'],
    (base, shield) => leastFillet(Math.max(base, shield)),
    'smallest fillet for the thicker plate',
    'aws d1.1',
    'published',
  ),
  // 0.3 of the strength on a throat of the leg over the root of 2; at least four legs on each of four sides.
  calculated(
    'l_weld',
    'weld length',
    'length',
    'max(k_weld * F / (0.3 * f_weld * sqrt(0.5) * leg), 16 * leg)',
    'plate weld factor x force / (0.3 x weld metal strength x leg / root of 2), at least four legs on each of four sides',
    { source: 'aws d1.1' },
  ),
  calculated('o', 'drift at the far end', 'length', 'drift * x', 'drift x depth'),
  calculated(
    'wall',
    'wall left at the far end',
    'length',
    '(D - d) / 2 - o',
    '(diameter - bore) / 2 - drift at the far end',
  ),
];

/** Symbols of what `guardSteps` end in. */
export const GUARD_RESULTS = ['S_base', 'd_guide', 'S_shield', 'l_weld', 'wall'] as const;

/** Made where it is asked for: no function in a cell goes by it, so that a bundle leaves it out. */
const guardAlone = (): StepList =>
  new StepList(
    [
      given('D', 'diameter', 'length'),
      given('d', 'hole', 'length'),
      given('x', 'depth', 'length'),
      given('d_rod', 'outside diameter of the rod', 'length'),
      given('p', 'tip pressure', 'pressure'),
      ...guardSteps,
    ],
    GUARD_RESULTS,
  );

/**
 * Plates that hold the rod on the pin's axis and shield the operator, their weld, and the drift of the pierce.
 *
 * Base side = D + 2 margin; shield side = max(ratio D, least); force = push + p pi / 4 d^2;
 * weld length = factor force / (0.3 strength 0.707 leg), at least four legs on each of four sides;
 * offset = drift depth, wall = (D - d) / 2 - offset.
 * lengths [m], pressure [Pa], force [N]. Straight drift; a rod that follows a crack or a weld inside can leave it.
 * Source: common practice for sizes and drift; AWS D1.1 for the weld.
 * @example guardPlates({ diameter: 4 * INCH, hole: 2.5 * INCH, depth: 10 * INCH, rod: 0.375 * INCH,
 *   pressure: 100 * PSI }, basis.a).force / POUND_FORCE // 530.9
 */
export function guardPlates({ diameter, hole, depth, rod, pressure }: GuardedPin, a: Assumptions): GuardPlates {
  return platesOf(new Evaluation(guardAlone(), { D: diameter, d: hole, x: depth, d_rod: rod, p: pressure }, a), a);
}

/** The plates that a list with `guardSteps` gives. */
export function platesOf(at: Evaluation, a: Assumptions): GuardPlates {
  const n = (symbol: string): number => at.number(symbol);
  const show = (x: number): string => showQuantity(x, 'length', a.system);
  if (!(n('D') > 0)) throw notAbove('diameter', show(n('D')), show(0));
  if (!(n('x') > 0)) throw notAbove('length', show(n('x')), show(0));
  if (!(n('d') < n('D'))) throw mustBeLess('hole', show(n('d')), `the pin's ${show(n('D'))}`);
  if (!(n('t_shield') >= LEAST_SHIELD * (1 - 1e-9)))
    throw tooLow('shield thickness', show(n('t_shield')), show(LEAST_SHIELD));
  const { low, high } = a.inForce('pierce drift');
  const drifting = at.over(['drift']);
  const drifted = (drift: number, symbol: 'o' | 'wall'): number => drifting.give([drift]).number(symbol);
  const wall = { low: drifted(high, 'wall'), likely: n('wall'), high: drifted(low, 'wall') };
  return {
    base: { side: n('S_base'), thickness: n('t_base'), guideHole: n('d_guide') },
    shield: { side: n('S_shield'), thickness: n('t_shield') },
    force: n('F'),
    weld: { leg: n('leg'), length: n('l_weld') },
    offset: { low: drifted(low, 'o'), likely: n('o'), high: drifted(high, 'o') },
    wall,
    drift: wall.likely <= 0 ? 'reaches the boss' : wall.low <= 0 ? 'may reach the boss' : 'stays in the pin',
  };
}
