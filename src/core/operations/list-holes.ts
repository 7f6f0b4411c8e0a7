import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { meanFlow } from '../burn/rod-line.ts';
import type { Rod } from '../burn/rods.ts';
import { consume, ratesInForce } from './consumption.ts';
import type { ListedHole } from './cut-list.ts';
import { HOLE } from './hole.ts';

/**
 * Holes of the given depths [m], pierced with one kind of rod at its own width, and the length of rod each takes down to
 * a depth y: l(y) = lambda m t(y) / mu, t(y) the burning time of a pierce of that depth (`consume`).
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
  const { a } = basis;
  const width = a.value('pierce width') * rod.outsideDiameter;
  const rates = ratesInForce(rod, material, basis);
  return depths.map((depth) => {
    const flow = meanFlow(rod, length, HOLE.pressure({ hole: width, depth }, a), basis);
    const work = HOLE.work({ hole: width, depth }, rod, (name) => a.value(name), a);
    return { depth, consumed: (y) => consume({ ...work, pierceDepth: y, freeVolume: 0 }, rod, flow, rates).consumed };
  });
}
