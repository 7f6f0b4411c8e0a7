import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { cylinderContent } from '../oxygen/cylinder-content.ts';
import { FILL_TEMPERATURE } from '../oxygen/gauge-reading.ts';
import { requireAtLeast } from './check.ts';
import { LIMITS, isOut, type Limit } from './limits.ts';

export interface ManifoldCheck {
  /** Oxygen connected to the manifold [kg]. */
  readonly connected: number;
  /** Oxygen connected and in reserve on the site [kg]. */
  readonly site: number;
  /** Limits it passes, each with what is then due. */
  readonly over: readonly { readonly limit: Limit; readonly due: string }[];
  /** How they are found: steps `m` and `m_site`. */
  readonly working: Working;
}

/** Oxygen connected, `m`, and on the site, `m_site`, from cylinders that hold `m_1` each, by the steps `content`. */
const oxygenList = (content: readonly Step[]): StepList =>
  new StepList(
    [
      given('n', 'cylinders on the manifold', 'count'),
      given('m_more', 'oxygen not connected', 'oxygen'),
      ...content,
      calculated('m', 'oxygen connected', 'oxygen', 'n * m_1', 'cylinders x oxygen in one cylinder'),
      calculated('m_site', 'oxygen on the site', 'oxygen', 'm + m_more', 'oxygen connected + oxygen not connected'),
    ],
    ['m', 'm_site'],
  );

const GIVEN = oxygenList([given('m_1', 'oxygen in one cylinder', 'oxygen')]);
const FILLED = oxygenList([
  assumed('V', 'cylinder volume'),
  assumed('p', 'cylinder pressure'),
  assumed('p_air', 'air pressure'),
  solved(
    'rho',
    'density of the oxygen in it at 70 F',
    'density',
    ['p', 'p_air'],
    (gauge, air) => cylinderContent(1, gauge + air, FILL_TEMPERATURE),
    'of oxygen at this pressure and 70 F',
    'oxygen equation of state',
  ),
  calculated(
    'm_1',
    'oxygen in one cylinder',
    'oxygen',
    'V * rho',
    'water volume x density of oxygen at the fill pressure and 70 F',
  ),
]);

/**
 * Oxygen on a manifold and on the site against the limits of 29 CFR 1910.253(c)(2) and 1910.104(b)(1): 6000 cu ft on
 * one manifold indoors, 13,000 in service or 25,000 with reserves before the rules for bulk oxygen apply.
 *
 * The standards count cubic feet at 70 F and 14.7 psia, which is the scf used here.
 * @example manifoldLimits(12, 244 * SCF, 0, basis.a).connected / SCF // 2928
 *
 * @param cylinders connected to one manifold
 * @param content of one cylinder [kg of oxygen]; filled as in force where it is not given
 * @param reserve of oxygen on the site, not connected [kg]
 */
export function manifoldLimits(
  cylinders: number,
  content: number | undefined,
  reserve: number,
  a: Assumptions,
): ManifoldCheck {
  requireAtLeast('cylinders', cylinders, 0);
  if (content !== undefined) requireAtLeast('content', content, 0, 'kg');
  requireAtLeast('reserve', reserve, 0, 'kg');
  const values = { n: cylinders, m_more: reserve };
  const working =
    content === undefined ? work(FILLED, values, a, 'm_site') : work(GIVEN, { ...values, m_1: content }, a, 'm_site');
  const connected = working.evaluation.number('m');
  const site = working.value;
  const due: readonly (readonly [number, Limit, string])[] = [
    [
      connected,
      LIMITS.manifoldOxygen,
      'place the manifold outdoors or in a separate noncombustible building, or indoors in a room with half an hour of fire resistance or with nothing combustible within 20 ft; or split it into manifolds at least 50 ft apart',
    ],
    [connected, LIMITS.bulkConnected, 'the rules for bulk oxygen systems apply'],
    [site, LIMITS.bulkWithReserve, 'the rules for bulk oxygen systems apply'],
  ];
  return {
    connected,
    site,
    working,
    over: due.filter(([amount, limit]) => isOut(amount, limit)).map(([, limit, what]) => ({ limit, due: what })),
  };
}
