import { OPERATION_IDS, operationOf } from '../core/operations/all.ts';
import type { Declaration } from './declaration.ts';
import { operationFamily } from './operation-family.ts';

/** The seven functions of every operation. */
export const OPERATION_FUNCTIONS: readonly Declaration[] = OPERATION_IDS.flatMap((id) =>
  operationFamily(operationOf(id)),
);
