import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { calculated, decidedBy, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working } from '../model/working.ts';
import { waterSteps } from '../oxygen/ambient-pressure.ts';
import { flowingOxygen } from '../oxygen/flowing-gas.ts';
import { meanRodFlow, rodFlow, rodFlowScale, rodPressure, type RodLine } from '../oxygen/rod-flow.ts';
import { INCH, type QuantityName } from '../units/quantities.ts';
import { rodNames, type Rod } from './rods.ts';

const MEASURED_LENGTH = 36 * INCH;

const isMeasured = (a: Assumptions): boolean => a.value('rod flow measured') > 0;
const isDeep = (a: Assumptions): boolean => a.value('water depth') > 0;
/** A step that is solved on the path of a rod, of which these decide what it has. */
const onPath = (step: Step): Step => decidedBy(step, 'rod flow measured', 'water depth');

/** The passages of a rod and its holder, and the flow measured through it where there is one. `rodGiven` has what is given. */
export function rodPassageSteps(rod: Rod, a: Assumptions): readonly Step[] {
  const { source } = rod;
  const registered = (symbol: string, name: string, quantity: QuantityName): Step =>
    given(symbol, name, quantity, { words: 'register of rods', kind: 'common practice', source });
  return [
    registered('d_rod', 'outside diameter of the rod', 'length'),
    registered('d_bore', 'bore of the tube', 'length'),
    registered('n_wire', 'wires', 'count'),
    registered('d_wire', 'wire diameter', 'length'),
    ...(rod.kind === 'bar'
      ? [
          assumed('r_holder', rodNames(rod).holder),
          calculated(
            'd_holder',
            'holder as an orifice',
            'length',
            'r_holder * d_bore',
            'bar holder ratio x bore of the tube',
          ),
        ]
      : [assumed('d_holder', rodNames(rod).holder)]),
    ...(isMeasured(a) ? [assumed('m_measured', 'rod flow measured'), assumed('p_measured', 'pressure')] : []),
  ];
}

/** What the flow through a rod rests on besides pressure and lengths: its passages, the holder, air and water round it, the gas. */
export function rodLineSteps(rod: Rod, a: Assumptions): readonly Step[] {
  return [
    ...rodPassageSteps(rod, a),
    assumed('p_air', 'air pressure'),
    ...(isDeep(a) ? [assumed('h_water', 'water depth'), ...waterSteps(a)] : []),
    assumed('T_gas', 'gas temperature'),
  ];
}

/** What the register gives for the steps of a rod. */
export function rodGiven(rod: Rod): Given {
  return { d_rod: rod.outsideDiameter, d_bore: rod.bore, n_wire: rod.wires, d_wire: rod.wireDiameter };
}

/** How a rod's flow path is made of the steps of `rodLineSteps`. */
export interface RodPath {
  /** Symbols of the steps that it takes. */
  readonly from: readonly string[];
  /** Absolute pressure round the burning end [Pa], from the values of these steps. */
  ambient(values: readonly number[]): number;
  /** Holder and rod as a flow path at a gauge pressure [Pa] at the holder's inlet. */
  line(pressure: number, values: readonly number[]): RodLine;
}

/**
 * The flow path of a rod, fitted to the user's own measured flow where there is one. Gas is taken at half the pressure over
 * what is round the burning end: the air, and the water `p_water` where the work is `deep`.
 */
export function rodPath(rod: Rod, { a, once }: Basis, deep = isDeep(a)): RodPath {
  const measured = isMeasured(a);
  const ambient = ([, , , , , air, , water]: readonly number[]): number => air! + (deep ? water! : 0);
  const line = (pressure: number, values: readonly number[]): RodLine => {
    const [outsideDiameter, bore, wires, wireDiameter, holder, , temperature] = values as readonly [
      ...(readonly [number, number, number, number, number, number, number]),
      ...(readonly number[]),
    ];
    const around = ambient(values);
    const unscaled = (p: number): RodLine => ({
      rod: { outsideDiameter, bore, wires, wireDiameter },
      holder: { diameter: holder, dischargeCoefficient: 1 },
      ambient: around,
      gas: once(`gas ${temperature} ${around + p / 2}`, () => flowingOxygen(temperature, around + p / 2)),
      law: 'Blasius',
    });
    if (!measured) return unscaled(pressure);
    const [flow, at] = values.slice(-2) as [number, number];
    const scale = once(`scale ${rod.name} ${values.join(' ')}`, () =>
      rodFlowScale(unscaled(at), flow, around + at, rod.kind === 'bar' ? Math.max(...rod.lengths) : MEASURED_LENGTH),
    );
    return { ...unscaled(pressure), scale };
  };
  const from = [
    ...['d_rod', 'd_bore', 'n_wire', 'd_wire', 'd_holder', 'p_air', 'T_gas'],
    ...(deep ? ['p_water'] : []),
    ...(measured ? ['m_measured', 'p_measured'] : []),
  ];
  return { from, ambient, line };
}

