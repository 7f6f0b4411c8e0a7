import type { Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { countStep } from '../oxygen/cylinder-count.ts';
import { cylinderSteps } from '../oxygen/drawable-content.ts';
import { settingSteps } from '../oxygen/hose-setting.ts';
import type { Besides, Sized } from './sized.ts';

/** What to set at the regulator. SI, gauge. */
export interface Setting {
  /** As its gauge reads, flowing or standing as assumed. */
  readonly gauge: number;
  /** At its outlet while the oxygen flows. */
  readonly outlet: number;
}

/**
 * The supply of one item by itself, after its tip pressure `p`, mean flow `m` and oxygen `O`: regulator setting `p_reg`, content
 * of a cylinder `C_use`, cylinders `N_cyl`. `T_cold` and `p_reg` are results besides.
 */
export function supplySteps(basis: Basis): readonly Step[] {
  return [
    ...settingSteps(basis.a),
    calculated(
      'p_del',
      'delivery pressure of the regulator',
      'pressure',
      'p_out',
      "pressure at the regulator's outlet",
    ),
    calculated('m_feed', 'flow fed by the regulator', 'flow', 'm', 'mean flow through the rod'),
    ...cylinderSteps(basis),
    countStep('cylinders for this item alone'),
  ];
}

/** A list of supply steps, or of the setting alone, after what the item hands over. */
function supplyList(steps: readonly Step[], results: readonly string[]): StepList {
  return new StepList(
    [
      given('p', 'tip pressure', 'pressure'),
      given('m', 'mean flow through the rod', 'flow'),
      ...(results.includes('N_cyl') ? [given('O', 'oxygen', 'oxygen')] : []),
      ...steps,
    ],
    results,
  );
}

/**
 * What to set at the regulator for an item, through the hose as assumed. Throws where the hose cannot pass the flow.
 *
 * @example itemSetting(item, basis).gauge / PSI // 91.59
 */
export function itemSetting({ pressure, flow }: Pick<Sized, 'pressure' | 'flow'>, { a, once }: Basis): Setting {
  return once(`setting ${pressure} ${flow}`, () => {
    const list = once('setting', () => supplyList(settingSteps(a), ['p_reg']));
    const setting = new Evaluation(list, { p: pressure, m: flow }, a);
    return { gauge: setting.number('p_reg'), outlet: setting.number('p_out') };
  });
}

/** The regulator setting of an item, to be shown with its steps; nothing where the hose cannot pass the flow. */
export function settingOf(item: Pick<Sized, 'pressure' | 'flow'>, basis: Basis): Besides {
  try {
    itemSetting(item, basis);
    return { steps: settingSteps(basis.a), results: ['p_reg'] };
  } catch (e) {
    if (e instanceof CalcError) return { steps: [], results: [] };
    throw e;
  }
}

/** The supply of one item by itself, to be shown with its steps, as far as it goes; where there is none, why. */
export function supplyOf(
  { pressure, flow, oxygen }: Pick<Sized, 'pressure' | 'flow' | 'oxygen'>,
  basis: Basis,
): Besides {
  const steps = supplySteps(basis);
  const list = basis.once('supply', () => supplyList(steps, ['N_cyl', 'p_reg', 'T_cold']));
  const supply = new Evaluation(list, { p: pressure, m: flow, O: oxygen }, basis.a);
  const failing = steps.findIndex(({ symbol }) => failureOf(supply, symbol) !== undefined);
  if (failing < 0) return { steps, results: ['N_cyl', 'p_reg', 'T_cold'] };
  const passed = steps.slice(0, failing);
  const { message } = failureOf(supply, (steps[failing] as Step).symbol) as CalcError;
  const why = entered(
    'supply',
    'oxygen supply',
    'count',
    message,
    'no supply as assumed feeds this item',
    'calculated',
    '',
  );
  return { steps: [...passed, why], results: [...passed.map(({ symbol }) => symbol), 'supply'] };
}

function failureOf(supply: Evaluation, symbol: string): CalcError | undefined {
  try {
    supply.number(symbol);
    return undefined;
  } catch (e) {
    if (e instanceof CalcError) return e;
    throw e;
  }
}
