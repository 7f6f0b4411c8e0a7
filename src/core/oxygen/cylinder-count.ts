import type { Basis } from '../basis.ts';
import * as messages from '../messages.ts';
import { Evaluation } from '../model/evaluation.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { NO_ASSUMPTIONS, Working } from '../model/working.ts';
import { cylinderSteps, deliverySteps, servedSteps } from './drawable-content.ts';
import { fullCylinderSteps } from './full-cylinder.ts';
import { leftoverSteps } from './leftover-in-force.ts';

/** Whole cylinders `N_cyl` for oxygen `O` out of what one serves, `C_use`: the smallest n with n C_use >= O, after a tolerance of 1e-9. */
export function countStep(name: string): Step {
  return calculated(
    'N_cyl',
    name,
    'count',
    'max(0, ceil(O / C_use - 1e-9))',
    'oxygen / oxygen that one cylinder serves, whole, up',
  );
}

const oxygenGiven = given('O', 'oxygen', 'oxygen');
const COUNT = new StepList(
  [oxygenGiven, given('C_use', 'oxygen that one cylinder serves', 'oxygen'), countStep('cylinders')],
  ['N_cyl'],
);

/**
 * Whole cylinders for an amount of oxygen [kg]: see `countStep`.
 *
 * @param content what one cylinder yields [kg]
 * @param changeLoss lost each time a cylinder is put on [kg]: cracking the valve, purging regulator and hose
 * @example cylinderCount(10, 5, 0.5) // 3
 */
export const cylinderCount = (oxygen: number, content: number, changeLoss: number): number =>
  cylinderCounts(content, changeLoss)(oxygen);

/** The same for one amount after the other. */
export function cylinderCounts(content: number, changeLoss: number): (oxygen: number) => number {
  const usable = content - changeLoss;
  if (!(usable > 0))
    throw messages.notAbove(
      'content',
      `${messages.shown(content)} kg`,
      `the ${messages.shown(changeLoss)} kg lost in putting a cylinder on`,
    );
  const count = new Evaluation(COUNT, { C_use: usable }, NO_ASSUMPTIONS).over(['O']);
  return (oxygen) => {
    if (!(oxygen >= 0)) throw messages.tooLow('oxygen', `${messages.shown(oxygen)} kg`, '0 kg');
    return count.give([oxygen]).number('N_cyl');
  };
}

/**
 * Whole cylinders for an amount of oxygen [kg] at the work, with the assumptions in force.
 *
 * Out of the content comes what the cold of a fast draw does not hold back, less what is lost in putting a cylinder on; lighting
 * and idle losses are in the oxygen already. What comes out at the draw flow is that of a full cylinder as assumed.
 * Sources: as `cylinderSteps`.
 *
 * @param content what can be drawn slowly from one cylinder [kg]; worked out from the cylinder as assumed where left out
 * @example countInForce(1000 * SCF, undefined, basis).value // 5
 */
export function countInForce(oxygen: number, content: number | undefined, basis: Basis): Working {
  const list = basis.once(`count ${content === undefined ? 'full' : 'given'}`, () =>
    countList(content === undefined, basis),
  );
  const evaluation = new Evaluation(list, { O: oxygen, ...(content === undefined ? {} : { C: content }) }, basis.a);
  return new Working(evaluation, 'N_cyl', ['T_cold']);
}

function countList(full: boolean, basis: Basis): StepList {
  const content = full
    ? cylinderSteps(basis)
    : [given('C', 'content', 'oxygen'), ...fullCylinderSteps(basis.a), ...leftoverSteps(), ...servedSteps(basis)];
  return new StepList([oxygenGiven, ...deliverySteps, ...content, countStep('cylinders')], ['N_cyl', 'T_cold']);
}
