import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { rodMassPerLength, type Rod } from '../burn/rods.ts';
import type { ListedHole } from './cut-list.ts';
import { HOLE } from './hole.ts';
import { endOfRod, rodBurned } from './pierce-rods.ts';
import { plannedItem } from './sized.ts';
import { flowOf, itemEvaluation } from './ways.ts';
import type { Operation } from './operation.ts';

/**
 * Holes of the given depths [m], pierced with one kind of rod at its own width, and the length of rod each takes down to
 * a depth: with the burn-off and the advances of the steps of HOLE, so that one hole takes the rods that HOLE counts for it.
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
  const at = all.over(['w', 'm_0', 'mu']);
  return depths.map((depth) => {
    const { pressure } = plannedItem(HOLE, { hole: width, depth }, basis);
    at.give([width, flowOf({ rod, length }, pressure, basis), mass]);
    const of = (symbol: string): number => at.number(symbol);
    const pierce = { burnOff: of('u_rod'), advance: of('v'), limit: of('c'), halving: of('s'), sharpness: of('sharp') };
    return { depth, consumed: (y) => rodBurned(pierce, y), end: (from, burns) => endOfRod(pierce, from, burns) };
  });
}
