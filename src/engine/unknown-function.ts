import { noSuchFunction, openRange } from '../core/messages.ts';
import { nearestNames } from '../core/units/nearest-names.ts';

/** A range that names the row it begins at and none to end at, which spreadsheets take for a name. */
const OPEN_RANGE = /(?<![\w.])\$?[A-Z]{1,3}\$?\d+:\$?[A-Z]{1,3}(?![\w$.(])/i;

/** Which function of a formula is not known, with the nearest known names, or which range is open; '' where neither is. */
export function unknownFunction(formula: string, names: readonly string[]): string {
  const known = new Set(names);
  const bare = formula.replace(/"[^"]*"/g, '""');
  const called = bare.match(/[A-Za-z_][\w.]*(?=\s*\()/g) ?? [];
  const unknown = called.map((name) => name.toUpperCase()).find((name) => !known.has(name));
  if (unknown === undefined) {
    const [open] = OPEN_RANGE.exec(bare) ?? [];
    return open === undefined ? '' : openRange(open);
  }
  // A function of a namespace is only ever mistaken for another of it.
  const space = unknown.includes('.') ? unknown.slice(0, unknown.indexOf('.') + 1) : '';
  const alike = names.filter((name) => name.startsWith(space));
  return noSuchFunction(unknown, nearestNames(unknown, alike.length > 0 ? alike : names));
}
