import { nothingFound } from '../core/messages.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { optional } from './declaration.ts';

/** The argument of a listing that narrows it. */
export const search = optional({ kind: 'text' }, 'Words to look for; everything when left out', '"stub"');

/** Entries that hold all the words; `#N/A` with the nearest names where none does. */
export function matching<T>(
  entries: readonly T[],
  words: string | undefined,
  textOf: (entry: T) => string,
  nameOf: (entry: T) => string,
): readonly T[] {
  const wanted = (words ?? '')
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '');
  const found = entries.filter((e) => wanted.every((w) => textOf(e).toLowerCase().includes(w)));
  if (found.length === 0) throw nothingFound(words ?? '', nearestNames(words ?? '', entries.map(nameOf)));
  return found;
}
