import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import { STEEL_DENSITY } from '../burn/rods.ts';
import { targetTooCool } from '../messages.ts';
import { assumed } from '../assumptions/assumed.ts';
import { calculated, entered, given, solved, type Step } from '../model/step.ts';
import { INCH } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { CoolingMethod, PinInBoss } from './cool-pin.ts';
import { coolant, coolingTime } from './cooling-time.ts';
import { heatIntoWall, type BurnPass } from './heat-into-wall.ts';
import { ESTIMATE_GRIDS, type HeatPhysics } from './heat-physics.ts';

/**
 * What heating and cooling rest on, from the assumptions in force. Pin and boss count as carbon steel.
 *
 * @example physicsInForce(basis.a).emissivity // 0.8
 */
export function physicsInForce(a: Assumptions): HeatPhysics {
  return {
    ambient: a.value('ambient temperature'),
    emissivity: a.value('surface emissivity'),
    contact: a.value('joint conductance'),
    meltingPoint: a.value('wall melting point'),
    density: STEEL_DENSITY,
    zone: a.value('heated zone'),
    bushing: a.value('bushing wall'),
    // Asked for where there is water: what rests on no water is not sought again when one of these changes.
    get water() {
      return a.value('cooling water temperature');
    },
    get wetShare() {
      return a.value('wet boss share');
    },
    get surfaceFactor() {
      return a.value('boiling surface factor');
    },
    get fluxFactor() {
      return a.value('boiling flux factor');
    },
    get filmLimit() {
      return a.value('film boiling limit');
    },
  };
}

/**
 * Burning out a bore at a pace [kg/s] as it heats pin and boss: pilot and widening, with the assumed heat per mass.
 *
 * Duration = density pi / 4 (hole^2 - existing bore^2) length / pace; heat as `heatIntoWall`. [m], result [J/m, s].
 * @example passesInForce({ diameter: 0.1, hole: 0.06, boss: 0.25, length: 0.25 }, 0.006, basis.a)[1].duration // 831.58
 */
export function passesInForce({ hole, length }: PinInBoss, pace: number, a: Assumptions): readonly BurnPass[] {
  const existing = a.value('existing bore');
  return heatIntoWall({
    hole,
    pilot: a.value('pilot width'),
    existing,
    burnTime: (STEEL_DENSITY * (Math.PI / 4) * (hole * hole - existing * existing) * length) / pace,
    heatPerMass: a.value('heat into the part'),
    density: STEEL_DENSITY,
  });
}

export const methodInForce = (a: Assumptions): CoolingMethod =>
  a.word('cooling method') === 'water' ? 'water' : 'air';

/** Diameter that `longer cooling` is told of [m]. */
const LONGER_AT = 4 * INCH;

/** Assumption that the target is. */
export const targetName = (method: CoolingMethod) =>
  method === 'water' ? 'cooling target with water' : 'cooling target in air';

/**
 * Hottest part of the pin at which it is pushed [K]; refuses an assumed one that air or water cannot reach.
 *
 * @example targetInForce('air', basis.a) // 422.04
 */
export function targetInForce(method: CoolingMethod, a: Assumptions): number {
  const target = a.value(targetName(method));
  const sink = coolant(method, physicsInForce(a));
  if (!(target > sink.temperature)) {
    const show = (t: number): string => showQuantity(t, 'temperature', a.system);
    throw targetTooCool(targetName(method), show(target), `${sink.name} ${show(sink.temperature)}`);
  }
  return target;
}

/** Boss of a pin whose boss is not told [m]. */
export const bossInForce = (diameter: number, a: Assumptions): number => a.value('boss over pin') * diameter;

/**
 * How much longer than calculated a pin cools [s], where one of 4 in does so by `more`: by its diameter, as the time goes in which
 * pin and boss cool in air together.
 */
export const longerBy = (more: number, diameter: number): number => (more * diameter) / LONGER_AT;

/** A cooling as calculated [s], with what it takes longer in air. */
export const lengthened = (time: number, diameter: number, method: CoolingMethod, a: Assumptions): number =>
  method === 'air' ? Math.max(0, time + longerBy(a.value('longer cooling'), diameter)) : time;

/** What a cooling asks for besides the pin, which was burnt out at a pace [kg/s]. */
export function coolingInForce(
  pin: PinInBoss,
  method: CoolingMethod,
  target: number | undefined,
  pace: number,
  a: Assumptions,
) {
  return {
    ...pin,
    method,
    passes: passesInForce(pin, pace, a),
    target: target ?? targetInForce(method, a),
    evenness: a.value('pin over boss when pushed'),
  };
}

