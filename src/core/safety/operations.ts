import { unknownName } from '../messages.ts';
import { OPERATION_IDS, type OperationId } from '../operations/all.ts';
import { nearestNames } from '../units/nearest-names.ts';

/** The operations, by the words of their functions. */
export const OPERATIONS = OPERATION_IDS;

export type Operation = OperationId;

export const isOperation = (word: string): word is Operation => (OPERATIONS as readonly string[]).includes(word);

/** The operation a user means, whatever the case. `#N/A` with the nearest names where there is none. */
export function findOperation(text: string): Operation {
  const clean = text.trim().toUpperCase();
  if (!isOperation(clean)) throw unknownName('operation', text.trim(), nearestNames(text, OPERATIONS));
  return clean;
}
