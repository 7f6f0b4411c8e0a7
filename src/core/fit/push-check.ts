import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { STEEL_DENSITY } from '../burn/rods.ts';
import { bossSteps } from '../heat/heat-in-force.ts';
import { blindNotPushed, mustBeLess, notAbove } from '../messages.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { calculated, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working } from '../model/working.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { strengthSteps } from './fit-in-force.ts';

/** A round column, under the symbols of steps that stand before; `L`, `K`, `E` and `SF` stand before too. */
interface ColumnSymbols {
  /** Comes after each symbol of the column. */
  readonly mark: string;
  readonly what: string;
  readonly outside: string;
  /** `0` is a solid bar. */
  readonly inside: string;
  readonly yield: string;
}

/** Source of J. B. Johnson's parabola and Euler's load. */
const COLUMNS = { source: 'column formulas', kind: 'published' } as const;

/** Stress in a column under the force `F` and what it may be: `k`, `S`, `S_c`, `s_crit`, `lim` and `s`, each with the mark. */
function columnSteps({ mark, what, outside, inside, yield: f }: ColumnSymbols): readonly Step[] {
  const m = `_${mark}`;
  return [
    calculated(
      `k${m}`,
      `radius of gyration of the ${what}`,
      'length',
      `sqrt(${outside} * ${outside} + ${inside} * ${inside}) / 4`,
      'root of (outside squared + inside squared) / 4',
    ),
    calculated(
      `S${m}`,
      `slenderness of the ${what}`,
      'ratio',
      `K * L / k${m}`,
      'column end factor x length / radius of gyration',
      COLUMNS,
    ),
    calculated(
      `S_c${m}`,
      `slenderness beyond which the ${what} buckles elastically`,
      'ratio',
      `sqrt(2 * PI * PI * E / ${f})`,
      'root of (2 x pi squared x modulus / yield strength)',
      COLUMNS,
    ),
    calculated(
      `s_crit${m}`,
      `critical stress of the ${what}`,
      'stress',
      `if(S${m} <= S_c${m}, ${f} * (1 - ${f} * S${m} * S${m} / (4 * PI * PI * E)), PI * PI * E / (S${m} * S${m}))`,
      'Johnson up to that slenderness, Euler beyond',
      COLUMNS,
    ),
    calculated(
      `lim${m}`,
      `stress allowed in the ${what}`,
      'stress',
      `s_crit${m} / SF`,
      'critical stress / buckling safety factor',
    ),
    calculated(
      `A${m}`,
      `section of the ${what}`,
      'area',
      ring(outside, inside),
      'pi / 4 x (outside squared - inside squared)',
    ),
    calculated(`s${m}`, `stress in the ${what}`, 'stress', `F / A${m}`, 'force / area'),
    calculated(
      `U${m}`,
      `energy in the squeezed ${what}`,
      'energy',
      `F * F * L / (2 * E * A${m})`,
      'force squared x length / (2 x modulus x section)',
    ),
  ];
}

const ring = (outside: string, inside: string): string =>
  inside === '0'
    ? `(PI / 4) * ${outside} * ${outside}`
    : `(PI / 4) * (${outside} * ${outside} - ${inside} * ${inside})`;

const listFor = (spacerGiven: boolean): StepList =>
  new StepList(
    [
      given('F', 'force', 'force'),
      given('D', 'pin diameter', 'length'),
      given('d', 'hole', 'length'),
      given('L', 'length', 'length'),
      ...(spacerGiven
        ? [given('d_s', 'spacer diameter', 'length')]
        : [
            assumed('c_s', 'spacer clearance'),
            calculated('d_s', 'spacer diameter', 'length', 'D - c_s', 'pin diameter - spacer clearance'),
          ]),
      assumed('E', 'pin modulus'),
      ...strengthSteps,
      assumed('f_spacer', 'spacer yield strength'),
      assumed('K', 'column end factor'),
      assumed('SF', 'buckling safety factor'),
      assumed('stroke', 'ram stroke'),
      assumed('p_oil', 'ram oil pressure'),
      assumed('K_oil', 'oil bulk modulus'),
      ...bossSteps,
      assumed('w_bush', 'bushing wall'),
      calculated('D_b', 'bore of the boss', 'length', 'D + 2 * w_bush', 'pin diameter + 2 x bushing wall'),
      entered('rho_pin', 'density of the pin', 'density', STEEL_DENSITY, 'carbon steel', 'published', 'steel density'),
      calculated('s_bear', 'bearing of spacer on pin', 'stress', `F / (${ring('d_s', 'd')})`, 'force / area'),
      calculated('lim_bear', 'bearing allowed', 'stress', 'min(f_s, f_spacer)', 'the weaker yield strength'),
      ...columnSteps({ mark: 'pin', what: 'pin', outside: 'D', inside: 'd', yield: 'f_s' }),
      ...columnSteps({ mark: 'spacer', what: 'spacers', outside: 'd_s', inside: '0', yield: 'f_spacer' }),
      calculated(
        's_react',
        'reaction on the face of the boss',
        'stress',
        `F / (${ring('D_o', 'D_b')})`,
        'force / area',
      ),
      calculated(
        'U_oil',
        'energy in the oil',
        'energy',
        'p_oil * F * stroke / (2 * K_oil)',
        'oil pressure x force x stroke / (2 x bulk modulus)',
      ),
      calculated('U', 'energy let go', 'energy', 'U_pin + U_spacer + U_oil', 'pin + spacers + oil'),
      calculated(
        'v',
        'fastest that the pin can fly',
        'speed',
        'sqrt(2 * U / (rho_pin * A_pin * L))',
        'root of (2 x energy / mass of the pin)',
      ),
    ],
    ['s_bear', 'lim_bear', 's_pin', 'lim_pin', 's_spacer', 'lim_spacer', 's_react', 'f_h', 'v'],
  );
