/**
 * Steps found by iteration, found again from nothing but the numbers that the working shows.
 *
 * The assumptions and inputs are rebuilt from the steps; whatever the calculation took from elsewhere would show as a difference.
 */
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import {
  ironEnthalpy,
  moltenOxideEnthalpy,
  oxygenGasEnthalpy,
  splitOxidationHeat,
  splitOxygenDemand,
} from '../../../src/core/burn/iron-heat.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { meanFlow, rodLine } from '../../../src/core/burn/rod-line.ts';
import { findRod, type Rod, type RodChoice } from '../../../src/core/burn/rods.ts';
import { eyeShade } from '../../../src/core/safety/eye-shade.ts';
import { fireReach } from '../../../src/core/safety/fire-reach.ts';
import { coolingInForce, physicsInForce } from '../../../src/core/heat/heat-in-force.ts';
import { coolingTime } from '../../../src/core/heat/cooling-time.ts';
import { tabulatedCoolingTime } from '../../../src/core/heat/cooling-table.ts';
import { checkSupply } from '../../../src/core/operations/check-supply.ts';
import { cylinderContent } from '../../../src/core/oxygen/cylinder-content.ts';
import { cylinderYield } from '../../../src/core/oxygen/cylinder-yield.ts';
import { FILL_TEMPERATURE, gaugeReading } from '../../../src/core/oxygen/gauge-reading.ts';
import { hoseLoss } from '../../../src/core/oxygen/hose-loss.ts';
import { HIGHEST_SETTING, hoseSetting } from '../../../src/core/oxygen/hose-setting.ts';
import { isotherm } from '../../../src/core/oxygen/oxygen-state.ts';
import { leastSupply } from '../../../src/core/oxygen/regulator.ts';
import { rodFlow } from '../../../src/core/oxygen/rod-flow.ts';
import { shrinkInForce } from '../../../src/core/fit/shrink-in-force.ts';
import { yieldingPressure } from '../../../src/core/fit/grip-force.ts';
import { commonRam } from '../../../src/core/fit/push-ram.ts';
import { INCH } from '../../../src/core/units/quantities.ts';
import { burntPinGrip, burntPinLoosening } from '../../../src/core/operations/burnt-pin.ts';
import type { Shrink } from '../../../src/core/fit/shrink-pin.ts';
import type { WorkedStep as Step } from '../../../src/core/model/step.ts';

export class Shown {
  private readonly bySymbol: ReadonlyMap<string, Step>;

  /** `others` are the assumptions in force; drawn steps rest on ranges and words that no line shows. */
  constructor(
    steps: readonly Step[],
    private readonly others: Assumptions = Assumptions.defaults(),
  ) {
    this.bySymbol = new Map(steps.map((s) => [s.symbol, s]));
  }
  has(symbol: string): boolean {
    return this.bySymbol.has(symbol);
  }
  /** The number that the working shows under a symbol. */
  readonly n = (symbol: string): number => {
    const value = this.bySymbol.get(symbol)?.value;
    if (typeof value !== 'number') throw new Error(`the working shows no number ${symbol}`);
    return value;
  };
  text(symbol: string): string {
    return String(this.bySymbol.get(symbol)?.value ?? '');
  }
  /** Assumptions as the working shows them, by symbol; those it does not show stay as they are in force. */
  basis(names: Readonly<Record<string, NumberName>>, words: readonly Override[] = []): Basis {
    const overrides = Object.entries(names).flatMap(([symbol, name]): Override[] =>
      this.has(symbol) && this.n(symbol) !== this.others.value(name)
        ? [{ name, value: this.n(symbol), kind: 'your value' }]
        : [],
    );
    return new Basis(Assumptions.from([...overrides, ...words], this.others));
  }
}

/** Heat content of the metal that the working names, where it leaves. */
function heatOfWork(shown: Shown): number {
  const material = findMaterial(shown.text('material'));
  if (material.kind !== 'metal') throw new Error(`${material.name} is no metal`);
  return material.heat(shown.n(material.melts === undefined ? 'T' : 'T_work'));
}

const LINE = {
  d_holder: 'holder orifice',
  r_holder: 'bar holder ratio',
  p_air: 'air pressure',
  T_gas: 'gas temperature',
  m_measured: 'rod flow measured',
  p_measured: 'pressure',
  m_over: 'flow factor',
  h_water: 'water depth',
  grad: 'salt water column',
} as const;

