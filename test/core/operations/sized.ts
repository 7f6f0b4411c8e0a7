import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import type { Operation, Sizes } from '../../../src/core/operations/operation.ts';
import { sized as sizedItem, type Sized } from '../../../src/core/operations/sized.ts';

export const IN = 0.0254;

export const basisOf = (...overrides: readonly Override[]): Basis => new Basis(Assumptions.from(overrides));
/** An assumption set to a value in SI, without a range. */
export const set = (name: Extract<Override, { value: number }>['name'], value: number): Override => ({
  name,
  value,
  low: value,
  high: value,
  kind: 'your value',
});
export const word = (name: Extract<Override, { word: string }>['name'], text: string): Override => ({
  name,
  word: text,
});

/** Sizes in inches, and counts, as SI in the order of the operation. */
export const inSi = ({ order, sizes }: Operation, given: readonly number[]): readonly number[] =>
  given.map((size, k) => (sizes[order[k]!]!.whole ? size : size * IN));

interface How {
  readonly rod?: string;
  readonly material?: string;
  readonly basis?: Basis;
}

/** Sizes one item; sizes in SI in the order of the operation. */
export function sized<G extends string>(
  operation: Operation<G>,
  sizes: readonly number[],
  { rod, material, basis = basisOf() }: How = {},
): Sized {
  const named = Object.fromEntries(operation.order.map((name, i) => [name, sizes[i]])) as Sizes<G>;
  return sizedItem({
    operation,
    sizes: named,
    rod: rod === undefined ? undefined : findRod(rod),
    material: findMaterial(material ?? basis.a.word(operation.material ?? 'material')),
    basis,
  });
}
