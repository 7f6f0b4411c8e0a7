import type { Basis } from '../basis.ts';
import { recordRodPassages } from '../burn/record-rod-line.ts';
import { rodLine } from '../burn/rod-line.ts';
import { rodName, rodNames, type RodChoice } from '../burn/rods.ts';
import * as messages from '../messages.ts';
import { waterPressure } from '../oxygen/ambient-pressure.ts';
import { contentPressure } from '../oxygen/cylinder-content.ts';
import { highestFill } from '../oxygen/cylinder-sizes.ts';
import { drawnCylinder } from '../oxygen/drawable-content.ts';
import { flowTable } from '../oxygen/flowing-gas.ts';
import { fullCylinder, fullCylinderSteps } from '../oxygen/full-cylinder.ts';
import { FILL_TEMPERATURE } from '../oxygen/gauge-reading.ts';
import { checkSetting } from '../oxygen/loss-in-force.ts';
import { isotherm } from '../oxygen/oxygen-state.ts';
import { hoseInForce, regulatorInForce, wallInForce } from '../oxygen/supply-in-force.ts';
import { supplyCheck, type SupplyCheck } from '../oxygen/supply-check.ts';
import { setWhileFlowing, type SupplyLine } from '../oxygen/supply-point.ts';
import { Evaluation } from '../model/evaluation.ts';
import { StepList } from '../model/step-list.ts';
import type { Trace } from '../model/trace.ts';
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

/**
 * One supply line checked with the assumptions in force: see `supplyCheck`.
 *
 * The setting is read with the cylinders as they are now, while the rod burns or standing. The cylinders are changed at the
 * assumption `leftover pressure`, or higher where the regulator needs more. Refuses a setting that cannot give the tip
 * pressure of the assumptions, and a content that no rightly filled cylinder holds.
 */
export function checkSupply(inputs: SupplyInputs, basis: Basis, trace?: Trace): CheckedSupply {
  const { a } = basis;
  const { rod, setting, hoseLength, bore, cylinders } = inputs;
  const given = (name: string, symbol: string, value: number | string, quantity: QuantityName): void =>
    trace?.add({ name, symbol, value, quantity, formula: 'given', kind: 'input', source: '' });
  const length = rod.length ?? DEFAULT_LENGTH;
  given('rod', 'rod', rodName(rod.rod, length, rod.coupled), 'count');
  given('length of the rod', 'L_rod', length, 'length');
  given('regulator setting', 'p_set', setting, 'pressure');
  given('hose length', 'L_hose', hoseLength, 'distance');
  given('hose bore', 'd_hose', bore, 'length');
  given('cylinders drawn together', 'n_cyl', cylinders, 'count');
  if (inputs.content !== undefined)
    given('oxygen that can still be drawn from each', 'C_given', inputs.content, 'oxygen');
  const stub = a.record(rodNames(rod.rod).stub, 'stub', trace);
  if (!(length > stub))
    throw messages.stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(length, 'length', a.system));

  const full = fullCylinder(a);
  if (trace)
    for (const step of new Evaluation(new StepList(fullCylinderSteps(a), ['V_cyl', 'p_full']), {}, a).worked())
      trace.add(step);
  const air = a.value('air pressure');
  const depth = inputs.depth ?? a.value('water depth');
  trace?.add({
    name: 'depth of the work under water',
    symbol: 'h_water',
    value: depth,
    quantity: 'distance',
    formula: 'given or assumed',
    kind: 'input',
    source: '',
  });
  const water = waterPressure(a, depth, trace);
  checkSetting(setting, water, a);
  const leftover = a.record('leftover pressure', 'p_low', trace);
  const now = inputs.content === undefined ? full.pressure : pressureFor(inputs.content, full, basis);

  const oxygen = flowTable(isotherm(full.temperature), TABULATED * (setting + air));
  const regulator = regulatorInForce(a, setting + air, now, trace);
  const hose = hoseInForce(a, hoseLength, bore, trace);
  if (trace) {
    trace.add({
      name: 'outside diameter of the rod',
      symbol: 'd_rod',
      value: rod.rod.outsideDiameter,
      quantity: 'length',
      formula: 'register of rods',
      kind: 'common practice',
      source: rod.rod.source,
    });
    recordRodPassages(rod.rod, a, trace);
    trace.add({
      name: 'regulator set',
      symbol: 'set',
      value: a.word('regulator set'),
      quantity: 'count',
      formula: 'how its setting is read',
      kind: 'convention',
      source: 'convention',
    });
  }
  const { gas: _, ...path } = rodLine(rod.rod, setting, basis);
  const standing: SupplyLine = { regulator, hose, rod: { ...path, ambient: air + water }, oxygen };
  const line =
    a.word('regulator set') === 'standing'
      ? standing
      : { ...standing, regulator: setWhileFlowing(standing, (length + stub) / 2) };
  const tip = a.value('tip pressure');
  const wall = wallInForce(a, trace);
  const bank = {
    cylinders,
    volume: full.volume,
    wall,
    pressure: now,
    full: full.pressure,
    temperature: full.temperature,
  };
  const check = supplyCheck(line, bank, length, stub, tip > 0 ? tip + water + air : undefined, leftover + air);
  if (trace) record(check, water, air, inputs.content === undefined, trace);
  return { check, line, air, length, stub };
}

