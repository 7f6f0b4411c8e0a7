/** What a release is called: version of the program and version of the calculation, as `0.1.0-2026.11.29`. */
import { readFileSync } from 'node:fs';
import { CALCULATION_VERSION } from '../core/version.ts';

const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
  readonly version: string;
};

/**
 * Both, since either alone would name two different things alike: a pane can change while no figure moves, and figures can
 * move while package.json stays. The second half is what BURN.VERSION shows in a cell.
 */
export const RELEASE_VERSION = `${manifest.version}-${CALCULATION_VERSION}`;

/** Order of two releases, older first: by program, then by calculation, number by number. */
export function compareReleases(one: string, other: string): number {
  const [a, b] = [one, other].map((each) => (each.match(/\d+/g) ?? []).map(Number));
  const at = (a ?? []).findIndex((number, i) => number !== b?.[i]);
  return at === -1 ? 0 : a![at]! - (b?.[at] ?? 0);
}