/** Holder and rod as a flow path at a gauge pressure [Pa] at the holder's inlet, with the assumptions in force: see `rodPath`. */
export function rodLine(rod: Rod, pressure: number, basis: Basis): RodLine {
  const { path, values } = basis.once(`path ${rod.name}`, () => inForce(rod, basis));
  return path.line(pressure, values);
}

/** The path of a rod with the values in force that it takes. */
function inForce(rod: Rod, basis: Basis): { readonly path: RodPath; readonly values: readonly number[] } {
  const path = rodPath(rod, basis);
  const list = basis.once(`path of ${rod.kind}`, () => new StepList(rodLineSteps(rod, basis.a), path.from));
  const evaluation = new Evaluation(list, rodGiven(rod), basis.a);
  return { path, values: path.from.map((symbol) => evaluation.number(symbol)) };
}

/** The mean flow at the work over a rod burned down at one pressure, by the symbols of its steps. */
interface FlowAt {
  /** Step of the gauge pressure at the holder's inlet. */
  readonly pressure: string;
  /** Step of the flow calculated, before the flow factor, and of the flow. */
  readonly calculated: string;
  readonly flow: string;
  /** Words behind the names of the steps. */
  readonly when: string;
}

/** The flow at the tip pressure; of an operation of two phases that of the first. */
export const AT_TIP: FlowAt = { pressure: 'p', calculated: 'm_0', flow: 'm', when: '' };
/** The flow of widening, at its own pressure. */
export const AT_WIDENING: FlowAt = {
  pressure: 'p_widen',
  calculated: 'm_widen_0',
  flow: 'm_widen',
  when: ' while widening',
};

/**
 * The mean flow `m` at the work over a rod burned from its length `L_rod` down to the stub at a gauge pressure `p`, after the
 * steps of `rodLineSteps`: the flow calculated, `m_0`, times the assumption `flow factor`. A `second` one follows at its own pressure.
 */
export function meanFlowSteps(rod: Rod, basis: Basis, second?: FlowAt): readonly Step[] {
  const steps = (at: FlowAt): readonly [Step, Step] => meanFlowAt(at, rod, basis);
  const [passed, flow] = steps(AT_TIP);
  return [passed, assumed('m_over', 'flow factor'), flow, ...(second ? steps(second) : [])];
}

function meanFlowAt(
  { pressure: at, calculated: m0, flow, when }: FlowAt,
  rod: Rod,
  basis: Basis,
): readonly [Step, Step] {
  const path = rodPath(rod, basis);
  return [
    onPath(
      solved(
        m0,
        `mean flow that rod and holder pass${when}`,
        'flow',
        [at, 'L_rod', 'stub', ...path.from],
        (pressure, length, stub, ...values) =>
          basis.once(`flow ${pressure} ${length} ${stub} ${values.join(' ')}`, () =>
            meanRodFlow(
              basis.once(`line ${pressure} ${values.join(' ')}`, () => path.line(pressure, values)),
              path.ambient(values) + pressure,
              length,
              stub,
            ),
          ),
        'isothermal flow through holder and rod passages at the tip pressure, harmonic mean over the burned length',
        'isothermal pipe flow',
      ),
    ),
    calculated(
      flow,
      `mean flow through the rod${when}`,
      'flow',
      `m_over * ${m0}`,
      'flow that rod and holder pass x flow factor',
    ),
  ];
}

