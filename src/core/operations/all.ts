import { unknownName } from '../messages.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { BREACH } from './breach.ts';
import { CUT } from './cut.ts';
import { GOUGE } from './gouge.ts';
import { HOLE } from './hole.ts';
import type { Operation } from './operation.ts';
import { PIN } from './pin.ts';
import { STUD } from './stud.ts';

/** Every operation by its word, in the order of the index. A new one is added here; catalogue, cautions and tests follow. */
export const OPERATIONS = { PIN, HOLE, GOUGE, CUT, STUD, BREACH } as const;

export type OperationId = keyof typeof OPERATIONS;

export const OPERATION_IDS = Object.keys(OPERATIONS) as readonly OperationId[];

/** An operation whatever the names of its sizes, for code that handles all of them. */
export function operationOf(id: OperationId): Operation {
  return OPERATIONS[id];
}

export const isOperation = (word: string): word is OperationId => (OPERATION_IDS as readonly string[]).includes(word);

/** The operation a user means, whatever the case. `#N/A` with the nearest names where there is none. */
export function findOperation(text: string): OperationId {
  const clean = text.trim().toUpperCase();
  if (!isOperation(clean)) throw unknownName('operation', text.trim(), nearestNames(text, OPERATION_IDS));
  return clean;
}
