import { isChoice, type Assumption } from './assumption.ts';
import { registryAsOf, type Change } from './history.ts';
import { showRanged } from './show-assumption.ts';

/** A default that differs between two versions, in words: `2 (1 to 3) in`. */
export interface ChangedDefault {
  readonly name: string;
  readonly before: string;
  readonly after: string;
}

/** The defaults that differ between two versions, in the order of the registry. */
export function changedDefaults(from: string, to: string, history: readonly Change[]): readonly ChangedDefault[] {
  const now = new Map(registryAsOf(to, history).map((a) => [a.name, a]));
  return registryAsOf(from, history).flatMap((then) => {
    const after = now.get(then.name);
    return after && JSON.stringify(then) !== JSON.stringify(after)
      ? [{ name: then.name, before: shownDefault(then), after: shownDefault(after) }]
      : [];
  });
}

const shownDefault = (a: Assumption): string => (isChoice(a) ? a.value : showRanged(a));
