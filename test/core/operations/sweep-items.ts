import type { OperationId } from '../../../src/core/operations/all.ts';

/** Sizes of items over what each operation is for; inches, counts as they are. */
export const SWEEP: Readonly<Record<OperationId, readonly (readonly number[])[]>> = {
  PIN: [...[1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10].map((d) => [d, 2.5 * d]), [4, 6], [4, 30], [4, 10, 1.6], [4, 10, 3.2]],
  HOLE: [
    [0.5, 2],
    [0.75, 6],
    [0.75, 20],
    [1, 4],
    [1, 10],
    [1.5, 10],
    [2, 8],
    [3, 4],
  ],
  GOUGE: [
    [0.5, 0.25, 24],
    [0.5, 0.5, 24],
    [0.75, 0.5, 24],
    [0.75, 0.75, 12],
    [1.5, 1, 36],
  ],
  CUT: [
    [0.25, 24],
    [0.5, 24],
    [1, 24],
    [1.5, 36],
    [2, 20],
    [5.3, 24],
    [12, 24],
  ],
  STUD: [
    [0.5, 4],
    [0.75, 12],
    [1, 8],
    [1.5, 10],
    [2.5, 4],
    [4, 3],
  ],
  BREACH: [
    [6, 1.5, 2],
    [8, 1.5, 4],
    [24, 2.5, 1],
    [36, 2.5, 1],
    [48, 3, 1],
  ],
};