const WITH_SPACER = listFor(true);
const ASSUMED_SPACER = listFor(false);

export interface PushCheck {
  /** Push [N]. */
  readonly force: number;
  /** Pin: diameter, bore, length [m]. */
  readonly diameter: number;
  readonly hole: number;
  readonly length: number;
  /** Diameter of the spacers [m]; the pin's less the assumed clearance where left out. */
  readonly spacerDiameter?: number | undefined;
  /** Outside diameter of the boss that takes the reaction [m]; as assumed where left out. */
  readonly boss?: number | undefined;
}

/** A stress and what it may be [Pa]; `share` is the one over the other, more than 1 where it is too much. */
export interface Demand {
  readonly stress: number;
  readonly limit: number;
  readonly share: number;
}

export interface ColumnDemand extends Demand {
  readonly slenderness: number;
  readonly rule: 'Johnson' | 'Euler';
}

export interface PushChecked {
  /** Spacer on the end of the bored pin. */
  readonly bearing: Demand;
  /** Bored pin as a column, at its full length outside the boss. */
  readonly pin: ColumnDemand;
  /** Stack of spacers as a column of the pin's length. */
  readonly spacers: ColumnDemand;
  /** Face of the boss round the pin, under a frame that bears on all of it. */
  readonly reaction: Demand;
  /** Energy let go when the pin starts all at once [J]: squeezed pin, stack, and oil. */
  readonly energy: { readonly pin: number; readonly spacers: number; readonly oil: number; readonly total: number };
  /** Speed the pin cannot exceed on that energy [m/s]. */
  readonly speed: number;
  readonly working: Working;
}

/**
 * What the push does to pin, spacers and boss, and the energy it stores.
 *
 * Bearing F / (pi / 4 (ds^2 - di^2)) against the weaker yield strength; columns against their critical stress over the
 * safety factor; reaction F / (pi / 4 (Do^2 - (d + 2 bushing)^2)), beside a bushing, which may come along, against the boss's yield strength; energy F^2 L / (2 E A) of pin and
 * stack, and p F stroke / (2 K) of the oil; speed sqrt(2 U / m).
 * Critical stress of a round column: with k = sqrt(D^2 + d^2) / 4, S = K L / k and S_c = sqrt(2 pi^2 E / f),
 * f [1 - f S^2 / (4 pi^2 E)] up to S_c (Johnson), pi^2 E / S^2 beyond (Euler). They meet at f / 2 with one slope.
 * lengths [m], force [N], stresses [Pa]. The pin in its boss is held sideways, so its column is on the safe side; loose
 * spacers can slip sideways before they buckle. It is no proof that a push is safe: stand clear and restrain the pin.
 * Source: J. B. Johnson's parabola and Euler, as in handbooks of machine design; strength of materials.
 * @example pushCheck({ force: 30 * 2000 * POUND_FORCE, diameter: 4 * INCH, hole: 2.5 * INCH, length: 10 * INCH },
 *   basis.a).bearing.stress / PSI // 8715
 */
export function pushCheck(push: PushCheck, a: Assumptions): PushChecked {
  const { force, diameter, hole, length, spacerDiameter, boss } = push;
  const values: Given = {
    F: force,
    D: diameter,
    d: hole,
    L: length,
    ...(spacerDiameter !== undefined && { d_s: spacerDiameter }),
    ...(boss !== undefined && { D_o: boss }),
  };
  if (a.word('pin ends') === 'one') throw blindNotPushed();
  const at = new Evaluation(spacerDiameter === undefined ? ASSUMED_SPACER : WITH_SPACER, values, a);
  checkPush(at, a);
  const n = (symbol: string): number => at.number(symbol);
  const demand = (stress: string, limit: string): Demand => ({
    stress: n(stress),
    limit: n(limit),
    share: n(stress) / n(limit),
  });
  const column = (mark: string): ColumnDemand => ({
    ...demand(`s_${mark}`, `lim_${mark}`),
    slenderness: n(`S_${mark}`),
    rule: n(`S_${mark}`) <= n(`S_c_${mark}`) ? 'Johnson' : 'Euler',
  });
  return {
    bearing: demand('s_bear', 'lim_bear'),
    pin: column('pin'),
    spacers: column('spacer'),
    reaction: demand('s_react', 'f_h'),
    energy: { pin: n('U_pin'), spacers: n('U_spacer'), oil: n('U_oil'), total: n('U') },
    speed: n('v'),
    working: new Working(at, 's_bear', at.list.results, { decidedBy: ['pin ends'] }),
  };
}

/** Refuses diameters that do not fit each other. */
function checkPush(at: Evaluation, { system }: Assumptions): void {
  const show = (x: number): string => showQuantity(x, 'length', system);
  const [diameter, hole, spacer, boss, seat] = ['D', 'd', 'd_s', 'D_o', 'D_b'].map((s) => at.number(s)) as [
    number,
    number,
    number,
    number,
    number,
  ];
  if (!(hole < diameter)) throw mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
  if (!(spacer > hole))
    throw notAbove('spacer diameter', show(spacer), `the pin's bore of ${show(hole)}, into which it would slip`);
  if (!(spacer < diameter))
    throw mustBeLess('spacer diameter', show(spacer), `the pin's ${show(diameter)}, or it does not follow the pin`);
  if (!(boss > diameter)) throw notAbove('boss', show(boss), `the pin's ${show(diameter)}`);
  if (!(boss > seat)) throw notAbove('boss', show(boss), `the ${show(seat)} of the pin with its bushing`);
}