function rodShown(shown: Shown): Rod {
  const { rod } = findRod(shown.text('rod'));
  return {
    ...rod,
    outsideDiameter: shown.n('d_rod'),
    bore: shown.n('d_bore'),
    wires: shown.n('n_wire'),
    wireDiameter: shown.n('d_wire'),
  };
}

function lineBasis(shown: Shown): Basis {
  const stub = findRod(shown.text('rod')).rod.kind === 'bar' ? ('bar stub' as const) : ('stub' as const);
  return shown.basis({ ...LINE, stub });
}

const HEAT = {
  b: 'boss over pin',
  T_air: 'ambient temperature',
  epsilon: 'surface emissivity',
  h_joint: 'joint conductance',
  T_water: 'cooling water temperature',
  wet: 'wet boss share',
  C_sf: 'boiling surface factor',
  k_boil: 'boiling flux factor',
  T_film: 'film boiling limit',
  zone: 'heated zone',
  T_melt: 'wall melting point',
  h_part: 'heat into the part',
  dT_even: 'pin over boss when pushed',
  w_pilot: 'pilot width',
  longer: 'longer cooling',
} as const;

const STEEL = {
  i: 'interference over diameter',
  E_s: 'pin modulus',
  E_h: 'boss modulus',
  nu_s: 'poisson ratio',
  f_s: 'pin yield strength',
  f_h: 'boss yield strength',
} as const;

/** A pin in its boss from before burning until it is pushed. */
function shrinkShown(shown: Shown): Shrink {
  const method = shown.text('cooled') === 'water' ? 'water' : 'air';
  const { a } = heatBasis(shown);
  return shrinkInForce(
    { diameter: shown.n('D'), hole: shown.n('d'), boss: shown.n('D_o'), length: shown.n('L') },
    method,
    shown.n('pace'),
    a,
  );
}

/** A grip after burning: drawn from the ranges that go with the values shown, with the seed of the function. */
function gripShown(shown: Shown, symbol: string): number {
  const { n } = shown;
  const basis = shown.basis(
    { ...HEAT, ...STEEL, mu_grip: 'joint friction', tau: 'rust bond', left: 'bond left after burning' },
    [{ name: 'cooling method', word: shown.text('cooled') }],
  );
  const pin = { diameter: n('D'), length: n('L'), boss: n('D_o'), hole: n('d') };
  return burntPinGrip(pin, n('F_tried'), basis).working().evaluation.number(symbol);
}

/** What is taken off in the cases, drawn likewise. */
function loosenedShown(shown: Shown, symbol: string): number {
  const { n } = shown;
  const method = shown.text('cooled') === 'water' ? 'water' : 'air';
  const basis = heatBasis(shown);
  return burntPinLoosening({ diameter: n('D'), hole: n('d') }, { method, decidedBy: [] }, basis).evaluation.number(
    symbol,
  );
}

function heatBasis(shown: Shown): Basis {
  const water = shown.text('cooled') === 'water';
  return shown.basis({ ...HEAT, ...STEEL, T_push: water ? 'cooling target with water' : 'cooling target in air' }, [
    { name: 'cooling method', word: water ? 'water' : 'air' },
  ]);
}

const hoseShown = ({ n }: Shown) => ({
  length: n('L_hose'),
  bore: n('d_hose'),
  loss: n('K_hose'),
  roughness: n('e_hose'),
});
const wallShown = ({ n }: Shown) => ({
  massPerVolume: n('w_cyl'),
  diameter: n('d_cyl'),
  specificHeat: n('c_cyl'),
  insideFactor: n('h_in'),
  outsideFilm: n('h_out'),
});

function yieldShown(shown: Shown) {
  const { n } = shown;
  return cylinderYield(
    n('V_cyl'),
    wallShown(shown),
    n('p_full') + n('p_air'),
    n('T_gas'),
    n('p_left') + n('p_air'),
    n('m_draw'),
    n('n_man'),
  );
}

function reachShown({ n }: Shown) {
  const air = { density: n('rho_air'), viscosity: n('nu'), wind: n('u') };
  const { drops } = fireReach(n('h'), [n('d_low'), n('d_mid'), n('d_high')], n('rho'), air, {
    speed: n('v_0'),
    bounce: n('e_b'),
  });
  return drops.reduce((a, b) => (b.reach > a.reach ? b : a));
}

