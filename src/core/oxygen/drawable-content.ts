import type { Assumptions } from '../assumptions/assumptions.ts';
import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { cylinderYield } from './cylinder-yield.ts';
import { contentSteps, fullCylinderSteps } from './full-cylinder.ts';
import { KEPT_DRAW, KEPT_YIELD } from './kept-yield.ts';
import { leftoverSteps } from './leftover-in-force.ts';
import { wallSteps } from './supply-in-force.ts';

/** What the regulator delivers while cylinders are drawn: gauge pressure at its outlet [Pa] and flow [kg/s]. */
export interface Delivery {
  readonly pressure: number;
  readonly flow: number;
}

/** The delivery assumed where no plan says more. */
export const deliverySteps: readonly Step[] = [
  assumed('p_del', 'delivery pressure'),
  assumed('m_feed', 'cylinder draw flow'),
];

/** The delivery assumed where no plan says more. */
export function deliveryInForce(a: Assumptions): Delivery {
  return { pressure: a.value('delivery pressure'), flow: a.value('cylinder draw flow') };
}

/** Steps that one draw of a full cylinder is solved from. */
export const DRAWN_FROM = [
  ...['V_cyl', 'w_cyl', 'd_cyl', 'c_cyl', 'h_in', 'h_out'],
  ...['p_full', 'T_gas', 'p_left', 'p_air', 'm_draw', 'n_man'],
];

/** Gas temperature [K] when one is changed, and share that comes out, from values of `DRAWN_FROM`. */
export function solvedYield(values: readonly number[]): readonly number[] {
  const [volume, massPerVolume, diameter, specificHeat, insideFactor, outsideFilm, ...others] = values as readonly [
    ...(readonly [number, number, number, number, number, number]),
    ...(readonly number[]),
  ];
  const [full, temperature, left, air, flow, manifold] = others as [number, number, number, number, number, number];
  const wall = { massPerVolume, diameter, specificHeat, insideFactor, outsideFilm };
  const end = cylinderYield(volume, wall, full + air, temperature, left + air, flow, manifold);
  return [end.temperature, end.atRest > 0 ? end.drawn / end.atRest : 1];
}

/**
 * What one cylinder serves, `C_use`, out of the content `C` that can be drawn slowly: what comes out of a full one as assumed at
 * the assumed draw flow, the rest being held back by the cold (gas drawn fast is denser at the same gauge reading,
 * `cylinderYield`), less what is lost in putting it on.
 *
 * After the steps of `fullCylinderSteps` and `leftoverSteps`. `T_cold` rests on the same draw and is a result besides.
 */
export function servedSteps({ a, once }: Basis): readonly Step[] {
  const drawn = (values: readonly number[]): readonly number[] => {
    const of = values.join(' ');
    return once(`yield ${of}`, () => (of === KEPT_DRAW ? KEPT_YIELD.split(' ').map(Number) : solvedYield(values)));
  };
  const shown = (x: number): string => showQuantity(x, 'oxygen', a.system);
  return [
    assumed('m_draw', 'cylinder draw flow'),
    assumed('n_man', 'cylinders on manifold'),
    ...wallSteps,
    solved(
      'T_cold',
      'gas temperature in the cylinder when it is changed',
      'temperature',
      DRAWN_FROM,
      (...values) => drawn(values)[0]!,
      'energy balance of the gas with heat from the wall, at the draw flow',
      'churchill chu wall',
    ),
    solved(
      'share_cyl',
      'share of it that comes out at the draw flow',
      'ratio',
      DRAWN_FROM,
      (...values) => drawn(values)[1]!,
      'oxygen drawn at that temperature / oxygen that can be drawn slowly',
      'oxygen equation of state',
    ),
    assumed('C_loss', 'cylinder change loss'),
    calculated(
      'C_use',
      'oxygen that one cylinder serves',
      'oxygen',
      'C * share_cyl - C_loss',
      'content x share that comes out - cylinder change loss',
      {
        check: {
          above: 0,
          otherwise: (_, of) =>
            messages.notAbove(
              'content',
              shown(of('C')),
              `the ${shown(of('C_loss') / of('share_cyl'))} that the cold holds back and that is lost in putting a cylinder on`,
            ),
        },
      },
    ),
  ];
}

/**
 * What one full cylinder as assumed serves, `C_use`, after the steps `p_del` and `m_feed` of what the regulator delivers: drawn
 * from its fill at 70 F, brought to the gas temperature, down to the leftover pressure, with the gas cooling as it is drawn, less
 * what is lost in putting the cylinder on. `T_cold` is a result besides.
 */
export function cylinderSteps(basis: Basis): readonly Step[] {
  const { a } = basis;
  return [
    ...fullCylinderSteps(a),
    ...leftoverSteps(),
    ...contentSteps('p_full', a),
    calculated('C', 'content', 'oxygen', 'C_rest', 'oxygen that can be drawn slowly'),
    ...servedSteps(basis),
  ];
}

/** A full cylinder as assumed, drawn by a regulator that delivers a gauge pressure and a flow: the steps of `cylinderSteps`. */
export function drawnCylinder(basis: Basis, { pressure, flow }: Delivery = deliveryInForce(basis.a)): Evaluation {
  const list = basis.once(
    'drawn cylinder',
    () =>
      new StepList(
        [
          given('p_del', 'delivery pressure', 'pressure'),
          given('m_feed', 'flow fed by the regulator', 'flow'),
          ...cylinderSteps(basis),
        ],
        ['C_use', 'T_cold'],
      ),
  );
  return new Evaluation(list, { p_del: pressure, m_feed: flow }, basis.a);
}

/**
 * Oxygen [kg] that one full cylinder as assumed serves: see `cylinderSteps`.
 *
 * delivery: what the regulator delivers; more may have to be left for it (`leftoverSteps`).
 * Example: 43 L at 2200 psig and 70 F, drawn at 10 scfm to 250 psig: 212 of 244 scf.
 *
 * @example drawableContent(basis) / SCF // 210.2
 */
export function drawableContent(basis: Basis, delivery: Delivery = deliveryInForce(basis.a)): number {
  const { pressure, flow } = delivery;
  // Whoever asks for no more than what the leftover pressure feeds with ease has the same: thousands of single cells ask, each for its own.
  const easy = basis.reading('fed with ease', () => ({ pressure: -1, flow: -1, content: NaN }));
  if (pressure <= easy.pressure && flow <= easy.flow) return easy.content;
  return basis.once(`drawable ${pressure} ${flow}`, () => {
    const most = { pressure: Math.max(pressure, easy.pressure), flow: Math.max(flow, easy.flow) };
    const drawn = drawnCylinder(basis, most);
    const left = drawn.number('p_left');
    if (left > basis.a.value('leftover pressure') || drawn.number('p_valve') > 0.99 * left)
      return drawnCylinder(basis, delivery).number('C_use');
    return Object.assign(easy, most, { content: drawn.number('C_use') }).content;
  });
}
