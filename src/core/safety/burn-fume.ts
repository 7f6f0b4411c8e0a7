import { assumed } from '../assumptions/assumed.ts';
import type { Basis } from '../basis.ts';
import { heatBalanceSteps } from '../burn/heat-balance.ts';
import { materialSteps, type Material } from '../burn/materials.ts';
import { meanFlowSteps, rodGiven, rodLineSteps } from '../burn/rod-line.ts';
import { rodName, rodNames, type RodChoice } from '../burn/rods.ts';
import { stubTooLong } from '../messages.ts';
import type { Given } from '../model/evaluation.ts';
import { calculated, decidedBy, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { stubOf } from '../operations/rod-fit.ts';
import { siteOf } from '../operations/site.ts';
import { INCH } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { fumeSteps } from './fume-release.ts';

const USUAL_LENGTH = 36 * INCH;

/** Steps that rest on those of `burnFume`, with their results and what is given for them. */
export interface AfterFume {
  readonly steps: readonly Step[];
  readonly results: readonly string[];
  readonly values: Given;
}

/**
 * Fume of a rod that burns a material, from the flow it passes and the heat balance in force.
 *
 *     r_rod = (rod iron fed per kg of oxygen) m,   r_work = (work removed per kg of oxygen) m
 *
 * Of copper and aluminium alloys, concrete and rock only the rod's own iron and manganese count: their own fume and dust have
 * other limits. Flow and assumptions as in the operations; see fume-release.ts for what metal becomes fume.
 *
 * @param rod of its own length, else of 36 in or the shortest stocked of a long bar
 * @param material of the work
 * @param after what is to follow in the same list, such as the air of a room
 */
export function burnFume(rod: RodChoice, material: Material, basis: Basis, after?: AfterFume): Working {
  const { a } = basis;
  const length =
    rod.length ?? rod.rod.lengths.find((l) => Math.abs(l - USUAL_LENGTH) < INCH) ?? rod.rod.lengths[0] ?? USUAL_LENGTH;
  const stub = stubOf(rod.rod, basis);
  if (!(length > stub))
    throw stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(length, 'length', a.system));
  const ferrous = material.kind === 'metal' && material.conducts !== true;
  const site = siteOf(a);
  const list = new StepList(
    [
      given('rod', 'rod', 'count'),
      given('L_rod', 'length of the rod', 'length', { words: 'given with the rod, or usual' }),
      assumed('stub', rodNames(rod.rod).stub),
      ...rodLineSteps(rod.rod, a),
      decidedBy(assumed('p', a.value('tip pressure') > 0 ? 'tip pressure' : 'fume tip pressure'), 'tip pressure'),
      ...meanFlowSteps(rod.rod, basis),
      ...materialSteps(material),
      ...heatBalanceSteps(rod.rod, material),
      ...(ferrous ? site.steps.filter(({ symbol }) => symbol === 'r_pos') : []),
      calculated('r_rod', 'rod iron fed', 'massRate', 'lambda * m', 'rod feed ratio x flow'),
      calculated(
        'r_work',
        'work metal removed',
        'massRate',
        ferrous ? `k${site.removal} * m` : '0',
        ferrous ? 'work metal removed for a kilogram of oxygen x flow' : 'not counted: no iron or manganese',
      ),
      assumed('c_rod', 'rod manganese'),
      assumed('c_work', material.name === 'manganese steel' ? 'manganese steel content' : 'work manganese'),
      assumed('e', 'fume factor'),
      assumed('k_Mn', 'manganese enrichment'),
      ...fumeSteps,
      ...(after?.steps ?? []),
    ],
    ['F', 'G_Mn', 'G_Fe', 'rod', 'material', 'rho', 'share', ...(after?.results ?? [])],
  );
  const name = rodName(rod.rod, length, rod.coupled);
  const fume = work(list, { rod: name, L_rod: length, ...rodGiven(rod.rod), ...after?.values }, a, 'F');
  fume.evaluation.number('share');
  return fume;
}
