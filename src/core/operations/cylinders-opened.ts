import type { Basis } from '../basis.ts';
import { drawableContent } from '../oxygen/drawable-content.ts';

/**
 * Full cylinders opened for each item of a list that shares them, in order; they add up to the cylinders of the list.
 *
 * `oxygen` [kg] of each item.
 */
export function cylindersOpened(oxygen: readonly number[], basis: Basis): readonly number[] {
  const content = drawableContent(basis);
  let sum = 0;
  let opened = 0;
  return oxygen.map((each) => {
    sum += each;
    const all = Math.ceil(sum / content - 1e-9);
    const now = all - opened;
    opened = all;
    return now;
  });
}
