import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { assumed } from '../core/assumptions/assumed.ts';
import { Evaluation } from '../core/model/evaluation.ts';
import { given, solved, type Step } from '../core/model/step.ts';
import { StepList } from '../core/model/step-list.ts';
import { work, Working } from '../core/model/working.ts';
import { checkSupply, supplyWorking } from '../core/operations/check-supply.ts';
import { checkFill } from '../core/oxygen/check-fill.ts';
import { countInForce } from '../core/oxygen/cylinder-count.ts';
import type { CylinderChoice } from '../core/oxygen/cylinder-sizes.ts';
import { deliverySteps } from '../core/oxygen/drawable-content.ts';
import { contentSteps } from '../core/oxygen/full-cylinder.ts';
import { FILL_TEMPERATURE, gaugeReading } from '../core/oxygen/gauge-reading.ts';
import { settingInForce } from '../core/oxygen/hose-setting.ts';
import { leftoverSteps } from '../core/oxygen/leftover-in-force.ts';
import { lossInForce } from '../core/oxygen/loss-in-force.ts';
import { optional, required, tableFunction, workedFunction, type Declaration } from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import {
  CYLINDER_PRESSURE,
  DEPTH,
  GAS_TEMPERATURE,
  HOSE_BORE,
  HOSE_LENGTH,
  LEFTOVER_PRESSURE,
  OXYGEN_AMOUNT,
  OXYGEN_FLOW,
  REGULATOR_SETTING,
  TIP_PRESSURE,
} from './limits.ts';
import { SUPPLY_COLUMNS, supplyLines } from './supply-table.ts';

const CYLINDER = ['oxygen equation of state', '49 cfr 173.302a', 'common practice'];
const HOSE = ['isothermal pipe flow', 'colebrook', 'oxygen equation of state', 'oxygen viscosity', 'common practice'];

/** What the cylinder is made for: the user's own rating, that of the size named, or the assumed one. */
function checkReading(pressure: number, temperature: number, { size }: CylinderChoice, a: Assumptions): void {
  const { value, kind } = a.inForce('cylinder rating');
  const own = kind === 'your value' || kind === 'your log';
  if (size && !own) checkFill('pressure', pressure, temperature, size.servicePressure, size.fillTemperature, a);
  else checkFill('pressure', pressure, temperature, value, FILL_TEMPERATURE, a);
}

const GAUGE = new StepList(
  [
    given('p_fill', 'pressure at 70 F', 'pressure'),
    given('T_gas', 'temperature', 'temperature'),
    assumed('p_air', 'air pressure'),
    solved(
      'p_cyl',
      'gauge reading',
      'pressure',
      ['p_fill', 'T_gas', 'p_air'],
      (fill, temperature, air) => gaugeReading('pressure at 70 F', fill, temperature, air),
      'same density as at 70 F',
      'oxygen equation of state',
    ),
  ],
  ['p_cyl'],
);

const hoseLength = required(HOSE_LENGTH, 'Length of hose from regulator to holder, ft', '50');
const bore = required(HOSE_BORE, 'Bore of the hose', '"3/8"');