/**
 * Mean flow that rod and holder pass [kg/s] over a rod burned from its length down to the stub [m], at a gauge pressure [Pa]: the
 * step `m_0`, before the flow factor. Solved once for each rod, length and pressure of a list.
 *
 * @example calculatedFlow(findRod('3/8').rod, 36 * INCH, 90 * PSI, basis) / (SCF / 60) // 8.663
 */
export function calculatedFlow(rod: Rod, length: number, pressure: number, basis: Basis): number {
  const { a, once } = basis;
  return once(`flow ${rod.name} ${length} ${pressure}`, () => {
    const { path, values } = once(`path ${rod.name}`, () => inForce(rod, basis));
    const line = once(`line ${rod.name} ${pressure}`, () => rodLine(rod, pressure, basis));
    return meanRodFlow(line, path.ambient(values) + pressure, length, a.value(rodNames(rod).stub));
  });
}

/**
 * Mean flow [kg/s] at the work: the flow calculated, times the assumption `flow factor`. Range and source as `calculatedFlow`.
 *
 * @example meanFlow(findRod('3/8').rod, 36 * INCH, 90 * PSI, basis) / (SCF / 60) // 8.663
 */
export const meanFlow = (rod: Rod, length: number, pressure: number, basis: Basis): number =>
  basis.a.value('flow factor') * calculatedFlow(rod, length, pressure, basis);

/** What `rodFlowOf` and `rodPressureOf` give, with what the other gives handed over. */
interface Asked {
  readonly given: Step;
  readonly value: number;
  readonly result: (path: RodPath) => Step;
}

function rodWorking(rod: Rod, length: number, { given: handed, value, result }: Asked, basis: Basis): Working {
  const steps: readonly Step[] = [
    given('rod', 'rod', 'count'),
    given('L', 'length left', 'length'),
    ...rodLineSteps(rod, basis.a),
    handed,
    onPath(result(rodPath(rod, basis))),
  ];
  const asked = steps.at(-1)?.symbol ?? '';
  const values = { rod: rod.name, L: length, ...rodGiven(rod), [handed.symbol]: value };
  return new Working(new Evaluation(new StepList(steps, [asked, 'rod']), values, basis.a), asked, ['rod']);
}

/**
 * Flow [kg/s] through a rod of a remaining length [m] at a gauge pressure [Pa] at the holder's inlet, with the assumptions in force.
 *
 * Equations, range and source as `rodFlow`.
 *
 * @example rodFlowOf(findRod('3/8').rod, 80 * PSI, 36 * INCH, basis).value / (SCF / 60) // 6.951
 */
export function rodFlowOf(rod: Rod, pressure: number, length: number, basis: Basis): Working {
  const result = (path: RodPath): Step =>
    solved(
      'm',
      'flow',
      'flow',
      ['p', 'L', ...path.from],
      (p, left, ...values) => rodFlow(path.line(p, values), path.ambient(values) + p, left),
      'isothermal flow through holder and rod passages',
      'isothermal pipe flow',
    );
  return rodWorking(rod, length, { given: given('p', 'tip pressure', 'pressure'), value: pressure, result }, basis);
}

/**
 * Gauge pressure [Pa] at the holder's inlet that drives a flow [kg/s] through a rod of a remaining length [m], with the assumptions
 * in force: the inverse of `rodFlowOf`.
 *
 * @example rodPressureOf(findRod('3/8').rod, (8 * SCF) / 60, 36 * INCH, basis).value / PSI // 93.24
 */
export function rodPressureOf(rod: Rod, flow: number, length: number, basis: Basis): Working {
  const result = (path: RodPath): Step =>
    solved(
      'p',
      'tip pressure',
      'pressure',
      ['m', 'L', ...path.from],
      (m, left, ...values) => {
        const around = path.ambient(values);
        let pressure = 0;
        // The gas of the line is taken at half the pressure, so pressure and gas are settled together.
        for (let i = 0; i < 50; i++) {
          const next = rodPressure(path.line(pressure, values), m, left) - around;
          if (Math.abs(next - pressure) <= 1e-10 * (around + next)) return next;
          pressure = next;
        }
        return pressure;
      },
      'pressure that drives the flow through rod passages and holder',
      'isothermal pipe flow',
    );
  return rodWorking(rod, length, { given: given('m', 'flow', 'flow'), value: flow, result }, basis);
}
