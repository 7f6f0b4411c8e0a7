import type { Assumptions } from '../assumptions/assumptions.ts';
import type { AssumptionName } from '../assumptions/registry.ts';
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { rodGiven, rodPassageSteps, rodPath, type RodPath } from '../burn/rod-line.ts';
import { rodName, rodNames, type RodChoice } from '../burn/rods.ts';
import * as messages from '../messages.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf, Working } from '../model/working.ts';
import { waterSteps } from '../oxygen/ambient-pressure.ts';
import { contentPressure } from '../oxygen/cylinder-content.ts';
import { highestFill } from '../oxygen/cylinder-sizes.ts';
import { deliverySteps } from '../oxygen/drawable-content.ts';
import { flowTable } from '../oxygen/flowing-gas.ts';
import { fullCylinderSteps } from '../oxygen/full-cylinder.ts';
import { FILL_TEMPERATURE } from '../oxygen/gauge-reading.ts';
import { leftoverSteps } from '../oxygen/leftover-in-force.ts';
import { checkSetting } from '../oxygen/loss-in-force.ts';
import { isotherm } from '../oxygen/oxygen-state.ts';
import { droopRate, hoseSteps, wallSteps } from '../oxygen/supply-in-force.ts';
import { supplyCheck, type SupplyCheck } from '../oxygen/supply-check.ts';
import { setWhileFlowing, type SupplyLine } from '../oxygen/supply-point.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { INCH, type QuantityName } from '../units/quantities.ts';

const DEFAULT_LENGTH = 36 * INCH;
/** Pressures in a line over the regulator's setting, for the table of gas properties. */
const TABULATED = 1.5;

/** One supply line as a user describes it. SI, pressures gauge. */
export interface SupplyInputs {
  readonly rod: RodChoice;
  readonly setting: number;
  readonly hoseLength: number;
  readonly bore: number;
  readonly cylinders: number;
  /** Oxygen that can still be drawn from each cylinder [kg]; full as assumed where left out. */
  readonly content: number | undefined;
  /** As assumed where left out. */
  readonly depth: number | undefined;
}

export interface CheckedSupply {
  readonly check: SupplyCheck;
  readonly line: SupplyLine;
  /** Absolute [Pa]. */
  readonly air: number;
  readonly length: number;
  readonly stub: number;
}

/** Steps that the working point and all after it are solved from, besides those of the rod's flow path. */
const LINE = [
  ...['L_rod', 'stub', 'p_set', 'L_hose', 'd_hose', 'K_hose', 'e_hose', 'n_cyl', 'V_cyl', 'p_cyl', 'p_full', 'p_low'],
  ...[
    'droop',
    'm_droop',
    'rise_reg',
    'd_valve',
    'w_cyl',
    'd_cyl',
    'c_cyl',
    'h_in',
    'h_out',
    'p_air',
    'p_work',
    'T_gas',
  ],
];

/** The leftover pressure that a content given is counted from, as BURN.CYLINDER.CONTENT counts it, and what it rests on. */
const LEFTOVER = new StepList(
  [...deliverySteps, assumed('p_air', 'air pressure'), assumed('T_gas', 'gas temperature'), ...leftoverSteps()],
  ['p_left'],
);
const LEFTOVER_FROM = ['p_del', 'm_feed', 'p_air', 'T_gas', 'p_low', 'droop', 'm_droop', 'd_valve'];

const RESULTS = [
  ...['m_now', 'm_left', 'p_out', 'p_hose', 'loss_hose', 'p_behind', 'm', 'p_left', 'C_drawn', 't_cyl', 'T_cold'],
  ...['rod', 'set', 'limit'],
];

/** What decides how the line is laid out and read, and what it must give. */
const DECIDED: readonly AssumptionName[] = ['regulator set', 'tip pressure', 'rod flow measured'];

/**
 * One supply line checked with the assumptions in force: see `supplyCheck`.
 *
 * The setting is read with the cylinders as they are now, while the rod burns or standing. The cylinders are changed at the
 * assumption `leftover pressure`, or higher where the regulator needs more. Refuses a setting that cannot give the tip
 * pressure of the assumptions, and a content that no rightly filled cylinder holds.
 */
export function checkSupply(inputs: SupplyInputs, basis: Basis): CheckedSupply {
  return supplyOf(inputs, basis).checked;
}

/** How a supply line is worked out: its working point, flows, and what is drawn until the change. */
export function supplyWorking(inputs: SupplyInputs, basis: Basis): Working {
  const { list, values, checked } = supplyOf(inputs, basis);
  const { limit } = checked.check;
  const [result, ...besides] = RESULTS as [string, ...string[]];
  const decidedBy = [...DECIDED, ...(inputs.depth === undefined ? ['water depth'] : [])];
  return new Working(new Evaluation(list, { ...values, limit }, basis.a), result, besides, { decidedBy });
}

