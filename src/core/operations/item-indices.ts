/** How much each assumption brings into what is uncertain of one item. */
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { sobolIndices, type Indices } from '../spread/sobol-indices.ts';
import { drawnWith } from '../spread/drawn-together.ts';
import {
  cooledBy,
  correlatedAt,
  correlatedKey,
  drawItem,
  placesOf,
  scoresAt,
  scoresKey,
  type Placed,
} from './draw-item.ts';
import { shuffled } from './own-scatter.ts';
import type { Sized } from './sized.ts';
import { DRAWS } from './spread-item.ts';

/** Any key but 0, which keeps the order. */
const OTHER_ORDER = 1;

/** Indices of oxygen, rods and crew time, in this order. */
export type ItemIndices = readonly (Indices | undefined)[];

/**
 * First and total Sobol indices of the results of one item, for each assumption that its spread is drawn from.
 *
 * A are the draws that its low and high come from, B the same in another order. Assumptions that are drawn together, or are
 * correlated, have one index together. The item's own scatter brings in the rest.
 */
export function itemIndices(item: Sized, basis: Basis): ReadonlyMap<NumberName, ItemIndices> {
  const places = placesOf(item, basis).filter(({ name }) => {
    const { low, high } = basis.a.inForce(name);
    return low < high;
  });
  const correlated = correlatedAt(DRAWS, basis);
  const isCorrelated = ({ name }: Placed): boolean => correlated.has(drawnWith(name, basis.a).name);
  const keyOf = (p: Placed): string => (isCorrelated(p) ? correlatedKey(DRAWS) : scoresKey(p, DRAWS));
  const inOrder = (scores: Float64Array): Float64Array => shuffled(scores, OTHER_ORDER);
  const other = new Map<string, unknown>(
    places.map((p) => [
      keyOf(p),
      isCorrelated(p)
        ? new Map([...correlated].map(([name, scores]) => [name, inOrder(scores)]))
        : inOrder(scoresAt(p, DRAWS, basis)),
    ]),
  );
  const cooling = cooledBy(item.operation, basis.a);
  const at = (otherwise: readonly string[]): readonly Float64Array[] => {
    const changed = places.filter((p) => otherwise.includes(keyOf(p))).map(({ name }) => name);
    const drawn = basis.apart(
      ...otherwise,
      ...changed.map((name) => `draws ${name} `),
      ...(changed.some((name) => cooling.includes(name)) ? ['cooling draws '] : []),
    );
    for (const key of otherwise) drawn.once(key, () => other.get(key));
    const { oxygen, rods, crewTime } = drawItem(item, DRAWS, drawn);
    // The next item drawn on this basis would overwrite them; there is none.
    return [oxygen, rods, crewTime];
  };
  const all = [...other.keys()];
  const [atA, atB] = [at([]), at(all)];
  const each = new Map(
    all.map((key) => {
      const mixed = at([key]);
      return [key, mixed.map((result, i) => sobolIndices(atA[i]!, atB[i]!, result))] as const;
    }),
  );
  return new Map(places.map((p) => [p.name, each.get(keyOf(p))!]));
}
