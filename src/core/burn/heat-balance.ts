import { assumed } from '../assumptions/assumed.ts';
import { noSolution, shown } from '../messages.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { calculated, solved, type AssumptionReader, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { ironEnthalpy, splitOxidationHeat, splitOxygenDemand } from './iron-heat.ts';
import { materialSteps, workHeatSteps, type Material } from './materials.ts';
import { rodNames, type Rod } from './rods.ts';

const NASA = 'nasa polynomials';

/**
 * Heat balance of burning with an exothermic rod, per kilogram of oxygen through it.
 *
 *     B = eta / D                 iron burnt, D the oxygen demand of the product split
 *     k = [H B (1 - f) - lambda h_Fe(T)] / h_w
 *
 * where H is the heat of burning per kg of iron, h_Fe(T) the heat content of the rod's iron at T and h_w that
 * of the work. Burnt iron can come from the rod and from the share of the work that may burn: where
 * lambda + burns k is less than B, B is limited to it, which only binds where burning does not carry itself.
 * `#N/A` where nothing is left for the work. Steps `rho` and `burns` of the material stand before.
 *
 * Range: T from the melting point of iron (1809 K) to 3000 K.
 * Source: NASA/TP-2002-211556 polynomials for iron and its oxides; the shares are assumptions.
 */
export function heatBalanceSteps(rod: Rod, material: Material): readonly Step[] {
  const names = rodNames(rod);
  const conducts = material.kind === 'metal' && material.conducts === true;
  return [
    assumed('T', 'slag temperature'),
    assumed('lambda', names.feed),
    assumed('eta', names.burnt),
    assumed('FeO', 'product FeO share'),
    ...(conducts
      ? [
          assumed('f_0', 'heat lost share'),
          assumed('f_conducted', 'conducted share'),
          calculated(
            'f',
            'heat lost in all',
            'ratio',
            '1 - (1 - f_0) * (1 - f_conducted)',
            '1 - (1 - heat lost share) x (1 - conducted share)',
          ),
        ]
      : [assumed('f', 'heat lost share')]),
    solved(
      'D_ox',
      'oxygen to burn a kilogram of iron',
      'ratio',
      ['FeO'],
      splitOxygenDemand,
      'from the share of the product that is FeO, rest Fe3O4',
      NASA,
      'published',
    ),
    solved(
      'H',
      'heat of burning a kilogram of iron',
      'heatPerMass',
      ['FeO'],
      splitOxidationHeat,
      'from the share of the product that is FeO, rest Fe3O4',
      NASA,
      'published',
    ),
    solved(
      'h_rod',
      'heat content of rod iron as it leaves',
      'heatPerMass',
      ['T'],
      ironEnthalpy,
      'iron from 25 C to the slag temperature',
      NASA,
      'published',
    ),
    ...workHeatSteps(material),
    calculated(
      'B_free',
      'iron that the oxygen could burn',
      'ratio',
      'eta / D_ox',
      'oxygen burnt share / oxygen to burn a kilogram of iron',
    ),
    calculated(
      'carry',
      'work that the burning of a part of it melts, for each part',
      'ratio',
      'burns * H * (1 - f) / h_work',
      'share of the work that may burn x heat of burning x (1 - heat lost share) / heat content of the work',
    ),
    calculated(
      'B',
      'iron burnt for a kilogram of oxygen',
      'ratio',
      'if(carry < 1, min(B_free, max(0, lambda * (1 - burns * h_rod / h_work) / (1 - carry))), B_free)',
      'what the oxygen could burn, limited to the rod iron and the share of the work that may burn',
    ),
    calculated(
      'k',
      'work metal removed for a kilogram of oxygen',
      'ratio',
      '(H * B * (1 - f) - lambda * h_rod) / h_work',
      '(heat of burning x iron burnt x (1 - heat lost share) - rod feed ratio x heat content of rod iron) / heat content of the work',
      {
        check: {
          above: 0,
          otherwise: (_, of) =>
            noSolution(
              `with oxygen burnt share ${shown(of('eta'))}, feed ratio ${shown(of('lambda'))} and heat lost share ${shown(of('f'))} the rod's heat only melts the rod: ` +
                `nothing is left to remove ${material.name}; change one of these assumptions`,
            ),
        },
      },
    ),
    calculated(
      'share',
      'burnt share of the metal that leaves',
      'ratio',
      // Limited, the share is 1 at most, but for rounding.
      'if(B < B_free, min(1, B / (lambda + k)), B / (lambda + k))',
      'iron burnt / (rod feed ratio + work metal removed); must be between 0 and 1',
      {
        check: {
          most: 1,
          otherwise: (share) =>
            noSolution(
              `the assumptions burn ${shown(share)} of the metal that leaves; it cannot be more than 1: lower oxygen burnt share or heat lost share`,
            ),
        },
      },
    ),
  ];
}

/** The heat balance by itself: density of the work, what a kilogram of oxygen removes of it, and the burnt share. */
export function heatBalanceList(rod: Rod, material: Material): StepList {
  return new StepList(
    [...materialSteps(material), ...heatBalanceSteps(rod, material)],
    ['k', 'share', 'rho', 'material'],
  );
}

/** Work removed, and rod iron fed, for a kilogram of oxygen [kg/kg], with the density of the work [kg/m3]. */
export interface Removal {
  readonly removed: number;
  readonly fed: number;
  readonly density: number;
}

/**
 * What a kind of rod removes of a material with the assumptions in force, or with others `given` by symbol; `#N/A` where nothing
 * is left to remove it, or where more than all the metal would burn.
 */
export function removalOf(rod: Rod, material: Material, reader: AssumptionReader, given: Given = {}): Removal {
  const at = new Evaluation(heatBalanceList(rod, material), given, reader);
  at.number('share');
  return { removed: at.number('k'), fed: at.number('lambda'), density: at.number('rho') };
}