interface Supply {
  readonly list: StepList;
  readonly values: Given;
  readonly checked: CheckedSupply;
}

function supplyOf(inputs: SupplyInputs, basis: Basis): Supply {
  const { a, once } = basis;
  const { rod, coupled, length = DEFAULT_LENGTH } = inputs.rod;
  const wet = (inputs.depth ?? a.value('water depth')) > 0;
  const path = rodPath(rod, basis, wet);
  const from = [...LINE, ...path.from.filter((symbol) => !LINE.includes(symbol))];
  const checked = (values: readonly number[]): CheckedSupply =>
    once(`supply ${rod.name} ${values.join(' ')}`, () =>
      checkedLine((symbol) => values[from.indexOf(symbol)] as number, path, a),
    );
  const list = new StepList(supplySteps(inputs, wet, from, checked, basis), RESULTS);
  const values: Given = {
    rod: rodName(rod, length, coupled),
    set: a.word('regulator set'),
    L_rod: length,
    p_set: inputs.setting,
    L_hose: inputs.hoseLength,
    d_hose: inputs.bore,
    n_cyl: inputs.cylinders,
    ...rodGiven(rod),
    ...(inputs.content !== undefined && { C_given: inputs.content }),
    ...(inputs.depth !== undefined && { h_water: inputs.depth }),
  };
  const evaluation = new Evaluation(list, values, a);
  const stub = evaluation.number('stub');
  if (!(length > stub))
    throw messages.stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(length, 'length', a.system));
  evaluation.number('p_full');
  checkSetting(inputs.setting, evaluation.number('p_work'), a);
  return { list, values, checked: checked(from.map((symbol) => evaluation.number(symbol))) };
}

function supplySteps(
  inputs: SupplyInputs,
  wet: boolean,
  from: readonly string[],
  checked: (values: readonly number[]) => CheckedSupply,
  { a }: Basis,
): readonly Step[] {
  const { rod } = inputs.rod;
  const found = (
    symbol: string,
    name: string,
    quantity: QuantityName,
    of: (supply: CheckedSupply) => number,
    words = 'working point of cylinder, regulator, hose, holder and rod, half the rod left',
    source = 'isothermal pipe flow',
  ): Step => solved(symbol, name, quantity, from, (...values) => of(checked(values)), words, source);
  return [
    given('rod', 'rod', 'count'),
    given('L_rod', 'length of the rod', 'length'),
    given('p_set', 'regulator setting', 'pressure'),
    given('L_hose', 'hose length', 'distance'),
    given('d_hose', 'hose bore', 'length'),
    given('n_cyl', 'cylinders drawn together', 'count'),
    assumed('stub', rodNames(rod).stub),
    ...fullCylinderSteps(a),
    ...(wet ? [depthStep(inputs), ...waterSteps(a)] : []),
    assumed('p_low', 'leftover pressure'),
    ...droopRate,
    assumed('rise_reg', 'regulator supply effect'),
    assumed('d_valve', 'regulator valve'),
    ...hoseSteps,
    ...rodPassageSteps(rod, a),
    given('set', 'regulator set', 'count', {
      words: 'how its setting is read',
      kind: 'convention',
      source: 'convention',
    }),
    ...wallSteps,
    calculated('p_work', 'pressure at the work', 'pressure', wet ? 'p_water' : '0', 'of the water, if any', {
      source: 'navy diving manual',
    }),
    ...cylinderNowSteps(inputs, a),
    found('p_out', "pressure at the regulator's outlet", 'pressure', ({ check, air }) => check.point.delivery - air),
    found('p_hose', 'pressure at the end of the hose', 'pressure', ({ check, air }) => check.point.tip - air),
    calculated(
      'loss_hose',
      'pressure lost in the hose',
      'pressure',
      'p_out - p_hose',
      'pressure at the outlet - pressure at the end',
    ),
    found(
      'p_behind',
      'pressure between holder and rod',
      'pressure',
      ({ check, air }) => check.point.behindHolder - air,
    ),
    found('m', 'flow with half the rod left', 'flow', ({ check }) => check.point.flow),
    found(
      'm_now',
      'mean flow over a rod, now',
      'flow',
      ({ check }) => check.flow,
      'harmonic mean over the burned length',
    ),
    found(
      'm_left',
      'mean flow over a rod when the cylinder is changed',
      'flow',
      ({ check }) => check.flowAtLeftover,
      'the same with the cylinder at the pressure left',
    ),
    found(
      'p_left',
      'pressure left in the cylinder',
      'pressure',
      ({ check, air }) => check.leftover - air,
      'the largest of leftover pressure, delivery pressure + droop, and what the open valve needs',
      'orifice flow',
    ),
    found(
      'C_drawn',
      'oxygen drawn until the change',
      'oxygen',
      ({ check }) => check.drawn,
      'cylinders drawn at the flow of each pressure, with cooling',
      'oxygen equation of state',
    ),
    found(
      't_cyl',
      'burning time until the change',
      'time',
      ({ check }) => check.time,
      'the same',
      'oxygen equation of state',
    ),
    found(
      'T_cold',
      'gas temperature in the cylinder then',
      'temperature',
      ({ check }) => check.coldest,
      'energy balance of the gas with heat from the wall',
      'churchill chu wall',
    ),
    given('limit', 'what limits the flow', 'count', {
      words: 'the element whose loss costs most flow, if more than a twentieth',
      kind: 'calculated',
    }),
  ];
}

