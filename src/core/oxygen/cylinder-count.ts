import * as messages from '../messages.ts';

/**
 * Whole cylinders for an amount of oxygen [kg].
 *
 * The smallest n with n (content - changeLoss) >= oxygen, after a tolerance of 1e-9. `content` [kg]: what one cylinder
 * yields; `changeLoss` [kg]: lost each time a cylinder is put on (cracking the valve, purging regulator and hose).
 */
export function cylinderCount(oxygen: number, content: number, changeLoss: number): number {
  if (!(oxygen >= 0)) throw messages.tooLow('oxygen', `${messages.shown(oxygen)} kg`, '0 kg');
  const usable = content - changeLoss;
  if (!(usable > 0))
    throw messages.notAbove(
      'content',
      `${messages.shown(content)} kg`,
      `the ${messages.shown(changeLoss)} kg lost in putting a cylinder on`,
    );
  return Math.max(0, Math.ceil(oxygen / usable - 1e-9));
}
