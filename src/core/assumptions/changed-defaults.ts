import { shown } from '../messages.ts';
import { isChoice, type Assumption } from './assumption.ts';
import { registryAsOf, type Change } from './history.ts';

/** A default that differs between two versions, in words: `2 in (1 to 3)`. */
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

function shownDefault(a: Assumption): string {
  return isChoice(a)
    ? a.value
    : `${shown(a.value)}${a.unit === '' ? '' : ` ${a.unit}`} (${shown(a.low)} to ${shown(a.high)})`;
}