/** The assumed boss: step `D_o`. Step `D` stands before. */
export const bossSteps: readonly Step[] = [
  assumed('b', 'boss over pin'),
  calculated('D_o', 'boss', 'length', 'b * D', 'boss over pin x diameter'),
];

/**
 * What a cooling rests on, and the duration of burning; steps `D`, `d`, `L`, `D_o`, and `M` and `t_work` of the work stand before.
 * The target is given where `targetGiven`.
 */
export function heatingSteps(method: CoolingMethod, targetGiven = false): readonly Step[] {
  return [
    assumed('T_air', 'ambient temperature'),
    assumed('epsilon', 'surface emissivity'),
    assumed('h_joint', 'joint conductance'),
    ...(method === 'water'
      ? [
          assumed('T_water', 'cooling water temperature'),
          assumed('wet', 'wet boss share'),
          assumed('C_sf', 'boiling surface factor'),
          assumed('k_boil', 'boiling flux factor'),
          assumed('T_film', 'film boiling limit'),
        ]
      : []),
    assumed('zone', 'heated zone'),
    assumed('T_melt', 'wall melting point'),
    assumed('w_bush', 'bushing wall'),
    assumed('b_old', 'existing bore'),
    assumed('h_part', 'heat into the part'),
    calculated(
      'pace',
      'pace of burning',
      'massRate',
      'M / t_work',
      'metal removed / time at the work, its pauses and rod changes counted',
    ),
    assumed('w_pilot', 'pilot width'),
    entered(
      'rho_pin',
      'density of pin and boss',
      'density',
      STEEL_DENSITY,
      'carbon steel',
      'published',
      'steel density',
    ),
    calculated(
      't_heat',
      'burning, as far as it heats',
      'time',
      'rho_pin * (PI / 4) * (d * d - b_old * b_old) * L / pace',
      'density x pi / 4 x (hole squared - existing bore squared) x length / pace of burning',
    ),
    assumed('dT_even', 'pin over boss when pushed'),
    entered('cooled', 'cooled with', 'count', method, 'given, or the assumption cooling method', 'input', ''),
    targetGiven ? given('T_push', 'target', 'temperature') : assumed('T_push', targetName(method)),
  ];
}

/** Symbols that a cooling is solved from: `D`, `d`, `L`, `pace`, and those of the boss and of `heatingSteps`; `cooled` is a word. */
export function heatingSymbols(method: CoolingMethod): readonly string[] {
  const further = heatingSteps(method).map(({ symbol }) => symbol);
  return ['D', 'd', 'L', 'pace', 'D_o', ...further.filter((symbol) => symbol !== 'pace' && symbol !== 'cooled')];
}

/** What a pin in air takes longer than calculated. */
export const longerSteps = (method: CoolingMethod): readonly Step[] =>
  method === 'air' ? [assumed('longer', 'longer cooling')] : [];

/** `heatingSymbols`, and those of `longerSteps`. */
export const coolingSymbols = (method: CoolingMethod): readonly string[] => [
  ...heatingSymbols(method),
  ...longerSteps(method).map(({ symbol }) => symbol),
];

/** `heatingSteps`, and the cooling time of a pin in its boss: `t_cool`. What these need stands before. */
export function coolingSteps(
  pin: PinInBoss,
  method: CoolingMethod,
  target: number | undefined,
  basis: Basis,
): readonly Step[] {
  const { pinCells, bossCells } = ESTIMATE_GRIDS[method];
  return [
    ...heatingSteps(method, target !== undefined),
    ...longerSteps(method),
    solved(
      't_cool',
      'cooling time',
      'time',
      coolingSymbols(method),
      (_, __, ___, pace) => cooledIn(pin, method, target, pace, basis),
      `time until the hottest part of the pin's ring falls to the target, cooled by ${method}; conduction in ${pinCells} rings of pin and ${bossCells} of boss`,
      'en 1993-1-2',
    ),
  ];
}

/** The cooling time of a pin in its boss [s], solved once for the cells that share a basis. */
function cooledIn(
  pin: PinInBoss,
  method: CoolingMethod,
  target: number | undefined,
  pace: number,
  { a, once }: Basis,
): number {
  const { diameter, hole, boss, length } = pin;
  const time = once(`cooled ${diameter} ${hole} ${boss} ${length} ${method} ${target} ${pace}`, () =>
    coolingTime(coolingInForce(pin, method, target, pace, a), physicsInForce(a), undefined, a.system),
  );
  return lengthened(time, diameter, method, a);
}