/** The closed forms of what a room's air holds of a fume, which lose digits where little air is changed. */
const heldAtEnd = (x: number): number => (x === 0 ? 1 : -Math.expm1(-x) / x);
const heldOnAverage = (x: number): number => (x === 0 ? 1 / 2 : (x + Math.expm1(-x)) / (x * x));

function supplyShown(shown: Shown) {
  const { n } = shown;
  const basis = shown.basis(
    {
      d_holder: 'holder orifice',
      r_holder: 'bar holder ratio',
      p_air: 'air pressure',
      T_gas: 'gas temperature',
      m_measured: 'rod flow measured',
      p_measured: 'pressure',
      stub: 'stub',
      V_cyl: 'cylinder volume',
      p_fill: 'cylinder pressure',
      p_low: 'leftover pressure',
      droop: 'regulator droop',
      m_droop: 'regulator droop flow',
      rise_reg: 'regulator supply effect',
      d_valve: 'regulator valve',
      K_hose: 'hose fittings',
      e_hose: 'hose roughness',
      w_cyl: 'cylinder steel',
      d_cyl: 'cylinder inside diameter',
      c_cyl: 'cylinder steel heat',
      h_in: 'cylinder inside convection',
      h_out: 'cylinder outside film',
      grad: 'salt water column',
    },
    [{ name: 'regulator set', word: shown.text('set') }],
  );
  const rod: RodChoice = { rod: rodShown(shown), length: n('L_rod'), coupled: false };
  const content = shown.has('C_given') ? n('C_given') : undefined;
  return checkSupply(
    {
      rod,
      setting: n('p_set'),
      hoseLength: n('L_hose'),
      bore: n('d_hose'),
      cylinders: n('n_cyl'),
      content,
      depth: shown.has('h_water') ? n('h_water') : 0,
    },
    basis,
  );
}

/** Smallest fillet for the thicker plate: AWS D1.1, minimum fillet weld sizes (from memory; 1/8 in confirmed). */
function legShown({ n }: Shown): number {
  const thickest = Math.max(n('t_base'), n('t_shield')) / INCH - 1e-9;
  return (thickest <= 0.25 ? 1 / 8 : thickest <= 0.5 ? 3 / 16 : thickest <= 0.75 ? 1 / 4 : 5 / 16) * INCH;
}

