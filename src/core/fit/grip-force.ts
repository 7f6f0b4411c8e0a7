/** Grip of a pin before it is heated: contact pressure, also where pin or boss yields, and the force that starts it. */
import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { ZERO_CELSIUS } from '../heat/celsius.ts';
import { radialMesh } from '../heat/radial-mesh.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf, Working } from '../model/working.ts';
import { checkPressFit, contactPressureSteps, elasticLimitSteps } from './contact-pressure.ts';
import { elasticitySteps, strengthSteps } from './fit-in-force.ts';
import { Rings } from './ring-solver.ts';
import { ringSteel } from './ring-steel.ts';

/** The step of `gripForce`, under the symbols named; `D` and `L` stand before. */
export function gripForceStep(symbols: {
  readonly force: string;
  readonly friction: string;
  readonly pressure: string;
  readonly bond: string;
}): Step {
  const { force, friction, pressure, bond } = symbols;
  return calculated(
    force,
    'force to start the pin',
    'force',
    `PI * D * L * (${friction} * ${pressure} + ${bond})`,
    'pi x diameter x length x (friction x contact pressure + rust bond)',
    { source: 'din 7190-1' },
  );
}

export interface Grip {
  /** Diameter and length of the joint [m]. */
  readonly diameter: number;
  readonly length: number;
  /** Contact pressure [Pa]. */
  readonly pressure: number;
  /** Friction of the joint. */
  readonly friction: number;
  /** Shear strength that rust adds [Pa]. */
  readonly bond: number;
}

/** Made where it is asked for: no function in a cell goes by it, so that a bundle leaves it out. */
const forceSteps = (): StepList =>
  new StepList(
    [
      given('D', 'diameter', 'length'),
      given('L', 'length', 'length'),
      given('p', 'contact pressure', 'stress'),
      given('mu', 'joint friction', 'ratio'),
      given('tau', 'rust bond', 'stress'),
      gripForceStep({ force: 'F', friction: 'mu', pressure: 'p', bond: 'tau' }),
    ],
    ['F'],
  );

/**
 * Axial force that starts a pin held by contact pressure and rust.
 *
 * F = pi d L (mu p + tau).
 * diameter, length [m], pressure and bond [Pa], friction [1]; result [N].
 * Valid for a joint that slips all at once; a long rusted joint can also peel from one end, at less.
 * Source: Coulomb friction, DIN 7190-1 (steel on steel, pressed dry, 0.11 when it starts to slip); the bond of rust is
 * common practice without a source. Example: 4 in, 2083 psi, 0.12, no rust, an inch of it; in lbf.
 * @example gripForce({ diameter: 4 * INCH, length: INCH, pressure: 2083.33 * PSI, friction: 0.12,
 *   bond: 0 }) / POUND_FORCE // 3142
 */
export function gripForce({ diameter, length, pressure, friction, bond }: Grip): number {
  return valueOf(forceSteps(), { D: diameter, L: length, p: pressure, mu: friction, tau: bond });
}

/** Where strengths are those at room temperature [K]. */
const ROOM = ZERO_CELSIUS + 20;
const CELLS = 12;

/**
 * Contact pressure of a pin pressed into a boss of which one yields, as elastic, perfectly plastic rings.
 *
 * diameters and interference (on the diameter) [m], moduli and yield strengths [Pa]; result [Pa].
 * Source: ring-solver.ts. Example: a bored pin with ten times the usual interference.
 * @example yieldingPressure(0.1, 0.06, 0.25, 0.0005, 205e9, 205e9, 0.3, 550e6, 250e6) / 1e6 // 223.9
 */
export function yieldingPressure(
  diameter: number,
  hole: number,
  boss: number,
  interference: number,
  pinModulus: number,
  bossModulus: number,
  poisson: number,
  pinYield: number,
  bossYield: number,
): number {
  const mesh = radialMesh([
    { inner: hole / 2, outer: diameter / 2, cells: CELLS },
    { inner: diameter / 2, outer: boss / 2, cells: CELLS, graded: 'ratios' },
  ]);
  const solver = new Rings(mesh, {
    materials: [
      ringSteel({ modulus: pinModulus, yield: pinYield, poisson }),
      ringSteel({ modulus: bossModulus, yield: bossYield, poisson }),
    ],
    interference: interference / 2,
    reference: ROOM,
    ends: 'free',
  });
  return solver.advance({ temperatures: new Float64Array(mesh.count).fill(ROOM) }).pressures[0]!;
}

