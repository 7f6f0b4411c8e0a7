import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { notesOf } from './notes.ts';
import type { Operation, Sizes } from './operation.ts';
import { rankRods } from './pick-rod.ts';
import { plannedItem, sized, type Sized } from './sized.ts';
import type { Candidate } from './ways.ts';

export interface RankedChoice {
  readonly place: 'pick' | 'runner-up' | 'other size';
  readonly sized: Sized;
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
  const task = { operation: operation as Operation, ...plannedItem(operation, sizes, basis), material };
  const ranked = rankRods(task, undefined, basis, access);
  const [pick, second] = ranked;
  const other = second && second.rod.rod === pick.rod.rod ? ranked.find((c) => c.rod.rod !== pick.rod.rod) : undefined;
  const size = ({ rod }: Candidate): Sized => sized({ operation, sizes, rod, material, basis });
  const dearer = (c: Candidate): string => {
    const percent = 100 * (c.cost / pick.cost - 1);
    return percent < 0.05
      ? 'costs as much'
      : `its work costs ${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)}% more`;
  };
  const best = size(pick);
  return [
    { place: 'pick', sized: best, why: [pick.rod.reason, ...notesOf(best, basis)].join('; ') },
    ...(second ? [{ place: 'runner-up', sized: size(second), why: dearer(second) } as const] : []),
    ...(other ? [{ place: 'other size', sized: size(other), why: dearer(other) } as const] : []),
  ];
}
