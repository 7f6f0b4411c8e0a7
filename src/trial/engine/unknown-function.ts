import { noSuchFunction } from '../../core/messages.ts';
import { nearestNames } from '../../core/units/nearest-names.ts';

/** Which function of a formula is not known, with the nearest known names; '' where all are. */
export function unknownFunction(formula: string, names: readonly string[]): string {
  const known = new Set(names);
  const called = formula.replace(/"[^"]*"/g, '""').match(/[A-Za-z_][\w.]*(?=\s*\()/g) ?? [];
  const unknown = called.map((name) => name.toUpperCase()).find((name) => !known.has(name));
  if (unknown === undefined) return '';
  // A function of a namespace is only ever mistaken for another of it.
  const space = unknown.includes('.') ? unknown.slice(0, unknown.indexOf('.') + 1) : '';
  const alike = names.filter((name) => name.startsWith(space));
  return noSuchFunction(unknown, nearestNames(unknown, alike.length > 0 ? alike : names));
}