/** Contact pressure by Lame, `p`, the pressure at which one yields, `p_yield`, and that with yielding, `p_plastic`. */
const PRESSED: readonly Step[] = [
  given('D', 'diameter', 'length'),
  given('delta', 'interference', 'length'),
  given('D_o', 'boss', 'length'),
  given('d', 'hole', 'length'),
  ...elasticitySteps,
  ...strengthSteps,
  ...contactPressureSteps('p'),
  ...elasticLimitSteps,
  solved(
    'p_plastic',
    'contact pressure with yielding',
    'stress',
    ['D', 'd', 'D_o', 'delta', 'E_s', 'E_h', 'nu_s', 'f_s', 'f_h'],
    yieldingPressure,
    'pin and boss as rings that yield',
    'hill',
  ),
];

const forceList = (pressure: string): StepList =>
  new StepList(
    [
      ...PRESSED,
      given('L', 'length', 'length'),
      assumed('mu', 'joint friction'),
      assumed('tau', 'rust bond'),
      gripForceStep({ force: 'F', friction: 'mu', pressure, bond: 'tau' }),
    ],
    ['F', 'p', 'p_yield', 'p_plastic'],
  );

const PRESSURE = new StepList(PRESSED, ['p', 'p_yield', 'p_plastic']);
const ELASTIC_FORCE = forceList('p');
const PLASTIC_FORCE = forceList('p_plastic');

/** A pin in its boss as it was pressed in: diameters and interference [m], and its length where the force is asked for. */
export interface PressedPin {
  readonly diameter: number;
  readonly interference: number;
  readonly boss: number;
  readonly hole: number;
}

/**
 * Contact pressure of a pin pressed into a boss, also where one of them yields.
 *
 * Lame's `contactPressure` up to `elasticPressureLimit`; beyond, pin and boss yield as elastic, perfectly plastic rings.
 * lengths [m]; result [Pa]. Source: contact-pressure.ts, ring-solver.ts.
 * @example pressedPressure({ diameter: 4 * INCH, interference: 0.001 * INCH, boss: 6 * INCH, hole: 0 },
 *   basis.a).value / PSI // 2065
 */
export function pressedPressure(pin: PressedPin, a: Assumptions): Working {
  const at = pressed(PRESSURE, pin, a);
  return new Working(at, yields(at) ? 'p_plastic' : 'p', ['p', 'p_yield']);
}

/**
 * Force to start a pin as it was pressed in, before it is heated: `gripForce` on `pressedPressure`, with the friction and
 * the rust bond in force.
 *
 * lengths [m]; result [N]. Source: as these.
 * @example pressedForce({ diameter: 4 * INCH, length: 10 * INCH, interference: 0.0012 * INCH, boss: 10 * INCH,
 *   hole: 0 }, basis.a).value / POUND_FORCE // 127165
 */
export function pressedForce(pin: PressedPin & { readonly length: number }, a: Assumptions): Working {
  const at = pressed(ELASTIC_FORCE, pin, a);
  return new Working(yields(at) ? pressed(PLASTIC_FORCE, pin, a) : at, 'F', ['p', 'p_yield']);
}

function pressed(
  list: StepList,
  { diameter, interference, boss, hole, length }: PressedPin & { readonly length?: number },
  a: Assumptions,
): Evaluation {
  checkPressFit({ diameter, hole, boss }, a.system);
  return new Evaluation(
    list,
    { D: diameter, delta: interference, D_o: boss, d: hole, ...(length !== undefined && { L: length }) },
    a,
  );
}

const yields = (at: Evaluation): boolean => at.number('p') > at.number('p_yield');