const depthStep = ({ depth }: SupplyInputs): Step =>
  depth === undefined
    ? assumed('h_water', 'water depth')
    : given('h_water', 'depth of the work under water', 'distance');

/** Pressure `p_cyl` in the cylinders now: full as assumed, or from which a content given can still be drawn slowly. */
function cylinderNowSteps({ content }: SupplyInputs, a: Assumptions): readonly Step[] {
  const [name, source] = ['pressure in the cylinder', 'oxygen equation of state'] as const;
  if (content === undefined) return [calculated('p_cyl', name, 'pressure', 'p_full', 'full as assumed', { source })];
  return [
    given('C_given', 'oxygen that can still be drawn from each', 'oxygen'),
    ...deliverySteps,
    solved(
      'p_cyl',
      name,
      'pressure',
      ['C_given', 'V_cyl', 'p_rated', ...LEFTOVER_FROM],
      (drawable, volume, rating, ...values) => {
        const counted: Given = Object.fromEntries(LEFTOVER_FROM.map((symbol, i) => [symbol, values[i] as number]));
        const [air, temperature] = [counted['p_air'] as number, counted['T_gas'] as number];
        const oxygen = isotherm(temperature);
        const left = volume * oxygen.density(valueOf(LEFTOVER, counted) + air);
        const most = volume * oxygen.density(highestFill(rating, FILL_TEMPERATURE, temperature, air)) - left;
        if (drawable > most * (1 + 1e-9))
          throw messages.contentTooHigh(
            showQuantity(drawable, 'oxygen', a.system),
            showQuantity(most, 'oxygen', a.system),
            showQuantity(rating, 'pressure', a.system),
          );
        return contentPressure(volume, drawable + left, temperature) - air;
      },
      'from the content given',
      source,
    ),
  ];
}

/** A supply line checked, by the values of its steps. */
function checkedLine(of: (symbol: string) => number, path: RodPath, a: Assumptions): CheckedSupply {
  const air = of('p_air');
  const [setting, now, work] = [of('p_set') + air, of('p_cyl') + air, of('p_work')];
  const temperature = of('T_gas');
  const [length, stub] = [of('L_rod'), of('stub')];
  const { gas: _, ...rod } = path.line(of('p_set'), path.from.map(of));
  const standing: SupplyLine = {
    regulator: {
      setting,
      setFlow: 0,
      setSupply: now,
      droop: of('droop') / of('m_droop'),
      supplyEffect: of('rise_reg'),
      valve: { diameter: of('d_valve'), dischargeCoefficient: 1 },
    },
    hose: { length: of('L_hose'), bore: of('d_hose'), loss: of('K_hose'), roughness: of('e_hose') },
    rod,
    oxygen: flowTable(isotherm(temperature), TABULATED * setting),
  };
  const line =
    a.word('regulator set') === 'standing'
      ? standing
      : { ...standing, regulator: setWhileFlowing(standing, (length + stub) / 2) };
  const bank = {
    cylinders: of('n_cyl'),
    volume: of('V_cyl'),
    wall: {
      massPerVolume: of('w_cyl'),
      diameter: of('d_cyl'),
      specificHeat: of('c_cyl'),
      insideFactor: of('h_in'),
      outsideFilm: of('h_out'),
    },
    pressure: now,
    full: of('p_full') + air,
    temperature,
  };
  const tip = a.value('tip pressure');
  const wanted = tip > 0 ? tip + work + air : undefined;
  return { check: supplyCheck(line, bank, length, stub, wanted, of('p_low') + air), line, air, length, stub };
}
