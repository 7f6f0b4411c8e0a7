import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import type { RodChoice } from '../burn/rods.ts';
import { notesOf } from './notes.ts';
import type { Operation, Sizes } from './operation.ts';
import { rankRods, type Candidate } from './pick-rod.ts';
import { sizeItem, type Sizing } from './size-item.ts';

export interface RankedChoice {
  readonly place: 'pick' | 'runner-up' | 'other size';
  readonly sizing: Sizing;
  readonly why: string;
}

/**
 * The rod picked for an item, the runner-up, and the best of another size where the runner-up is only another length,
 * each sized and with the reason. `access` [m] is the clear length, in place of the assumptions for short rods and bars.
 */
export function rankChoices<G extends string>(
  operation: Operation<G>,
  sizes: Sizes<G>,
  access: number | undefined,
  material: Material,
  basis: Basis,
): readonly RankedChoice[] {
  const { a } = basis;
  const planned = operation.plan(sizes, a);
  const ranked = rankRods(operation, planned, undefined, material, operation.pressure(planned, a), basis, access);
  const [pick, second] = ranked as readonly [Candidate, ...Candidate[]];
  const other = second && second.rod === pick.rod ? ranked.find((c) => c.rod !== pick.rod) : undefined;
  const size = ({ rod, length, coupled }: Candidate): Sizing =>
    sizeItem(operation, sizes, { rod, length, coupled } satisfies RodChoice, material, basis);
  const longer = (c: Candidate): string => {
    const percent = 100 * (c.way.time / pick.way.time - 1);
    return percent < 0.05
      ? 'as quick'
      : `takes ${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)}% longer at the work`;
  };
  const sized = size(pick);
  return [
    { place: 'pick', sizing: sized, why: [pick.reason, ...notesOf(sized, basis)].join('; ') },
    ...(second ? [{ place: 'runner-up', sizing: size(second), why: longer(second) } as const] : []),
    ...(other ? [{ place: 'other size', sizing: size(other), why: longer(other) } as const] : []),
  ];
}
