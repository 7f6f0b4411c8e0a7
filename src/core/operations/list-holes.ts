import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { rodMassPerLength, type Rod } from '../burn/rods.ts';
import type { ListedHole } from './cut-list.ts';
import { HOLE } from './hole.ts';
import { plannedItem, flowOf } from './sized.ts';
import { itemEvaluation } from './ways.ts';
import type { Operation } from './operation.ts';

/**
 * Holes of the given depths [m], pierced with one kind of rod at its own width, and the length of rod each takes down to
 * a depth y: l(y) = lambda m t(y) / mu, t(y) the burning time of a pierce of that depth (the steps of HOLE).
 *
 * `length` of a rod [m] sets the mean flow; the tip pressure is that of each hole's full depth.
 */
export function listHoles(
  depths: readonly number[],
  rod: Rod,
  length: number,
  material: Material,
  basis: Basis,
): readonly ListedHole[] {
  const width = basis.a.value('pierce width') * rod.outsideDiameter;
  const shape = { operation: HOLE as Operation, rod, coupled: false, material, method: undefined };
  const mass = rodMassPerLength(rod);
  const all = itemEvaluation(shape, basis);
  all.number('share');
  // No taper: each hole is as wide as the rod pierces.
  const at = all.over(['w', 'x', 'V', 'm_0', 'mu']);
  return depths.map((depth) => {
    const { pressure } = plannedItem(HOLE, { hole: width, depth }, basis);
    const flow = flowOf({ rod, length }, pressure, basis);
    return { depth, consumed: (y) => at.give([width, y, 0, flow, mass]).number('l') };
  });
}