/** How each is found again, by symbol and the beginning of its formula in words. */
const AGAIN: readonly (readonly [symbol: string, formula: string, again: (shown: Shown) => number])[] = [
  [
    'm_0',
    'isothermal flow through holder and rod passages at the tip pressure, harmonic mean',
    (s) => {
      const basis = lineBasis(s);
      return meanFlow(rodShown(s), s.n('L_rod'), s.n('p'), basis) / basis.a.value('flow factor');
    },
  ],
  [
    'm_widen_0',
    'isothermal flow through holder and rod passages at the tip pressure, harmonic mean',
    (s) => {
      const basis = lineBasis(s);
      return meanFlow(rodShown(s), s.n('L_rod'), s.n('p_widen'), basis) / basis.a.value('flow factor');
    },
  ],
  [
    'm',
    'isothermal flow through holder and rod passages at the tip pressure, harmonic mean',
    (s) => meanFlow(rodShown(s), s.n('L_rod'), s.n('p'), lineBasis(s)),
  ],
  [
    'm',
    'isothermal flow through holder and rod passages',
    (s) => {
      const basis = lineBasis(s);
      return rodFlow(
        rodLine(rodShown(s), s.n('p'), basis),
        s.n('p_air') + (s.has('p_water') ? s.n('p_water') : 0) + s.n('p'),
        s.n('L'),
      );
    },
  ],
  ['D_ox', 'from the share of the product that is FeO', (s) => splitOxygenDemand(s.n('FeO'))],
  ['H', 'from the share of the product that is FeO', (s) => splitOxidationHeat(s.n('FeO'))],
  ['h_rod', 'iron from 25 C to the slag temperature', (s) => ironEnthalpy(s.n('T'))],
  ['h_oxide', 'FeO and Fe3O4 from 25 C to the slag temperature', (s) => moltenOxideEnthalpy(s.n('T'), s.n('FeO'))],
  ['h_free', 'oxygen from 25 C to its temperature', (s) => oxygenGasEnthalpy(s.n('T_free'))],
  ['h_work', 'the work from 25 C to', (s) => heatOfWork(s)],
  ['h_melt', 'the work from 25 C to', (s) => heatOfWork(s)],
  [
    't_cool',
    'until the hottest part of the pin is at the target and the pin even with its boss, cooled with',
    (s) => tabulatedCoolingTime({ diameter: s.n('D'), hole: s.n('d'), length: s.n('L') }, s.n('pace'), heatBasis(s)),
  ],
  [
    'p_out',
    'isothermal flow with friction of the real gas through hose and fittings',
    (s) => {
      const found = hoseSetting(
        hoseShown(s),
        s.n('p_hose') + s.n('p_air'),
        s.n('m'),
        isotherm(s.n('T_gas')),
        HIGHEST_SETTING + s.n('p_air'),
      );
      return (found.passes ? found.setting : NaN) - s.n('p_air');
    },
  ],
  [
    'p_hose',
    'isothermal flow with friction of the real gas through hose and fittings',
    (s) => {
      const found = hoseLoss(hoseShown(s), s.n('p_out') + s.n('p_air'), s.n('m'), isotherm(s.n('T_gas')), s.n('p_air'));
      return s.n('p_out') - (found.passes ? found.loss : NaN);
    },
  ],
  ['p_full', 'same density', (s) => gaugeReading('', s.n('p_fill'), s.n('T_gas'), s.n('p_air'), 'US')],
  ['p_cyl', 'same density', (s) => gaugeReading('', s.n('p_fill'), s.n('T_gas'), s.n('p_air'), 'US')],
  [
    'p_valve',
    'drives the flow',
    (s) => {
      const oxygen = isotherm(s.n(s.has('T_reg') ? 'T_reg' : 'T_gas'));
      const valve = { diameter: s.n('d_valve'), dischargeCoefficient: 1 };
      return leastSupply({ valve }, s.n('p_del') + s.n('p_air'), s.n('m_feed'), oxygen) - s.n('p_air');
    },
  ],
  ['T_cold', 'energy balance of the gas with heat from the wall, at the draw flow', (s) => yieldShown(s).temperature],
  ['share_cyl', 'oxygen drawn at that temperature', (s) => yieldShown(s).drawn / yieldShown(s).atRest],
  ['R', 'smallest common rating', (s) => commonRam(s.n('F'), s.n('use'))],
  ['R_ram', 'smallest common rating', (s) => commonRam(s.n('F_grip'), s.n('use_ram'))],
  ['leg', 'smallest fillet', legShown],
  [
    'p_plastic',
    'pin and boss as rings that yield',
    ({ n }) =>
      yieldingPressure(n('D'), n('d'), n('D_o'), n('delta'), n('E_s'), n('E_h'), n('nu_s'), n('f_s'), n('f_h')),
  ],
  ['p_bored', '', (s) => shrinkShown(s).pressureBored],
  ['p_hot', '', (s) => shrinkShown(s).pressureMost],
  ['p_push', '', (s) => shrinkShown(s).pushed.pressure],
  ['delta_push', '', (s) => shrinkShown(s).pushed.interference],
  ['delta_cold', '', (s) => shrinkShown(s).cold.interference],
  ['loose', '', (s) => loosenedShown(s, 'loose')],
  ['loose_low', '', (s) => loosenedShown(s, 'loose_low')],
  ['loose_high', '', (s) => loosenedShown(s, 'loose_high')],
  ['p_nothing', 'share of the draws', (s) => gripShown(s, 'p_nothing')],
  ['p_nothing', '', (s) => loosenedShown(s, 'p_nothing')],
  ['w_agree', 'of ', (s) => gripShown(s, 'w_agree')],
  ['F_0', '', (s) => gripShown(s, 'F_0')],
  ['F_1', '', (s) => gripShown(s, 'F_1')],
  [
    'rho_full',
    'of oxygen',
    (s) => cylinderContent(1, s.n(s.has('p_full') ? 'p_full' : 'p_cyl') + s.n('p_air'), s.n('T_gas')),
  ],
  ['rho_left', 'of oxygen', (s) => cylinderContent(1, s.n('p_left') + s.n('p_air'), s.n('T_gas'))],
  ['rho', 'of oxygen at this pressure and 70 F', (s) => cylinderContent(1, s.n('p') + s.n('p_air'), FILL_TEMPERATURE)],
  ['shade', 'oxygen cutting', (s) => eyeShade(s.n('s')).shade],
  ['N_less', 'what the rods', (s) => onTheWayShown(s).burned / (s.n('L_burn') - s.n('x')) - onTheWayShown(s).rods],
  ['N_deep', 'strings on', (s) => onTheWayShown(s).rods],
  ['l_deep', 'length of them', (s) => onTheWayShown(s).burned],
  ['f_end', '(1 - exp', (s) => heldAtEnd(s.n('n_air'))],
  ['f_mean', '(1 - (1 - exp', (s) => heldOnAverage(s.n('n_air'))],
  ['f_from', '(1 - (1 - exp', (s) => heldOnAverage(s.n('n_from'))],
  ['d', 'of the sizes followed', (s) => reachShown(s).diameter],
  ['s_fly', 'fall with the drag', (s) => reachShown(s).flown],
  ['s_bounce', 'bounces at the worst angle', (s) => reachShown(s).bounced],
  ...(
    [
      ['p_out', (c) => c.check.point.delivery - c.air],
      ['p_hose', (c) => c.check.point.tip - c.air],
      ['p_behind', (c) => c.check.point.behindHolder - c.air],
      ['m', (c) => c.check.point.flow],
      ['p_cyl', (c) => c.check.point.cylinder - c.air],
      ['m_now', (c) => c.check.flow],
      ['m_left', (c) => c.check.flowAtLeftover],
      ['p_left', (c) => c.check.leftover - c.air],
      ['C_drawn', (c) => c.check.drawn],
      ['t_cyl', (c) => c.check.time],
      ['T_cold', (c) => c.check.coldest],
    ] as const satisfies readonly (readonly [string, (c: ReturnType<typeof supplyShown>) => number])[]
  ).map(([symbol, of]): (typeof AGAIN)[number] => [symbol, '', (s) => of(supplyShown(s))]),
];

