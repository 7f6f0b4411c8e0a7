import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import { BALANCE_LINES, BALANCE_RESULTS, PURITY_STEPS, heatBalanceSteps } from '../burn/heat-balance.ts';
import { materialSteps, type Material } from '../burn/materials.ts';
import { AT_WIDENING, meanFlowSteps, rodLineSteps } from '../burn/rod-line.ts';
import { rodNames, type Rod } from '../burn/rods.ts';
import { calculated, decidedBy, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import type { Operation } from './operation.ts';
import { countSteps } from './rod-count.ts';
import { costSteps, jointsOf } from './work-cost.ts';
import { POSITION, siteOf } from './site.ts';
import { pressureSteps } from './tip-pressure.ts';

/** What decides which steps an item has; all else are values of these steps. */
export interface ItemShape {
  readonly operation: Operation;
  /** Sizes that are given, in the order of the operation; it plans the others. */
  readonly sizes: readonly string[];
  readonly rod: Rod;
  readonly coupled: boolean;
  readonly material: Material;
  readonly method: string | undefined;
  /** Whether the rod was picked; why, and why one way was taken, is said of each item. */
  readonly picked?: boolean;
  /** Assumptions that decide what is taken where the item leaves it open: its rod, its way, its material. */
  readonly decidedBy?: {
    readonly rod: readonly string[];
    readonly method: readonly string[];
    readonly material: readonly string[];
  };
}

/** Steps of the sizes that are given or planned. */
export function sizeSteps({ operation, sizes }: Pick<ItemShape, 'operation' | 'sizes'>): readonly Step[] {
  const named = operation.order.map((name) => ({ name, ...operation.sizes[name]! }));
  const isGiven = (name: string): boolean => sizes.includes(name);
  return [
    ...named.flatMap(({ name, symbol, quantity }) => (isGiven(name) ? [given(symbol, name, quantity)] : [])),
    ...named.flatMap(({ name }) => (isGiven(name) ? [] : (operation.plans?.[name] ?? []))),
  ];
}

/** The sizes and the tip pressures alone: they come before there is a rod. */
export function planningList(operation: Operation, sizes: readonly string[], a: Assumptions): StepList {
  const planned = operation.order.map((name) => operation.sizes[name]!.symbol);
  return new StepList(
    [...sizeSteps({ operation, sizes }), ...pressureSteps(operation, a)],
    ['p', ...(operation.widening ? ['p_widen'] : []), ...planned],
  );
}

/** The choice of rod and what its flow is solved from: steps up to the mean flow `m`. `rodGiven` has what the register gives. */
function rodSteps({ operation, rod, picked = false, decidedBy: by }: ItemShape, basis: Basis): readonly Step[] {
  const steps: readonly Step[] = [
    given('rod', 'rod', 'count', picked ? { kind: 'calculated' } : {}),
    given('L_rod', 'length of a rod', 'length', { words: 'given or picked with the rod' }),
    given('mu', 'steel in a length of rod', 'massPerLength', {
      words: 'tube wall and wires x density of steel, register of rods',
      kind: 'common practice',
      source: rod.source,
    }),
    assumed('stub', rodNames(rod).stub),
    ...rodLineSteps(rod, basis.a),
    ...meanFlowSteps(rod, basis, operation.widening && AT_WIDENING),
  ];
  return decided(steps, by?.rod, ({ from, symbol }) => 'given' in from || symbol === 'stub');
}

/** The same steps, those of some kind as assumptions decide them. */
const decided = (
  steps: readonly Step[],
  by: readonly string[] = [],
  which: (step: Step) => boolean = () => true,
): readonly Step[] => (by.length === 0 ? steps : steps.map((step) => (which(step) ? decidedBy(step, ...by) : step)));

/**
 * Burning time: each pierce is held up by the heat that removes its metal and by the slag that must get out of it, and the rest
 * by the heat alone.
 *
 *     t_melt = x / v,   t_slag = integral from 0 to x of (1 + y / s) dy / c = x [1 + x / (2 s)] / c
 *     t = (t_melt^n + t_slag^n)^(1 / n)
 *
 * x depth, v what the heat could advance, c the advance slag allows at the mouth, s the depth at which slag has halved it, n how
 * sharply the slower of the two decides: 1 adds them up, as if one waited for the other, and without end the slower alone counts.
 * In a hand-held burn neither does: slag in the way takes heat, and a pierce that the heat holds up fills with slag. The rest
 * has a flow of its own where it `widens` what was pierced: `m_widen`. Steps of the work, `rho`, `k` and `m` stand before.
 * Source: the blend of two limits of Churchill and Usagi; common practice for the limit of slag and for n.
 */
export function burningSteps(
  pierced: boolean,
  { removal, slag, words = '' }: { readonly removal: string; readonly slag: string; readonly words?: string },
  widens = false,
): readonly Step[] {
  const rateAt = (symbol: string, flow: string, when = ''): Step =>
    decidedBy(
      calculated(
        symbol,
        `metal removed in a time${when}`,
        'massRate',
        `k * r_pure${removal} * ${flow}`,
        `work metal removed for a kilogram of oxygen x removal with its purity${words} x flow${when}`,
      ),
      ...POSITION,
    );
  const rate = rateAt('R_work', 'm');
  const free = [
    ...(widens ? [rateAt('R_widen', 'm_widen', ' while widening')] : []),
    calculated(
      't_rest',
      'burning time of the rest',
      'time',
      widens ? '(rho * V) / R_widen' : '(rho * V) / R_work',
      `density x volume / metal removed in a time${widens ? ' while widening' : ''}`,
    ),
  ];
  const scatter = entered(
    'scatter',
    'departure from the plan',
    'ratio',
    1,
    'none as planned; low and high draw it by the assumption item scatter',
    'convention',
    'arithmetic',
  );
  if (!pierced)
    return [
      rate,
      ...free,
      scatter,
      calculated('t', 'burning time', 'time', 't_rest * scatter', 'the rest x departure from the plan'),
    ];
  return [
    rate,
    assumed(slag === '' ? 'c' : 'c_0', 'advance limit'),
    ...(slag === ''
      ? []
      : [
          calculated(
            'c',
            'advance limit in this position',
            'speed',
            `c_0${slag}`,
            'advance limit x factor of the position',
          ),
        ]),
    assumed('depths', 'advance depth'),
    calculated(
      'v',
      'advance that the heat allows',
      'speed',
      'R_work / (rho * (PI / 4) * w * w)',
      'metal removed in a time / (density x section of the pierce)',
    ),
    calculated(
      's',
      'depth at which slag halves the advance',
      'length',
      'depths * w',
      'advance depth x width of the pierce',
    ),
    calculated(
      't_melt',
      'time that the heat alone would take to pierce',
      'time',
      'n * x / v',
      'pierces x depth / advance that the heat allows',
    ),
    calculated(
      't_slag',
      'time that slag alone would take to get out',
      'time',
      'n * x * (1 + x / (2 * s)) / c',
      'pierces x depth x (1 + depth / (2 x halving depth)) / advance limit, which falls with depth',
    ),
    assumed('sharp', 'limit sharpness'),
    calculated(
      't_pierce',
      'burning time of the pierces',
      'time',
      't_melt * (1 + (t_slag / t_melt) ^ sharp) ^ (1 / sharp)',
      '(time of the heat ^ limit sharpness + time of slag ^ limit sharpness) ^ (1 / limit sharpness)',
      { source: 'churchill usagi' },
    ),
    ...free,
    scatter,
    calculated(
      't',
      'burning time',
      'time',
      '(t_pierce + t_rest) * scatter',
      '(pierces + rest) x departure from the plan',
    ),
  ];
}

/** Oxygen, metal and time at the work that follow from burning and rods. */
function takingSteps(
  { rod, coupled, operation, method }: ItemShape,
  {
    pierced,
    widens,
    starts,
    handling,
    cooled,
    a,
  }: {
    readonly pierced: boolean;
    readonly widens: boolean;
    readonly starts: boolean;
    readonly handling: string;
    readonly cooled: readonly Step[];
    readonly a: Assumptions;
  },
): readonly Step[] {
  const work = operation.work(a, method);
  const { tasks = [] } = work;
  const strings = coupled && a.value('string rods') > 0;
  const joined = coupled ? [`${jointsOf('N_even', strings)} * t_joint`] : [];
  const taskTerms = tasks.map(({ symbol }, i) => `${symbol} * t_task_${i + 1}`);
  const fixed = operation.crewTimes.map((_, i) => `t_${i + 1}`);
  const handled = handling === '' ? '' : ' x factor of position and access';
  return [
    assumed('idle', 'idle oxygen share'),
    assumed('t_light', 'lighting time'),
    calculated(
      'n_light',
      'lightings',
      'count',
      starts ? 'max(N, starts)' : 'N',
      starts ? 'rods or starts, the more' : 'one for each rod',
    ),
    ...(widens
      ? [calculated('m_mean', 'mean flow while burning', 'flow', 'O_burn / t', 'oxygen while burning / burning time')]
      : []),
    calculated(
      'O',
      'oxygen',
      'oxygen',
      `O_burn * (1 + idle) + n_light * ${widens ? 'm_mean' : 'm'} * t_light`,
      'oxygen while burning x (1 + idle share) + lightings x flow x lighting time',
    ),
    calculated(
      'M',
      'metal removed',
      'mass',
      pierced ? 'rho * (V + n * x * (PI / 4) * w * w)' : 'rho * V',
      'density x (volume of the rest + pierces)',
    ),
    ...operation.crewTimes.map((name, i) => assumed(`t_${i + 1}`, name)),
    calculated(
      't_fixed',
      'times of the item',
      'time',
      fixed.join(' + '),
      'times of the crew that burning does not change',
    ),
    assumed('duty', 'burning duty'),
    assumed('t_change', 'rod change time'),
    ...(coupled ? [assumed('t_joint', 'coupling time')] : []),
    ...tasks.map(({ time }, i) => assumed(`t_task_${i + 1}`, time)),
    calculated('N_even', 'rods used, at least one', 'count', 'max(1, N_used)', 'rods, not rounded'),
    decidedBy(
      calculated(
        't_work',
        'time at the work',
        'time',
        `(${['t / duty', ...taskTerms, 'N_even * t_change', ...joined].join(' + ')})${handling}`,
        `(burning time / burning duty + ${tasks.length > 0 ? 'tasks x their times + ' : ''}rods used x rod change time${coupled ? ' + couplings x coupling time' : ''})${handled}`,
      ),
      ...POSITION,
      'access',
    ),
    ...cooled,
    calculated(
      't_crew',
      'crew time',
      'time',
      `t_fixed + ${cooled.length > 0 ? 't_cool + ' : ''}t_work`,
      `times of the item + ${cooled.length > 0 ? 'cooling + ' : ''}time at the work`,
    ),
    ...costSteps({ rod, coupled, strings, work, starts, flow: widens ? 'm_mean' : 'm', handling }),
  ];
}

/** What can be asked of an item. */
const RESULTS = [
  'N',
  'O',
  't',
  't_crew',
  'l',
  'N_used',
  'C_work',
  'M',
  'n_light',
  'reach',
  'share',
  ...BALANCE_RESULTS,
  't_work',
  'rod',
  'material',
  'cooled',
  'd_m',
  'd_e',
];

/**
 * All steps of one item: sizes, tip pressure, rod, flow, heat balance, work, burning time, rods, oxygen, crew time.
 *
 * `cooled`: the steps of its cooling, where it cools; `besides`: more that is shown with it, in its symbols, and their results.
 */
export function itemList(
  shape: ItemShape,
  basis: Basis,
  cooled: readonly Step[],
  besides: { readonly steps: readonly Step[]; readonly results: readonly string[] } = { steps: [], results: [] },
): StepList {
  const { operation, rod, coupled, material, method, decidedBy: by } = shape;
  const { a } = basis;
  const work = decided(operation.work(a, method).steps, by?.method);
  const has = (symbol: string): boolean => work.some((step) => step.symbol === symbol);
  const pierced = has('n');
  const widens = operation.widening !== undefined;
  const site = siteOf(a);
  const usedSite = site.steps.filter(({ symbol }) => pierced || symbol !== 'g_pos');
  const own = operation.removal?.(a);
  const removal = {
    removal: site.removal + (own ? ' * r_own' : ''),
    slag: site.slag,
    words: (site.removal === '' ? '' : ' x factor of position') + (own ? ` x factor ${own.words}` : ''),
  };
  const all: readonly Step[] = [
    ...sizeSteps(shape),
    ...pressureSteps(operation, a),
    ...rodSteps(shape, basis),
    ...decided([...materialSteps(material), ...heatBalanceSteps(rod, material)], by?.material),
    ...BALANCE_LINES,
    ...PURITY_STEPS,
    ...usedSite,
    ...(own ? [assumed('r_own', own.factor)] : []),
    ...work,
    ...(method === undefined ? [] : [given('method', 'method', 'count', { kind: 'calculated', source: 'arithmetic' })]),
    ...burningSteps(pierced, removal, widens),
    widens
      ? calculated(
          'O_burn',
          'oxygen while burning',
          'oxygen',
          '(m * t_pierce + m_widen * t_rest) * scatter',
          '(flow x burning time of the pierces + flow while widening x that of the rest) x departure from the plan',
        )
      : calculated('O_burn', 'oxygen while burning', 'oxygen', 'm * t', 'flow x burning time'),
    calculated(
      'u_rod',
      'burn-off of the rod',
      'speed',
      'lambda * m / mu',
      'rod feed ratio x flow / steel in a length of rod',
    ),
    widens
      ? calculated(
          'l',
          'length of rod consumed',
          'length',
          'lambda * O_burn / mu',
          'rod feed ratio x oxygen while burning / steel in a length of rod',
        )
      : calculated('l', 'length of rod consumed', 'length', 'u_rod * t', 'burn-off x burning time'),
    ...countSteps(coupled, pierced, a),
    ...takingSteps(shape, { pierced, widens, starts: has('starts'), handling: site.handling, cooled, a }),
    ...besides.steps,
  ];
  // The heat left in the part stands in the heat balance, and the cooling asks for it again.
  const steps = all.filter((step, i) => step.symbol !== 'h_part' || i === all.findIndex((s) => s.symbol === 'h_part'));
  const known = new Set(steps.map((step) => step.symbol));
  const sizes = operation.order.map((name) => operation.sizes[name]!.symbol);
  return new StepList(
    steps,
    [...RESULTS, 'method', ...sizes, ...besides.results].filter((symbol) => known.has(symbol)),
  );
}
