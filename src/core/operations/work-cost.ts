import { assumed } from '../assumptions/assumed.ts';
import { rodNames, type Rod } from '../burn/rods.ts';
import { calculated, type Step } from '../model/step.ts';
import type { Work } from './operation.ts';

/** Couplings of so many rods: one fewer, or one fewer each string. */
export const jointsOf = (rods: string, strings: boolean): string =>
  strings ? `(${rods} - ${rods} / most)` : `(${rods} - 1)`;

/**
 * What the work of an item costs with one rod and in one way: crew time at the work, rods and oxygen by the prices assumed.
 * By it ways and rods are chosen.
 *
 *     C_work = P_crew (t_work - t_rounded) + P_rod mu L_rod N_used + P_O O_even [+ P_joint (N_even - 1)]
 *
 * t_rounded: what rounding up the tasks adds to the time at the work. Rods, holes of a row and passes count as they are before they
 * are rounded up: what a rod has left serves the next item, and the cost goes up evenly with every size, so that a choice does not
 * change back and forth with the next whole rod. Times of the item and cooling are the same for all ways and left out. Source: arithmetic; the prices are common practice.
 */
export function costSteps({
  rod,
  coupled,
  strings,
  work: { even, tasks = [] },
  starts,
  flow,
  handling,
}: {
  readonly rod: Rod;
  readonly coupled: boolean;
  /** Whether strings are of so many rods at most, `most`. */
  readonly strings: boolean;
  readonly work: Work;
  readonly starts: boolean;
  /** Step of the mean flow while burning. */
  readonly flow: string;
  /** Factors of position and access, as ` * hand_1`, or ''. */
  readonly handling: string;
}): readonly Step[] {
  const lit = starts ? `max(N_even, ${even ?? 'starts'})` : 'N_even';
  const rounded = tasks.map(({ symbol, even: n }, i) =>
    n === undefined ? '' : ` - P_crew * (${symbol} - ${n}) * t_task_${i + 1}${handling}`,
  );
  return [
    calculated(
      'O_even',
      'oxygen, rods not rounded',
      'oxygen',
      `O_burn * (1 + idle) + ${lit} * ${flow} * t_light`,
      `oxygen while burning x (1 + idle share) + lightings x flow x lighting time`,
    ),
    assumed('P_crew', 'crew price'),
    assumed('P_rod', rodNames(rod).price),
    assumed('P_O', 'oxygen price'),
    ...(coupled ? [assumed('P_joint', 'coupling price')] : []),
    calculated(
      'C_work',
      'cost of the work, by which ways and rods are weighed',
      'money',
      `P_crew * t_work${rounded.join('')} + P_rod * mu * L_rod * N_used + P_O * O_even${coupled ? ` + P_joint * ${jointsOf('N_even', strings)}` : ''}`,
      `crew price x time at the work${rounded.join('') === '' ? '' : ', tasks not rounded,'} + rod price x weight of the rods used + oxygen price x oxygen${coupled ? ' + coupling price x couplings' : ''}`,
    ),
  ];
}
