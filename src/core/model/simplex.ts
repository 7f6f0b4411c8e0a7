/**
 * Visits the corners of the simplex of a lattice that holds a place, with their weights: a value that is linear between them is the
 * weighted sum. The corners are reached by steps along the axes, that of the largest part first.
 *
 * @param at the place, in steps of the lattice
 * @param visit is given the corner's numbers, which it must not keep, and its weight; false ends the visit
 * @returns whether all corners were visited
 */
export function overSimplex(
  at: readonly number[],
  visit: (corner: readonly number[], weight: number) => boolean,
): boolean {
  const axes = at.length;
  const [corner, share, rising] = [new Array<number>(axes), new Array<number>(axes), new Array<number>(axes)];
  // By falling share; of equals the first axis first. There are few, and this is asked for by every item of a list.
  for (let i = 0; i < axes; i++) {
    corner[i] = Math.floor(at[i]!);
    share[i] = at[i]! - corner[i]!;
    let k = i;
    for (; k > 0 && share[rising[k - 1]!]! < share[i]!; k--) rising[k] = rising[k - 1]!;
    rising[k] = i;
  }
  if (!visit(corner, 1 - (axes > 0 ? share[rising[0]!]! : 0))) return false;
  for (let k = 0; k < axes; k++) {
    const axis = rising[k]!;
    corner[axis]!++;
    const weight = share[axis]! - (k + 1 < axes ? share[rising[k + 1]!]! : 0);
    if (weight > 0 && !visit(corner, weight)) return false;
  }
  return true;
}
