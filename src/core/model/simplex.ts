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
  const corner = at.map(Math.floor);
  const share = (i: number | undefined): number => (i === undefined ? 0 : at[i]! - Math.floor(at[i]!));
  const rising = at.map((_, i) => i).sort((i, j) => share(j) - share(i));
  if (!visit(corner, 1 - share(rising[0]))) return false;
  return rising.every((axis, i) => {
    corner[axis]!++;
    const weight = share(axis) - share(rising[i + 1]);
    return weight > 0 ? visit(corner, weight) : true;
  });
}