/** Absolute pressure [Pa] of a cylinder from which a content [kg] can still be drawn, as BURN.CYLINDER.CONTENT counts it. */
function pressureFor(content: number, { volume, temperature }: ReturnType<typeof fullCylinder>, basis: Basis): number {
  const { a } = basis;
  const oxygen = isotherm(temperature);
  const air = a.value('air pressure');
  const left = volume * oxygen.density(drawnCylinder(basis).number('p_left') + air);
  const rating = a.value('cylinder rating');
  const most = volume * oxygen.density(highestFill(rating, FILL_TEMPERATURE, temperature, air)) - left;
  if (content > most * (1 + 1e-9)) {
    throw messages.contentTooHigh(
      showQuantity(content, 'oxygen', a.system),
      showQuantity(most, 'oxygen', a.system),
      showQuantity(rating, 'pressure', a.system),
    );
  }
  return contentPressure(volume, content + left, temperature);
}

/** What the working point of a supply line is solved from. */
const LINE =
  'solve(rod, L_rod, stub, p_set, set, L_hose, d_hose, K_hose, e_hose, d_rod, d_bore, n_wire, d_wire, d_holder, n_cyl, V_cyl, p_cyl, p_low, droop, m_droop, rise_reg, d_valve, w_cyl, d_cyl, c_cyl, h_in, h_out, p_air, p_work, T_gas)';

function record(check: SupplyCheck, water: number, air: number, full: boolean, trace: Trace): void {
  const { point } = check;
  const found = (
    name: string,
    symbol: string,
    value: number,
    quantity: QuantityName,
    formula: string,
    source = 'isothermal pipe flow',
  ): void => trace.add({ name, symbol, value, quantity, formula, expression: LINE, kind: 'calculated', source });
  trace.add({
    name: 'pressure at the work',
    symbol: 'p_work',
    value: water,
    quantity: 'pressure',
    formula: 'of the water, if any',
    expression: water === 0 ? '0' : 'p_water',
    kind: 'calculated',
    source: 'navy diving manual',
  });
  const solved = 'working point of cylinder, regulator, hose, holder and rod, half the rod left';
  trace.add({
    name: 'pressure in the cylinder',
    symbol: 'p_cyl',
    value: point.cylinder - air,
    quantity: 'pressure',
    formula: full ? 'full as assumed' : 'from the content given',
    expression: full ? 'p_full' : 'solve(C_given, V_cyl, T_gas, p_air)',
    kind: 'calculated',
    source: 'oxygen equation of state',
  });
  found("pressure at the regulator's outlet", 'p_out', point.delivery - air, 'pressure', solved);
  found('pressure at the end of the hose', 'p_hose', point.tip - air, 'pressure', solved);
  trace.add({
    name: 'pressure lost in the hose',
    symbol: 'loss_hose',
    value: point.delivery - air - (point.tip - air),
    quantity: 'pressure',
    formula: 'pressure at the outlet - pressure at the end',
    expression: 'p_out - p_hose',
    kind: 'calculated',
    source: 'arithmetic',
  });
  found('pressure between holder and rod', 'p_behind', point.behindHolder - air, 'pressure', solved);
  found('flow with half the rod left', 'm', point.flow, 'flow', solved);
  found('mean flow over a rod, now', 'm_now', check.flow, 'flow', 'harmonic mean over the burned length');
  found(
    'mean flow over a rod when the cylinder is changed',
    'm_left',
    check.flowAtLeftover,
    'flow',
    'the same with the cylinder at the pressure left',
  );
  found(
    'pressure left in the cylinder',
    'p_left',
    check.leftover - air,
    'pressure',
    'the largest of leftover pressure, delivery pressure + droop, and what the open valve needs',
    'orifice flow',
  );
  found(
    'oxygen drawn until the change',
    'C_drawn',
    check.drawn,
    'oxygen',
    'cylinders drawn at the flow of each pressure, with cooling',
    'oxygen equation of state',
  );
  found('burning time until the change', 't_cyl', check.time, 'time', 'the same', 'oxygen equation of state');
  found(
    'gas temperature in the cylinder then',
    'T_cold',
    check.coldest,
    'temperature',
    'energy balance of the gas with heat from the wall',
    'churchill chu wall',
  );
  trace.add({
    name: 'what limits the flow',
    symbol: 'limit',
    value: check.limit,
    quantity: 'count',
    formula: 'the element whose loss costs most flow, if more than a twentieth',
    kind: 'calculated',
    source: '',
  });
}
