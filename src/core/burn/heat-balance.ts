import { assumed } from '../assumptions/assumed.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { noSolution, shown } from '../messages.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { calculated, solved, type AssumptionReader, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import {
  ironEnthalpy,
  moltenOxideEnthalpy,
  oxygenGasEnthalpy,
  splitOxidationHeat,
  splitOxygenDemand,
} from './iron-heat.ts';
import { materialSteps, workHeatSteps, type Material } from './materials.ts';
import { rodNames, type Rod } from './rods.ts';

const NASA = 'nasa polynomials';

/**
 * Heat balance of burning with an exothermic rod, per kilogram of oxygen through it. What is set free leaves by five ways:
 *
 *     H B = (lambda h_Fe + k h_w) + B (h_ox - h_Fe) + (1 - B D) h_O2 + k q_part + f H B
 *
 * metal and oxide at the temperature of the slag, oxygen that did not burn at its own, heat that stays in the part, and radiation
 * and spatter. Solved for k, the work removed,
 *
 *     k = (B a - b) / (h_w + q_part),   a = H (1 - f) - (h_ox - h_Fe) + D h_O2,   b = lambda h_Fe + h_O2
 *
 * with B = eta / D the iron burnt, D the oxygen demand of the product split, H the heat of burning per kg of iron, h_Fe and h_ox
 * what a kilogram of iron, or the molten oxide of one, holds at T, h_O2 what oxygen holds as it leaves, h_w what the work holds and
 * q_part the assumption `heat into the part`, with which the part cools and shrinks besides. Burnt iron can come from the rod and from
 * the share of the work that may burn: where lambda + burns k is less than B, B is limited to it. `#N/A` where nothing is left for
 * the work. Steps `rho` and `burns` of the material stand before.
 *
 * Range: T from the melting point of iron (1809 K) to 3000 K.
 * Source: NASA/TP-2002-211556 polynomials for iron, its oxides and oxygen; fusion of Fe3O4 from memory; the shares are assumptions.
 */
export function heatBalanceSteps(rod: Rod, material: Material): readonly Step[] {
  const names = rodNames(rod);
  const conducts = material.kind === 'metal' && material.conducts === true;
  return [
    assumed('T', slagTemperature(material)),
    assumed('lambda', names.feed),
    assumed('eta', names.burnt),
    assumed('FeO', 'product FeO share'),
    assumed('T_free', 'unburnt oxygen temperature'),
    assumed('f', 'heat lost share'),
    conducts ? assumed('f_conducted', 'conducted share') : assumed('h_part', 'heat into the part'),
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
    solved(
      'h_oxide',
      'heat content of the molten oxide of a kilogram of iron',
      'heatPerMass',
      ['T', 'FeO'],
      moltenOxideEnthalpy,
      'FeO and Fe3O4 from 25 C to the slag temperature, molten; fusion of Fe3O4 138 kJ/mol, from memory',
      NASA,
      'published',
    ),
    solved(
      'h_free',
      'heat content of oxygen that leaves unburnt',
      'heatPerMass',
      ['T_free'],
      oxygenGasEnthalpy,
      'oxygen from 25 C to its temperature as it leaves',
      NASA,
      'published',
    ),
    ...workHeatSteps(material),
    conducts
      ? calculated(
          'h_takes',
          'heat for a kilogram of the work, with what it conducts away',
          'heatPerMass',
          'h_work / (1 - f_conducted)',
          'heat content of the work / (1 - conducted share)',
        )
      : calculated(
          'h_takes',
          'heat for a kilogram of the work, with what stays in the part',
          'heatPerMass',
          'h_work + h_part',
          'heat content of the work + heat into the part',
        ),
    calculated(
      'B_free',
      'iron that the oxygen could burn',
      'ratio',
      'eta / D_ox',
      'oxygen burnt share / oxygen to burn a kilogram of iron',
    ),
    calculated(
      'h_gives',
      'heat that burning a kilogram of iron leaves over',
      'heatPerMass',
      'H * (1 - f) - (h_oxide - h_rod) + D_ox * h_free',
      'heat of burning x (1 - heat lost share) - what its oxide holds more than iron + what the oxygen it takes would have carried off',
    ),
    calculated(
      'h_first',
      'heat for rod iron and oxygen, before any work is removed',
      'heatPerMass',
      'lambda * h_rod + h_free',
      'rod feed ratio x heat content of rod iron + heat content of oxygen, as if none burnt',
    ),
    calculated(
      'carry',
      'work that the burning of a part of it melts, for each part',
      'ratio',
      'burns * h_gives / h_takes',
      'share of the work that may burn x heat that burning leaves over / heat for the work and the part',
    ),
    calculated(
      'B',
      'iron burnt for a kilogram of oxygen',
      'ratio',
      'if(carry < 1, min(B_free, max(0, (lambda - burns * h_first / h_takes) / (1 - carry))), B_free)',
      'what the oxygen could burn, limited to the rod iron and the share of the work that may burn',
    ),
    calculated(
      'k',
      'work metal removed for a kilogram of oxygen',
      'ratio',
      '(h_gives * B - h_first) / h_takes',
      '(heat that burning leaves over x iron burnt - heat for rod iron and oxygen) / heat for the work and the part',
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

const PURE = 0.995;
/** Purity below which oxygen no longer cuts. */
const LEAST_PURE = 0.95;

/**
 * What oxygen of a purity p removes over what that of 99.5 % does: step `r_pure`.
 *
 *     r = 1 - loss (99.5 % - p) / 1 %,  at most 1;  `#N/A` below 95 %
 *
 * Source: a welding course text (secondary): 98.5 % cuts 15 % slower and takes 25 % more oxygen; below 95 % it melts and washes.
 * A fifth less removed for the same oxygen is a quarter more oxygen; at the same flow the speed then falls by a fifth.
 */
export const PURITY_STEPS: readonly Step[] = [
  assumed('purity', 'oxygen purity'),
  assumed('loss_pure', 'purity loss'),
  calculated(
    'r_pure',
    'removal with this purity over that with 99.5 %',
    'ratio',
    `if(purity < ${LEAST_PURE}, 0, min(1, 1 - loss_pure * 100 * (${PURE} - purity)))`,
    '1 - purity loss x percent under 99.5, at most 1; nothing below 95 %',
    {
      source: 'oxygen purity',
      check: {
        above: 0,
        otherwise: (_, of) =>
          noSolution(
            `oxygen purity is ${shown(100 * of('purity'))} %: below 95 %, or where the loss takes all, oxygen no longer cuts; get purer oxygen`,
          ),
      },
    },
  ),
];

/** Assumption that says at which temperature the slag of a material leaves. */
export const slagTemperature = (material: Material): NumberName =>
  material.kind === 'masonry' ? 'masonry slag temperature' : 'slag temperature';

const perOxygen = (symbol: string, name: string, expression: string, words: string): Step =>
  calculated(symbol, `for a kilogram of oxygen: ${name}`, 'heatPerMass', expression, words);

/** The balance of `heatBalanceSteps` drawn up, way by way, with what is left over; after those steps. */
export const BALANCE_LINES: readonly Step[] = [
  perOxygen('e_burn', 'heat set free', 'H * B', 'heat of burning x iron burnt'),
  perOxygen(
    'e_metal',
    'heat that metal takes along unburnt',
    '(lambda - B) * h_rod + k * h_work',
    '(rod feed ratio - iron burnt) x heat content of rod iron + work removed x its heat content; what burns of the work counts as iron',
  ),
  perOxygen(
    'e_oxide',
    'heat that the oxide takes along',
    'B * h_oxide',
    'iron burnt x heat content of its molten oxide',
  ),
  perOxygen(
    'e_free',
    'heat that unburnt oxygen takes along',
    '(1 - B * D_ox) * h_free',
    '(1 - oxygen burnt) x heat content of oxygen that leaves unburnt',
  ),
  perOxygen(
    'e_part',
    'heat left in the part',
    'k * (h_takes - h_work)',
    'work removed x what the part takes besides its heat content',
  ),
  perOxygen('e_lost', 'heat lost by radiation and spatter', 'f * H * B', 'heat lost share x heat set free'),
  perOxygen(
    'e_out',
    'all that leaves',
    'e_metal + e_oxide + e_free + e_part + e_lost',
    'metal + oxide + unburnt oxygen + part + losses',
  ),
  perOxygen(
    'e_rest',
    'what the balance leaves over',
    'if(abs(e_burn - e_out) < 1e-9 * e_burn, 0, e_burn - e_out)',
    'set free less all that leaves; rounding apart, nothing',
  ),
];

/** The lines of the balance that nothing else takes. */
export const BALANCE_RESULTS: readonly string[] = ['e_rest'];

/** The heat balance by itself: density of the work, what a kilogram of oxygen removes of it, and the burnt share. */
export function heatBalanceList(rod: Rod, material: Material): StepList {
  return new StepList(
    [...materialSteps(material), ...heatBalanceSteps(rod, material), ...BALANCE_LINES],
    ['k', 'share', 'rho', 'material', ...BALANCE_RESULTS],
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