/** Rods used up on the way down a pierce: the balance of each by halving, from the times that heat and slag would take alone. */
function onTheWayShown({ n }: Shown): { readonly rods: number; readonly burned: number } {
  const [burns, x, u, v, c, s] = [n('L_burn'), n('x'), n('u_rod') * n('scatter'), n('v'), n('c'), n('s')];
  const sharp = n('sharp');
  const taken = (y: number): number => u * ((y / v) ** sharp + ((y + (y * y) / (2 * s)) / c) ** sharp) ** (1 / sharp);
  let [rods, from] = [0, 0];
  if (n('l_over') <= 0) return { rods, burned: 0 };
  for (;;) {
    let [low, high] = [from, x];
    const fits = (to: number): boolean => to + taken(to) - taken(from) <= burns;
    if (fits(x)) return { rods, burned: taken(from) };
    for (let i = 0; i < 100; i++) {
      const middle = (low + high) / 2;
      if (fits(middle)) low = middle;
      else high = middle;
    }
    [rods, from] = [rods + 1, low];
  }
}

/** The value of a step found by iteration, found again; undefined where there is no way to, NaN where the working shows too little. */
export function foundAgain(step: Step, steps: readonly Step[], others?: Assumptions): number | undefined {
  const shown = new Shown(steps, others);
  // The pressure that drives a flow is checked by the flow that it drives.
  if (step.symbol === 'p' && step.formula.startsWith('pressure that drives the flow')) {
    const basis = lineBasis(shown);
    const flow = rodFlow(
      rodLine(rodShown(shown), shown.n('p'), basis),
      shown.n('p_air') + (shown.has('p_water') ? shown.n('p_water') : 0) + shown.n('p'),
      shown.n('L'),
    );
    return (step.value as number) * (flow / shown.n('m'));
  }
  if (step.formula.startsWith('time until the hottest part')) return cooledAgain(shown);
  return AGAIN.find(([symbol, formula]) => symbol === step.symbol && step.formula.startsWith(formula))?.[2](shown);
}

/** Cooling of a pin as BURN.COOL.TIME calculates it, without the table. */
function cooledAgain(shown: Shown): number {
  const { a } = heatBasis(shown);
  const pin = { diameter: shown.n('D'), hole: shown.n('d'), length: shown.n('L'), boss: shown.n('D_o') };
  const method = shown.text('cooled') === 'water' ? 'water' : 'air';
  return coolingTime(
    coolingInForce(pin, method, shown.n('T_push'), shown.n('pace'), a),
    physicsInForce(a),
    undefined,
    'US',
  );
}