export const SUPPLY_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.CYLINDER.CONTENT',
    family: 'CYLINDER',
    summary:
      'Oxygen that can be drawn from a cylinder, or a pack, down to a leftover pressure, real gas, all at one temperature. With a leftover pressure of 0 it is all but what stays at air pressure.',
    parameters: {
      waterVolume: required(
        { kind: 'cylinder' },
        'Water volume, L, or a common size by name, such as 43 L or 12 x 50 L pack, which brings its rating',
        '43',
      ),
      pressure: required(CYLINDER_PRESSURE, 'Pressure that its gauge shows at that temperature', '2200'),
      temperature: optional(
        GAS_TEMPERATURE,
        'Temperature of the gas; the assumption gas temperature, 70 F, when left out',
        '70',
      ),
      leftoverPressure: optional(
        LEFTOVER_PRESSURE,
        'Pressure left in it; when left out the assumption leftover pressure, 250 psi, or what the regulator needs',
        '0',
      ),
    },
    assume: true,
    result: { kind: 'value', quantity: 'oxygen' },
    sources: CYLINDER,
    cautions: ['CYLINDER'],
    examples: [
      '=BURN.CYLINDER.CONTENT(43,2200)',
      '=BURN.CYLINDER.CONTENT("43 L",2200,70,0)',
      '=BURN.CYLINDER.CONTENT("12 x 50 L pack","200 bar","15 C",0)',
    ],
    working: ({ waterVolume, pressure, temperature, leftoverPressure }, { a }) => {
      checkReading(pressure, temperature ?? a.value('gas temperature'), waterVolume, a);
      const { size, volume } = waterVolume;
      // The cylinder may stand elsewhere; what the regulator needs follows from the gas as assumed.
      const at =
        temperature === undefined ? undefined : assumed('T_reg', 'gas temperature', 'gas temperature at the regulator');
      const steps: readonly Step[] = [
        ...(size ? [given('size', 'size', 'count')] : []),
        given('V_cyl', 'water volume', 'capacity'),
        given('p_cyl', 'pressure in the cylinder', 'pressure'),
        assumed('p_air', 'air pressure'),
        temperature === undefined
          ? assumed('T_gas', 'gas temperature')
          : given('T_gas', 'temperature of the gas', 'temperature'),
        ...(leftoverPressure === undefined
          ? [...deliverySteps, ...(at ? [at] : []), ...leftoverSteps(at?.symbol)]
          : [given('p_left', 'pressure left in the cylinder', 'pressure')]),
        ...contentSteps('p_cyl', a),
      ];
      const values = {
        ...(size && { size: size.name }),
        V_cyl: volume,
        p_cyl: pressure,
        ...(temperature !== undefined && { T_gas: temperature }),
        ...(leftoverPressure !== undefined && { p_left: leftoverPressure }),
      };
      const besides = size ? ['size'] : [];
      return new Working(new Evaluation(new StepList(steps, ['C_rest', ...besides]), values, a), 'C_rest', besides);
    },
  }),
  workedFunction({
    name: 'BURN.CYLINDER.COUNT',
    family: 'CYLINDER',
    summary:
      'Whole cylinders for an amount of oxygen at the work: with the pressure to leave in them, the cold of a fast draw, and what is lost in changing them.',
    parameters: {
      oxygen: required(OXYGEN_AMOUNT, 'Oxygen at the work, lighting and idle losses included', '1000'),
      content: optional(
        { ...OXYGEN_AMOUNT, above: 0 },
        'What can be drawn slowly from one cylinder, as BURN.CYLINDER.CONTENT gives it; a full one as assumed when left out',
        '215',
      ),
    },
    assume: true,
    result: { kind: 'value', quantity: 'count' },
    sources: [...CYLINDER, 'churchill chu wall', 'army welding manual'],
    cautions: ['CYLINDER'],
    examples: [
      '=BURN.CYLINDER.COUNT(1000)',
      '=BURN.CYLINDER.COUNT(1000,BURN.CYLINDER.CONTENT("50 L","200 bar","15 C"))',
    ],
    working: ({ oxygen, content }, basis) => countInForce(oxygen, content, basis),
  }),
  workedFunction({
    name: 'BURN.CYLINDER.GAUGE',
    family: 'CYLINDER',
    summary:
      'What the gauge of a cylinder reads at a temperature, with the same oxygen in it: 2200 psi at 70 F reads 1783 psi at 0 F.',
    parameters: {
      'pressure at 70 F': required(CYLINDER_PRESSURE, 'Pressure of the cylinder at 70 F', '2200'),
      temperature: required(GAS_TEMPERATURE, 'Temperature of cylinder and gas', '"0 F"'),
    },
    assume: false,
    result: { kind: 'value', quantity: 'pressure' },
    sources: ['oxygen equation of state'],
    cautions: ['CYLINDER'],
    examples: ['=BURN.CYLINDER.GAUGE(2200,0)', '=BURN.CYLINDER.GAUGE(2200,"38 C")'],
    working: ({ 'pressure at 70 F': fill, temperature }, { a }) => work(GAUGE, { p_fill: fill, T_gas: temperature }, a),
  }),
  workedFunction({
    name: 'BURN.HOSE.LOSS',
    family: 'HOSE',
    summary:
      'Pressure lost in a hose with its fittings, from the regulator setting to the holder. Says the largest flow where the hose cannot pass it.',
    parameters: {
      flow: required(OXYGEN_FLOW, 'Oxygen flow', '20'),
      setting: required(REGULATOR_SETTING, 'Regulator setting, gauge, while oxygen flows', '90'),
      length: hoseLength,
      bore,
    },
    assume: true,
    result: { kind: 'value', quantity: 'pressure' },
    sources: HOSE,
    cautions: ['HOSE'],
    examples: ['=BURN.HOSE.LOSS(20,90,50,"3/8")'],
    working: ({ flow, setting, length, bore: d }, basis) => lossInForce(flow, setting, length, d, basis),
  }),
  workedFunction({
    name: 'BURN.HOSE.SETTING',
    family: 'HOSE',
    summary:
      'Regulator setting that gives a tip pressure at the end of a hose while oxygen flows: tip pressure, water over the work, loss in hose and fittings.',
    parameters: {
      tipPressure: required(TIP_PRESSURE, 'Tip pressure, gauge, over that of the water at the work', '90'),
      flow: required(OXYGEN_FLOW, 'Oxygen flow', '15'),
      length: hoseLength,
      bore,
      depth: optional(DEPTH, 'Depth of work under water, ft; the assumption water depth, 0, when left out', '60'),
    },
    assume: true,
    result: { kind: 'value', quantity: 'pressure' },
    sources: [...HOSE, 'navy diving manual', 'navy underwater cutting'],
    cautions: ['HOSE'],
    examples: ['=BURN.HOSE.SETTING(90,15,50,"3/8")', '=BURN.HOSE.SETTING(90,15,100,"3/8",60)'],
    about: ({ depth }) => figureOf('underwater', depth),
    working: ({ tipPressure: tip, flow, length, bore: d, depth }, basis) =>
      settingInForce({ tip, flow, length, bore: d, depth }, basis),
  }),
  tableFunction({
    name: 'BURN.SUPPLY.CHECK',
    family: 'SUPPLY',
    summary:
      'One supply line checked: where cylinder, regulator, hose, holder and rod agree, flow now and when the cylinder is changed, minutes until then, what limits it and what would mend it.',
    parameters: {
      rod: required({ kind: 'rod' }, 'Rod, such as 3/8 or 3/8 x 36', '"3/8 x 36"'),
      setting: required(REGULATOR_SETTING, 'Regulator setting, gauge, read while the rod burns', '90'),
      hoseLength,
      bore,
      cylinders: required(
        { kind: 'quantity', quantity: 'count', above: 0, max: 64, whole: true },
        'Cylinders drawn together on one regulator',
        '1',
      ),
      content: optional(
        { ...OXYGEN_AMOUNT, above: 0 },
        'What can still be drawn slowly from each; full as assumed when left out',
        '100',
      ),
      depth: optional(DEPTH, 'Depth of work under water, ft; the assumption water depth, 0, when left out', '30'),
    },
    assume: true,
    result: { kind: 'table', columns: SUPPLY_COLUMNS },
    sources: [...HOSE, 'blasius', 'orifice flow', 'churchill chu wall', 'navy diving manual'],
    cautions: ['SUPPLY'],
    examples: ['=BURN.SUPPLY.CHECK("3/8 x 36",90,50,"3/8",1)', '=BURN.SUPPLY.CHECK("3/8 x 36",90,200,"1/4",2,100)'],
    about: ({ depth }) => figureOf('underwater', depth),
    calculate: (inputs, basis) => supplyLines(checkSupply(inputs, basis), inputs, basis.a),
    working: supplyWorking,
  }),
];
